using System.Collections.Concurrent;
using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>The one who writes: what has come in while it wrote is written together next, so that a commit to the disk serves many devices.</summary>
internal sealed class Writer : IDisposable
{
    private const int MostAtOnce = 256;
    private const int MostEntriesAtOnce = 2000;

    private readonly Database _database;
    private readonly int _workshop;
    private readonly BlockingCollection<Waiting> _waiting = [];
    private readonly Thread _thread;
    private Intake? _intake;

    public Writer(Database database, int workshop)
    {
        (_database, _workshop) = (database, workshop);
        _thread = new Thread(Write) { Name = "writer", IsBackground = true };
        _thread.Start();
    }

    /// <summary>Whether the last writing reached the disk; false before the first.</summary>
    public bool IsSound { get; private set; }

    /// <exception cref="StoreAwayException">Nothing was taken, or it is not known.</exception>
    public Task<Receipt> TakeAsync(SentEntries sent)
    {
        var waiting = new Waiting(sent, new TaskCompletionSource<Receipt>(TaskCreationOptions.RunContinuationsAsynchronously));
        try
        {
            _waiting.Add(waiting);
        }
        catch (InvalidOperationException)
        {
            throw new StoreAwayException("The server is being stopped; send again when it is back.");
        }

        return waiting.Answer.Task;
    }

    /// <summary>Writes what has come in, then stops.</summary>
    public void Dispose()
    {
        _waiting.CompleteAdding();
        _thread.Join();
        _intake?.Dispose();
        _waiting.Dispose();
    }

    private void Write()
    {
        foreach (var first in _waiting.GetConsumingEnumerable())
        {
            var group = new List<Waiting> { first };
            var entries = first.Sent.Entries.Count;
            while (group.Count < MostAtOnce && entries < MostEntriesAtOnce && _waiting.TryTake(out var next))
            {
                group.Add(next);
                entries += next.Sent.Entries.Count;
            }

            Write(group);
        }
    }

    private void Write(List<Waiting> group)
    {
        using var activity = Telemetry.Source.StartActivity("commit");
        try
        {
            _intake ??= new Intake(_database, _workshop);
            var taken = Telemetry.Timed(() => _intake.Take([.. group.Select(waiting => waiting.Sent)]));
            IsSound = true;
            Telemetry.Count(taken);
            for (var i = 0; i < group.Count; i++)
            {
                group[i].Answer.SetResult(taken[i].Receipt);
            }
        }
        catch (Exception e)
        {
            // Whatever it is: nobody is told that an entry is safe, and the next writing begins with a new connection.
            IsSound = false;
            var trouble = e is DbException or IOException or TimeoutException or InvalidOperationException ? _database.Explain(e) : $"The records cannot be written: {e.Message}";
            Abandon();
            foreach (var waiting in group)
            {
                waiting.Answer.SetException(new StoreAwayException($"{trouble} Nothing was taken; the device keeps it and sends it again.", e));
            }
        }
    }

    private void Abandon()
    {
        try
        {
            _intake?.Dispose();
        }
        catch (Exception e) when (e is DbException or IOException or InvalidOperationException)
        {
            // It is given up in any case.
        }

        _intake = null;
    }

    private sealed record Waiting(SentEntries Sent, TaskCompletionSource<Receipt> Answer);
}
