using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>A stream of server-sent events (WHATWG HTML, section 9.2) that says when there is something to fetch.</summary>
internal static class LiveEndpoint
{
    /// <summary>What comes in within this time is told once.</summary>
    private static readonly TimeSpan Gathering = TimeSpan.FromMilliseconds(250);

    /// <summary>A sign of life, so that whatever stands between does not hang up, and a device gone is noticed.</summary>
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(25);

    public static void MapLive(this IEndpointRouteBuilder api, News news, CancellationToken stopping) =>
        api.MapGet("/live", (HttpContext context) =>
        {
            // A proxy that gathers the stream would keep the news to itself.
            context.Response.Headers["X-Accel-Buffering"] = "no";
            return TypedResults.ServerSentEvents(Tell(news, stopping, context.RequestAborted));
        });

    private static async IAsyncEnumerable<SseItem<string>> Tell(News news, CancellationToken stopping, [EnumeratorCancellation] CancellationToken gone)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stopping, gone);
        await using var jobs = news.Listen(end.Token).GetAsyncEnumerator(end.Token);
        var next = jobs.MoveNextAsync().AsTask();
        yield return new SseItem<string>("", "here");
        while (true)
        {
            var isNews = false;
            try
            {
                isNews = await Task.WhenAny(next, Task.Delay(Silence, end.Token)) == next;
                if (isNews && !await next)
                {
                    yield break;
                }

                if (isNews)
                {
                    await Task.Delay(Gathering, end.Token);
                }
            }
            catch (OperationCanceledException)
            {
            }

            if (end.IsCancellationRequested)
            {
                // What was waited for ends with the token; nobody asks for it any more.
                await Task.WhenAny(next);
                yield break;
            }

            if (!isNews)
            {
                yield return new SseItem<string>("", "quiet");
                continue;
            }

            var told = jobs.Current?.ToString() ?? "";
            next = jobs.MoveNextAsync().AsTask();
            while (next.IsCompletedSuccessfully && next.Result)
            {
                told = jobs.Current?.ToString() is { } another && another == told ? told : "";
                next = jobs.MoveNextAsync().AsTask();
            }

            yield return new SseItem<string>(told, "entries");
        }
    }
}
