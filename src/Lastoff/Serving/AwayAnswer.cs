using System.Data.Common;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Records that cannot be reached or written are answered with 503 and one sentence, so that the device waits and tries again.</summary>
internal static class AwayAnswer
{
    public static void UseAwayAnswer(this IApplicationBuilder app, Database database, ILogger log) => app.Use(async (context, next) =>
    {
        try
        {
            await next(context);
        }
        catch (Exception e) when (e is StoreAwayException or DbException or TimeoutException && !context.Response.HasStarted)
        {
            var sentence = e is StoreAwayException ? e.Message : database.Explain(e);
            log.LogError("{Method} {Path} could not be answered: {Sentence}", context.Request.Method, context.Request.Path, sentence);
            context.Response.Headers.RetryAfter = "5";
            await Results.Problem(sentence, statusCode: StatusCodes.Status503ServiceUnavailable).ExecuteAsync(context);
        }
    });
}
