using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Threading.Channels;

namespace Lastoff.Storing;

/// <summary>Tells those who listen that a job has got entries, whichever server they came in at.</summary>
public sealed class News
{
    private readonly ConcurrentDictionary<Channel<Guid?>, bool> _listeners = [];

    /// <param name="job">Null when something may have been missed.</param>
    public void Tell(Guid? job)
    {
        foreach (var listener in _listeners.Keys)
        {
            listener.Writer.TryWrite(job);
        }
    }

    /// <summary>The jobs as they get entries. One who reads slowly misses none of the last, only that there were so many.</summary>
    public async IAsyncEnumerable<Guid?> Listen([EnumeratorCancellation] CancellationToken stop)
    {
        var listener = Channel.CreateBounded<Guid?>(new BoundedChannelOptions(64) { FullMode = BoundedChannelFullMode.DropOldest });
        _listeners[listener] = true;
        try
        {
            await foreach (var job in listener.Reader.ReadAllAsync(stop))
            {
                yield return job;
            }
        }
        finally
        {
            _listeners.TryRemove(listener, out _);
        }
    }
}
