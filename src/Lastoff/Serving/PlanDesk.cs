using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Plans for the devices, which search far slower. One search at a time: each takes a core for seconds.</summary>
public sealed class PlanDesk(Workshop workshop)
{
    private readonly SemaphoreSlim _free = new(1);

    /// <summary>The plan on from where the job stands, or the one sentence that says why there is none.</summary>
    /// <param name="entries">How many entries the device has: with more or fewer here, the plan would be for another standing.</param>
    /// <param name="map">The fingerprint of the device's map.</param>
    public async Task<IResult> MakeAsync(Guid job, string? entries, string? map, CancellationToken ct)
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
        await _free.WaitAsync(ct);
        try
        {
            var planned = await Task.Run(() => Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.Usual, ct), ct);
            return planned.HasPlan ? Results.Ok(planned.Plan) : Results.Problem(planned.Refusal, statusCode: StatusCodes.Status422UnprocessableEntity);
        }
        finally
        {
            _free.Release();
        }
    }
}
