using Lastoff.App.Device;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>What a job's line was read from.</summary>
/// <param name="Entries">How many entries the device had of the job: none ever goes.</param>
/// <param name="From">When it was read; by a clock that was set back it holds no longer.</param>
/// <param name="Until">When something is said otherwise though nothing happened: the next midnight, or a day that was agreed.</param>
public sealed record LineSource(int Entries, DateTimeOffset From, DateTimeOffset Until)
{
    /// <param name="wentHome">When it last was written in, once it has gone home: after that day only another year is said otherwise. Null while it is here.</param>
    public static LineSource Of(int entries, DateTimeOffset now, IReadOnlyList<WaitsFor> waits, DateTimeOffset? wentHome) =>
        new(entries, now, wentHome is { } went && LocalTime.DayOf(went) < LocalTime.DayOf(now)
            ? LocalTime.At(new DateOnly(LocalTime.DayOf(now).Year + 1, 1, 1), TimeOnly.MinValue)
            : waits.Select(wait => wait.Day?.On).OfType<DateTimeOffset>().Append(LocalTime.At(LocalTime.DayOf(now).AddDays(1), TimeOnly.MinValue)).Min());

    public bool IsStill(int entries, DateTimeOffset now) => Entries == entries && From <= now && now < Until;
}
