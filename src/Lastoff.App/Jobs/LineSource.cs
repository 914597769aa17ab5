using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>What a job's line was read from.</summary>
/// <param name="Entries">How many entries the device had of the job: none ever goes.</param>
/// <param name="Until">When something is said otherwise though nothing happened: the next midnight, or a day that was agreed.</param>
public sealed record LineSource(int Entries, DateTimeOffset Until)
{
    public static LineSource Of(int entries, DateTimeOffset now, IReadOnlyList<WaitsFor> waits) =>
        new(entries, waits.Select(wait => wait.Day?.On).OfType<DateTimeOffset>().Append(new DateTimeOffset(now.LocalDateTime.Date.AddDays(1))).Min());

    public bool IsStill(int entries, DateTimeOffset now) => Entries == entries && now < Until;
}
