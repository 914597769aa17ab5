using System.Data.Common;
using System.Diagnostics;
using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Lastoff.Doors;
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
            return TypedResults.ServerSentEvents(Tell(context, news, stopping, context.RequestAborted));
        });

    private static async IAsyncEnumerable<SseItem<string>> Tell(HttpContext context, News news, CancellationToken stopping, [EnumeratorCancellation] CancellationToken gone)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stopping, gone);
        var (doors, looked) = (news.Doors, Stopwatch.GetTimestamp());
        using var listener = news.Listen();
        // It may have been shut out between the door and here.
        if (!await IsStillInAsync(context))
        {
            yield break;
        }

        yield return new SseItem<string>("", "here");
        while (true)
        {
            var what = await NextAsync(listener, end.Token);
            if (end.IsCancellationRequested)
            {
                yield break;
            }

            // Every entry is told to every device, so a look at the records each time would be most of what they do. What no server tells of is looked at now and then.
            if (doors != news.Doors || Stopwatch.GetElapsedTime(looked) >= Silence)
            {
                (doors, looked) = (news.Doors, Stopwatch.GetTimestamp());
                if (!await IsStillInAsync(context))
                {
                    yield break;
                }
            }

            yield return new SseItem<string>("", what);
        }
    }

    private static async Task<string> NextAsync(News.Listener listener, CancellationToken end)
    {
        using var silence = CancellationTokenSource.CreateLinkedTokenSource(end);
        silence.CancelAfter(Silence);
        try
        {
            await listener.HearAsync(silence.Token);
            await Task.Delay(Gathering, end);
            listener.Forget();
            return "entries";
        }
        catch (OperationCanceledException)
        {
            return "quiet";
        }
    }

    /// <summary>A device may be shut out while it listens. When the records are away nobody is known; the browser calls again by itself.</summary>
    private static async Task<bool> IsStillInAsync(HttpContext context)
    {
        try
        {
            return await DeviceSignIn.WhoComesAsync(context) is not null;
        }
        catch (Exception e) when (e is DbException or TimeoutException)
        {
            return false;
        }
    }
}
