using System.Diagnostics;
using System.Diagnostics.Metrics;

namespace Lastoff.Storing;

/// <summary>What the program counts and times of itself. Nothing listens unless it is asked to.</summary>
internal static class Telemetry
{
    public const string Name = "Lastoff";

    private static readonly Meter Meter = new(Name);
    private static readonly Counter<long> Acknowledged = Meter.CreateCounter<long>("lastoff.entries.acknowledged", "{entry}", "Entries that a device was told are kept, sent again or not.");
    private static readonly Counter<long> Kept = Meter.CreateCounter<long>("lastoff.entries.kept", "{entry}", "Entries that were not here before.");
    private static readonly Counter<long> Refused = Meter.CreateCounter<long>("lastoff.entries.refused", "{entry}", "Entries that were not taken.");
    private static readonly Histogram<double> Commit = Meter.CreateHistogram<double>("lastoff.commit.duration", "s", "From the beginning of a transaction until it is on the disk.");

    public static ActivitySource Source { get; } = new(Name);

    public static T Timed<T>(Func<T> work)
    {
        var start = Stopwatch.GetTimestamp();
        var result = work();
        Commit.Record(Stopwatch.GetElapsedTime(start).TotalSeconds);
        return result;
    }

    public static void Count(IReadOnlyList<(Receipt Receipt, int New)> taken)
    {
        Acknowledged.Add(taken.Sum(t => t.Receipt.Accepted.Count));
        Refused.Add(taken.Sum(t => t.Receipt.Refused.Count));
        Kept.Add(taken.Sum(t => t.New));
    }
}
