using System.Text;

namespace Lastoff.Serving;

/// <summary>What devices ask of the server: maps, jobs, plans, and the exchange of entries.</summary>
public static class Endpoints
{
    /// <summary>How much a device may send at once; it sends a long outbox in several pieces.</summary>
    public const int LargestBody = 4 * 1024 * 1024;

    public static void MapWorkshop(this IEndpointRouteBuilder routes, Workshop workshop)
    {
        var desk = new PlanDesk(workshop);
        var api = routes.MapGroup("/api");
        api.MapGet("/maps", () => workshop.Maps.List());
        api.MapGet("/maps/{name}", (string name) => workshop.Maps.Text(name) is { } text
            ? Results.Text(text, "application/yaml", Encoding.UTF8)
            : Results.NotFound());
        api.MapGet("/jobs", () => workshop.Entries.Jobs());
        api.MapGet("/jobs/{id:guid}/entries", (Guid id, long? after) => workshop.Entries.Page(id, after ?? 0));
        api.MapGet("/jobs/{id:guid}/ledger", (Guid id) => Ledger(workshop, id));
        api.MapGet("/jobs/{id:guid}/plan", (Guid id, string? entries, string? map, CancellationToken ct) => desk.MakeAsync(id, entries, map, ct));
        api.MapPost("/jobs/{id:guid}/entries", async (Guid id, HttpRequest request) =>
        {
            using var reader = new StreamReader(request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
            try
            {
                var lines = (await reader.ReadToEndAsync()).Split('\n').Where(line => !string.IsNullOrWhiteSpace(line));
                return Results.Ok(workshop.Entries.Take(id, lines));
            }
            catch (DecoderFallbackException)
            {
                return Results.Problem("The entries are not valid UTF-8; send them as they were written.", statusCode: StatusCodes.Status400BadRequest);
            }
        });
        api.MapFallback(() => Results.NotFound());
    }

    private static IResult Ledger(Workshop workshop, Guid id)
    {
        var lines = workshop.Entries.Page(id, 0).Lines;
        return lines.Count == 0
            ? Results.NotFound()
            : Results.File(Encoding.UTF8.GetBytes(string.Concat(lines.Select(l => l + "\n"))), "application/jsonl", $"{id}.ledger.jsonl");
    }
}
