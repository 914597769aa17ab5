using System.Text;
using Lastoff.Core.Papers;
using Lastoff.Papers;
using Lastoff.Storing;

namespace Lastoff.Doors;

/// <summary>A customer sees their own job, and nothing else, by a link that ends by itself.</summary>
internal static class CustomerEndpoints
{
    private const string OpensNothing = """
        <!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex">
        <title>This link opens nothing</title><link rel="stylesheet" href="/css/record.css"></head>
        <body><main><h1>This link opens nothing</h1><p>It is too old or not whole. Ask the workshop for a new one.</p></main></body></html>
        """;

    internal sealed record Link(string Address, DateTimeOffset Until);

    public static void MapCustomerLinks(this IEndpointRouteBuilder api) =>
        api.MapPost("/jobs/{id:guid}/link", (Guid id, HttpContext context, ReachedAt reached, CustomerLinks links, Workshop workshop, TimeProvider clock) =>
        {
            var until = clock.GetUtcNow() + CustomerLinks.Life;
            return workshop.Entries.Job(id) is not null
                ? Results.Ok(new Link($"{reached.For(context)}/record/{links.For(id, until)}", until))
                : Results.NotFound();
        }).RequireAuthorization(DoorSetup.Customers);

    public static void MapCustomerRecord(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/record/{link}", async (string link, HttpContext context, CustomerLinks links, WorkshopPapers papers) =>
            links.Job(link) is { } id && await papers.MakeAsync(id, PaperKind.Handover, null, context.RequestAborted) is { } paper
                ? PaperEndpoints.Page(context.Response, paper)
                : Results.Content(OpensNothing, "text/html; charset=utf-8", Encoding.UTF8, StatusCodes.Status404NotFound))
            .RequireRateLimiting(DoorSetup.AtTheDoor);
}
