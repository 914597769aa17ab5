using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Plans for the devices, which search far slower, and what else can be asked of a plan. One search of the floor's and one of the desk's at a time: each takes a core, and what is read at leisure must not hold up a mechanic.</summary>
/// <remarks>
/// Every question names how many entries the device has, as with more or fewer here the answer would be for another standing, and the fingerprint of its map.
/// Each answers with what was found, or with the one sentence that says why there is nothing.
/// </remarks>
public sealed class PlanDesk(Workshop workshop)
{
    private readonly SemaphoreSlim _floor = new(1);
    private readonly SemaphoreSlim _desk = new(1);

    /// <summary>The plan on from where the job stands.</summary>
    public Task<IResult> MakeAsync(Guid job, string? entries, string? map, CancellationToken ct) => AskAsync(_floor, job, entries, map, ct, standing =>
    {
        var planned = Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.Usual, ct);
        return Answer(planned.Plan, planned.Refusal);
    });

    /// <summary>That plan, and what each other way that the map offers along it would make of it.</summary>
    public Task<IResult> ForksAsync(Guid job, string? entries, string? map, CancellationToken ct) => AskAsync(_desk, job, entries, map, ct, standing =>
    {
        var goal = GoalLeft.Of(standing);
        var planned = Planner.Make(standing, goal, PlanLimits.Usual, ct);
        return Answer(planned.Plan is { } plan ? new ForkedPlan(plan, Forks.Of(standing, goal, plan, PlanLimits.Quick, ct)) : null, planned.Refusal);
    });

    /// <summary>What else could be renewed while the machine is open, the largest saving first.</summary>
    public Task<IResult> ExtrasAsync(Guid job, string? entries, string? map, CancellationToken ct) => AskAsync(_desk, job, entries, map, ct, standing =>
    {
        var found = Extras.Of(standing.Net, GoalLeft.Of(standing), standing.Done, PlanLimits.Quick, ct, standing.Stuck);
        // What the job is for is nothing extra, though it be renewed and home again.
        return Answer(found.Extras?.Where(extra => !standing.GoalParts.Contains(extra.Part)), found.Refusal);
    });

    /// <summary>Who of two people does what, and when.</summary>
    public Task<IResult> HandsAsync(Guid job, string? entries, string? map, CancellationToken ct) => AskAsync(_desk, job, entries, map, ct, standing =>
    {
        var made = HandsPlanner.Make(standing, GoalLeft.Of(standing), PlanLimits.Usual, ct);
        return Answer(made.Value, made.Sentence);
    });

    private static IResult Answer<T>(T? found, string? refusal) where T : class =>
        found is not null ? Results.Ok(found) : Results.Problem(refusal, statusCode: StatusCodes.Status422UnprocessableEntity);

    private async Task<IResult> AskAsync(SemaphoreSlim free, Guid job, string? entries, string? map, CancellationToken ct, Func<Standing, IResult> find)
    {
        if (!int.TryParse(entries, out var known) || map is null)
        {
            return Results.Problem("Say how many entries of the job the device has (entries=7) and the SHA-256 of its map (map=…).", statusCode: StatusCodes.Status400BadRequest);
        }

        if (workshop.Entries.Job(job) is not { } here)
        {
            return Results.Problem($"There is no job {job} here; send its entries first.", statusCode: StatusCodes.Status404NotFound);
        }

        if (here.Entries != known)
        {
            return Results.Problem($"The job has {here.Entries} entries here and {known} on the device; exchange them first.", statusCode: StatusCodes.Status409Conflict);
        }

        List<Entry> ledger = [.. EntryLine.ReadAll((await workshop.Entries.PageAsync(job, 0)).Lines)];
        if (JobOpened.In(ledger) is not { } opened || workshop.Maps.Text(opened) is not { } text || Entry.Sha256(text) != map || MapReader.Read(text, opened.Map).Map is not { } read)
        {
            return Results.Problem($"The map “{here.Map}” is not here as the device has it; fetch it anew.", statusCode: StatusCodes.Status409Conflict);
        }

        var standing = Job.From(OperationNet.From(read), ledger).Standing;
        await free.WaitAsync(ct);
        try
        {
            return await Task.Run(() => find(standing), ct);
        }
        finally
        {
            free.Release();
        }
    }
}
