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

    /// <summary>Waits until something new is told.</summary>
    public async Task News()
    {
        do
        {
            Assert.True(await HasMore());
        }
        while (_events.Current.EventType != "entries");
        Assert.Empty(_events.Current.Data);
    }

    /// <summary>Waits until the server hangs up, with nothing more told.</summary>
    public async Task End() => Assert.False(await HasMore());

    private async Task<bool> HasMore()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        return await _events.MoveNextAsync().AsTask().WaitAsync(patience.Token);
    }

    public ValueTask DisposeAsync() => _events.DisposeAsync();
}
