using System.Globalization;
using System.Net;
using System.Text;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Storing;

namespace Lastoff.Doors;

/// <summary>A customer sees their own job, and nothing else, by a link that ends by itself.</summary>
internal static class CustomerEndpoints
{
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
        routes.MapGet("/record/{link}", (string link, CustomerLinks links, Workshop workshop) =>
            links.Job(link) is { } id && Standing(workshop, id) is { } standing
                ? Results.Content(Page(standing), "text/html; charset=utf-8")
                : Results.Content(Frame("This link opens nothing", "<p>It is too old or not whole. Ask the workshop for a new one.</p>"), "text/html; charset=utf-8", Encoding.UTF8, StatusCodes.Status404NotFound))
            .RequireRateLimiting(DoorSetup.AtTheDoor);

    private static Standing? Standing(Workshop workshop, Guid id) =>
        EntryLine.ReadAll(workshop.Entries.Page(id, 0).Lines).ToList() is var entries
        && JobOpened.In(entries) is { } opened && workshop.Maps.Text(opened) is { } text && MapReader.Read(text, opened.Map).Map is { } map
            ? Fold.Of(OperationNet.From(map), entries)
            : null;

    private static string Page(Standing standing)
    {
        var body = new StringBuilder();
        Line("What was wrong", standing.Opened!.Complaint);
        Line("Cause", standing.Opened.Cause);
        Line("Agreed", standing.Agreed is { } agreed ? $"{agreed.What} ({agreed.Who}, {agreed.Way})" : "Nothing is agreed yet.");
        foreach (var proof in standing.Readings.Where(reading => reading.Value.Verdict == Verdict.Good).OrderBy(reading => reading.Key, StringComparer.Ordinal))
        {
            Line(standing.Net.Proofs[proof.Key].Name, proof.Value.Reading);
        }

        Line("Where it stands", standing.HandedOver is { } handed ? $"Handed over to {handed.To}." : "The machine is in the workshop.");
        if (standing.HandedOver?.Override is { } given)
        {
            Line("Handed over although something was open", $"{given.By}: {given.Reason}");
        }

        return Frame(standing.Opened.Machine, $"<dl>{body}</dl>");

        void Line(string name, string text) => body.Append(CultureInfo.InvariantCulture, $"<dt>{WebUtility.HtmlEncode(name)}</dt><dd>{WebUtility.HtmlEncode(text)}</dd>");
    }

    private static string Frame(string title, string body) => $"""
        <!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex">
        <title>{WebUtility.HtmlEncode(title)}</title><link rel="stylesheet" href="/css/record.css"></head>
        <body><main><h1>{WebUtility.HtmlEncode(title)}</h1>{body}</main></body></html>
        """;
}
