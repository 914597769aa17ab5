using System.Diagnostics;

namespace Lastoff.Serving;

/// <summary>
/// An answer that is the same for everybody. One making serves all who asked before it began, so nobody gets an older answer than by a making of their own; and after each it rests
/// four times as long as it took, so that however many ask, making takes up about a fifth of one processor, but never so long that a person would feel it: a making of more than 25 ms takes up more.
/// </summary>
internal sealed class SharedAnswer<T>(Func<T> make)
{
    private const int RestsFor = 4;
    private static readonly TimeSpan LongestRest = TimeSpan.FromMilliseconds(100);

    private readonly Lock _lock = new();
    private Task _rested = Task.CompletedTask;
    private Task<T>? _coming;

    /// <summary>The answer as it is at some moment between the call and the return.</summary>
    public Task<T> GetAsync()
    {
        lock (_lock)
        {
            if (_coming is null)
            {
                var over = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                _coming = MakeAsync(_rested, over);
                _rested = over.Task;
            }

            return _coming;
        }
    }

    private async Task<T> MakeAsync(Task rested, TaskCompletionSource over)
    {
        // Never within the call: whoever asks holds the lock.
        await rested.ConfigureAwait(ConfigureAwaitOptions.ForceYielding);
        lock (_lock)
        {
            _coming = null;
        }

        var start = Stopwatch.GetTimestamp();
        try
        {
            return make();
        }
        finally
        {
            var rest = RestsFor * Stopwatch.GetElapsedTime(start);
            _ = Task.Delay(rest < LongestRest ? rest : LongestRest).ContinueWith(_ => over.SetResult(), TaskScheduler.Default);
        }
    }
}
