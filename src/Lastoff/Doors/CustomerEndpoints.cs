using System.Data.Common;
using System.Net;
using System.Text;
using Lastoff.Core.Papers;
using Lastoff.Papers;
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

    public static void MapCustomerRecord(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/record/{link}", (string link, HttpContext context, CustomerLinks links, WorkshopPapers papers) =>
            PageAsync(links.Job(link), context, papers)).RequireRateLimiting(DoorSetup.AtTheDoor);
        routes.MapPost("/record/{link}", async (string link, HttpContext context, CustomerLinks links, WorkshopPapers papers, CustomerYes yes) =>
        {
            if (links.Job(link) is not { } id || !context.Request.HasFormContentType)
            {
                return await PageAsync(links.Job(link), context, papers);
            }

            var form = await context.Request.ReadFormAsync(context.RequestAborted);
            var (name, wantsOldParts) = (form[ConsentForm.NameField].ToString(), form.ContainsKey(ConsentForm.OldPartsField));
            try
            {
                return await yes.WriteAsync(id, name, form[ConsentForm.PriceField].ToString(), wantsOldParts) is { } fault
                    ? await PageAsync(id, context, papers, asked => asked with { Fault = fault, Name = name, WantsOldParts = wantsOldParts })
                    : Results.Redirect($"/record/{link}");
            }
            catch (Exception e) when (e is StoreAwayException or DbException or TimeoutException)
            {
                // A device would keep it and send it again; a browser keeps nothing.
                return Notice(context, StatusCodes.Status503ServiceUnavailable, "Your yes is not written down", "The workshop's records cannot be written just now. Go back and send it again in a moment, or speak with the workshop.");
            }
        }).RequireRateLimiting(DoorSetup.AtTheDoor);
    }

    /// <summary>The estimate while there is a price to say yes to, or nothing has been touched yet; then how the work stands; in the end the handover.</summary>
    private static async Task<IResult> PageAsync(Guid? id, HttpContext context, WorkshopPapers papers, Func<ConsentForm, ConsentForm>? asked = null)
    {
        context.Response.Headers.Vary = "Accept-Language";
        if (id is not { } known || await papers.JobAsync(known) is not { Standing: var standing } job)
        {
            return Notice(context, StatusCodes.Status404NotFound, "This link opens nothing", "It is too old or not whole. Ask the workshop for a new one.");
        }

        var consent = ConsentForm.For(standing) is { } form ? asked is null ? form : asked(form) : null;
        var isEstimate = consent is not null || (standing is { HandedOver: null, LatestPrice: not null } && standing.Disturbed.Count == 0);
        var paper = await papers.MakeAsync(job, isEstimate ? PaperKind.Estimate : PaperKind.Handover, null, context.RequestAborted, isAskedOnScreen: consent is not null);
        // Whoever just said yes sees at the top that it arrived.
        var notice = consent is null && standing is { HandedOver: null, AgreedPrice: { Price: { } agreed } yes } ? $"The yes of {yes.Agreed.Who} to {agreed.Price.Total} is written down." : null;
        return PaperEndpoints.Page(context.Response, paper.In(Tongues.Asked(context.Request)), consent, notice);
    }

    private static IResult Notice(HttpContext context, int status, string heading, string text)
    {
        var tongue = Tongues.Asked(context.Request);
        return Results.Content($"""
            <!doctype html><html lang="{tongue.Language.Code}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex">
            <title>{WebUtility.HtmlEncode(tongue.Say(heading))}</title><link rel="stylesheet" href="/css/record.css"></head>
            <body><main><h1>{WebUtility.HtmlEncode(tongue.Say(heading))}</h1><p>{WebUtility.HtmlEncode(tongue.Say(text))}</p></main></body></html>
            """, "text/html; charset=utf-8", Encoding.UTF8, status);
    }
}
