using System.Text;
using System.Text.Json;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Jobs, their plans, and the exchange of entries.</summary>
internal static class JobEndpoints
{
    /// <summary>The header of the list of jobs that says which store has them.</summary>
    public const string StoreHeader = "Lastoff-Store";

    public static void MapJobs(this IEndpointRouteBuilder api, Workshop workshop)
    {
        var desk = new PlanDesk(workshop);
        // Every device fetches the list at every news, and the list is all jobs there ever were.
        var jobs = new SharedAnswer<(string Store, byte[] Json)>(() =>
        {
            var list = workshop.Entries.Jobs();
            return (list.Store, JsonSerializer.SerializeToUtf8Bytes(list.Jobs, JsonSerializerOptions.Web));
        });
        api.MapGet("/jobs", async (HttpResponse response) =>
        {
            var (store, json) = await jobs.GetAsync();
            response.Headers[StoreHeader] = store;
            return Results.Bytes(json, "application/json; charset=utf-8");
        });
        api.MapGet("/jobs/{id:guid}/entries", (Guid id, long? after) => workshop.Entries.PageAsync(id, after ?? 0));
        api.MapGet("/jobs/{id:guid}/ledger", (Guid id) => LedgerAsync(workshop, id));
        api.MapGet("/jobs/{id:guid}/plan", (Guid id, string? entries, string? map, CancellationToken ct) => desk.MakeAsync(id, entries, map, ct));
        api.MapGet("/jobs/{id:guid}/plan/forks", (Guid id, string? entries, string? map, CancellationToken ct) => desk.ForksAsync(id, entries, map, ct));
        api.MapGet("/jobs/{id:guid}/plan/extras", (Guid id, string? entries, string? map, CancellationToken ct) => desk.ExtrasAsync(id, entries, map, ct));
        api.MapGet("/jobs/{id:guid}/plan/two-hands", (Guid id, string? entries, string? map, CancellationToken ct) => desk.HandsAsync(id, entries, map, ct));
        api.MapPost("/jobs/{id:guid}/entries", async (Guid id, HttpRequest request) =>
        {
            using var reader = new StreamReader(request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
            try
            {
                var lines = (await reader.ReadToEndAsync()).Split('\n').Where(line => !string.IsNullOrWhiteSpace(line));
                return Results.Ok(await workshop.Entries.TakeAsync(id, lines));
            }
            catch (DecoderFallbackException)
            {
                return Results.Problem("The entries are not valid UTF-8; send them as they were written.", statusCode: StatusCodes.Status400BadRequest);
            }
        });
    }

    private static async Task<IResult> LedgerAsync(Workshop workshop, Guid id)
    {
        var lines = (await workshop.Entries.PageAsync(id, 0)).Lines;
        return lines.Count == 0
            ? Results.NotFound()
            : Results.File(Encoding.UTF8.GetBytes(string.Concat(lines.Select(l => l + "\n"))), "application/jsonl", $"{id}.ledger.jsonl");
    }
}
