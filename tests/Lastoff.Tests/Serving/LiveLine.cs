using System.Net.ServerSentEvents;

namespace Lastoff.Tests.Serving;

/// <summary>Somebody who listens at <c>/api/live</c>.</summary>
internal sealed class LiveLine : IAsyncDisposable
{
    private readonly IAsyncEnumerator<SseItem<string>> _events;

    private LiveLine(IAsyncEnumerator<SseItem<string>> events) => _events = events;

    /// <summary>Listens; when this returns, the server has said that it is there.</summary>
    public static async Task<LiveLine> Open(HttpClient client)
    {
        var stream = await client.GetStreamAsync("/api/live", TestContext.Current.CancellationToken);
        var line = new LiveLine(SseParser.Create(stream).EnumerateAsync().GetAsyncEnumerator(TestContext.Current.CancellationToken));
        Assert.True(await line._events.MoveNextAsync());
        Assert.Equal("here", line._events.Current.EventType);
        return line;
    }

    /// <summary>What is told next: a job, or nothing when it may be several.</summary>
    public async Task<string> Next()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        do
        {
            Assert.True(await _events.MoveNextAsync().AsTask().WaitAsync(patience.Token));
        }
        while (_events.Current.EventType != "entries");
        return _events.Current.Data;
    }

    public ValueTask DisposeAsync() => _events.DisposeAsync();
}
