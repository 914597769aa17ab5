using System.Text;
using Lastoff.Core.Papers;
using Lastoff.Doors;

namespace Lastoff.Papers;

/// <summary>The papers of a job, as a page, as data and as PDF.</summary>
internal static class PaperEndpoints
{
    public static void MapPapers(this IEndpointRouteBuilder api) =>
        api.MapGet("/jobs/{id:guid}/papers/{kind}.{form}", async (Guid id, string kind, string form, string? sheet, string? language, HttpContext context, ReachedAt reached, WorkshopPapers papers) =>
        {
            if (!PaperKinds.TryRead(kind, out var which))
            {
                return Results.Problem($"There is no paper “{kind}”; there are {PaperKinds.All}.", statusCode: StatusCodes.Status404NotFound);
            }

            if (SheetSize.Named(sheet) is not { } size)
            {
                return Results.Problem("The sheet is a4 or letter.", statusCode: StatusCodes.Status400BadRequest);
            }

            if (Tongues.Of(language) is not { } tongue)
            {
                return Results.Problem($"There is no paper in the language “{language}”; there are {Tongues.All}.", statusCode: StatusCodes.Status400BadRequest);
            }

            if (form is not ("html" or "json" or "pdf"))
            {
                return Results.Problem($"A paper is had as html, json or pdf; ask for {kind}.html, {kind}.json or {kind}.pdf.", statusCode: StatusCodes.Status404NotFound);
            }

            if (await papers.JobAsync(id) is not { } job)
            {
                return Results.Problem($"The job {id} is not here, or not the map it stands on; let a device that has it come within reach.", statusCode: StatusCodes.Status404NotFound);
            }

            var paper = await papers.MakeAsync(job, which, reached.For(context), context.RequestAborted);
            if (form == "html")
            {
                return Page(context.Response, paper.In(tongue));
            }

            if (form == "json")
            {
                return Results.Text(PaperJson.Write(paper), "application/json", Encoding.UTF8);
            }

            if (!PaperPdf.Write(paper.In(tongue), size).TryGet(out var pdf, out var why))
            {
                return Results.Problem(why, statusCode: StatusCodes.Status501NotImplemented);
            }

            context.Response.Headers.ContentDisposition = $"inline; filename=\"{kind}-{id:N}.pdf\"";
            return Results.Bytes(pdf, "application/pdf");
        });

    /// <summary>The paper as a page, which may load nothing and run nothing.</summary>
    /// <param name="consent">Asks for a yes on it; null where none is wanted.</param>
    /// <param name="notice">What stands above it; null for nothing.</param>
    public static IResult Page(HttpResponse response, Paper paper, ConsentForm? consent = null, string? notice = null)
    {
        response.Headers.ContentSecurityPolicy = consent is null ? PaperHtml.ContentSecurityPolicy : PaperHtml.ContentSecurityPolicyWithConsent;
        if (consent is not null)
        {
            // A browser that may not say where a form comes from sends it as from nowhere, and such is not taken.
            response.Headers["Referrer-Policy"] = "same-origin";
        }

        return Results.Content(PaperHtml.Write(paper, consent, notice), "text/html; charset=utf-8", Encoding.UTF8);
    }
}
