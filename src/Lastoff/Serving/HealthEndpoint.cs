using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Whether the server can read and write its records: for whoever watches it or stands before it.</summary>
internal static class HealthEndpoint
{
    public static void MapHealth(this IEndpointRouteBuilder routes, Workshop workshop) => routes.MapGet("/health", async () =>
    {
        // What is not well is answered like any other call that meets it: 503 and one sentence.
        await workshop.Entries.TryAsync();
        return Results.Ok(new { status = "well" });
    });
}
