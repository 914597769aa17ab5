using System.Collections.Concurrent;
using System.Threading.Channels;

namespace Lastoff.Storing;

/// <summary>What there is news of.</summary>
public enum NewsOf
{
    /// <summary>Entries came in, or a map.</summary>
    Entries,
    /// <summary>Who may come in has changed.</summary>
    Doors,
}

/// <summary>Tells those who listen that something is new, whichever server it came in at.</summary>
public sealed class News
{
    private readonly ConcurrentDictionary<Listener, bool> _listeners = [];
    private int _doors;
    private volatile bool _isHearing;

    /// <summary>Another number once who may come in has changed, as far as this server has heard.</summary>
    public int Doors => Volatile.Read(ref _doors);

    /// <summary>False while what another server tells would not be heard here.</summary>
    public bool IsHearing
    {
        get => _isHearing;
        internal set => _isHearing = value;
    }

    /// <summary>Who may come in has changed: before anything more is told, whoever listens is looked at again.</summary>
    public void TellOfDoors()
    {
        Interlocked.Increment(ref _doors);
        Tell();
    }

    public void Tell(NewsOf what)
    {
        if (what == NewsOf.Doors)
        {
            TellOfDoors();
        }
        else
        {
            Tell();
        }
    }

    public void Tell()
    {
        foreach (var listener in _listeners.Keys)
        {
            listener.Tell();
        }
    }

    /// <summary>From now on all news reach the listener, until it is disposed of.</summary>
    public Listener Listen() => new(this);

    /// <summary>One who listens. What is told several times before it asks, it hears once.</summary>
    public sealed class Listener : IDisposable
    {
        private readonly Channel<bool> _told = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
        private readonly News _news;

        internal Listener(News news)
        {
            _news = news;
            news._listeners[this] = true;
        }

        /// <summary>Waits for news.</summary>
        /// <exception cref="OperationCanceledException">It was waited for no longer.</exception>
        public async Task HearAsync(CancellationToken stop) => await _told.Reader.ReadAsync(stop);

        /// <summary>What was told until now is as good as heard.</summary>
        public void Forget() => _told.Reader.TryRead(out _);

        public void Dispose() => _news._listeners.TryRemove(this, out _);

        internal void Tell() => _told.Writer.TryWrite(true);
    }
}
