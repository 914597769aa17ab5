using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

/// <summary>What a device needs to know to write its next entry.</summary>
/// <param name="Device">The device's own identifier.</param>
/// <param name="By">The person holding it.</param>
/// <param name="Now">The device's clock.</param>
/// <param name="Randomness">Ten random bytes, new for each entry.</param>
public sealed record Pen(string Device, string By, DateTimeOffset Now, byte[] Randomness);

/// <summary>Either the entry that records the act, or why it was refused.</summary>
public sealed record Decision(Entry? Entry, Refusal? Refusal);

/// <summary>A job: its map, its entries, and where it stands.</summary>
public sealed class Job
{
    private readonly Guid? _latest;

    private Job(OperationNet net, IReadOnlyList<Entry> entries, Standing standing, Guid? latest, bool isRecorded)
    {
        IsRecorded = isRecorded;
        Net = net;
        Entries = entries;
        Standing = standing;
        _latest = latest;
    }

    public OperationNet Net { get; }
    /// <summary>There is no map but the one that grows with the recording.</summary>
    public bool IsRecorded { get; }
    /// <summary>In the order in which they count.</summary>
    public IReadOnlyList<Entry> Entries { get; }
    public Standing Standing { get; }

    public static Job From(OperationNet net, IEnumerable<Entry> entries) => From(net, EntryOrder.Of(entries), isRecorded: false);

    /// <summary>A job without a map: all that is known of the machine is what its own lines say.</summary>
    public static Job Recorded(IEnumerable<Entry> entries)
    {
        var ordered = EntryOrder.Of(entries);
        return From(OperationNet.From(RecordedMap.Of(ordered)), ordered, isRecorded: true);
    }

    /// <summary>The same job with more entries; one it has already changes nothing.</summary>
    public Job With(params IEnumerable<Entry> entries) => Anew(Entries.Concat(entries));

    /// <summary>The same job with one entry more. When it comes last, as one just written does, only it has to be counted.</summary>
    public Job With(Entry entry) =>
        _latest is { } latest
        && entry.Id.CompareTo(latest) > 0
        && entry.Seq > (LastOf(entry.Device)?.Seq ?? 0)
        && entry.Kind != ActKinds.TakenBack
        // The map of a recorded job is of all its entries.
        && !IsRecorded
            ? new Job(Net, [.. Entries, entry], Fold.Next(Standing, entry), entry.Id, isRecorded: false)
            : Anew(Entries.Append(entry));

    /// <summary>Checks an act against the standing and, if nothing stands against it, writes it down.</summary>
    public Decision Decide(Act act, Pen pen)
    {
        var refusal = act switch
        {
            TakenBack back => TakingBack(back),
            LineCorrected corrected => Guards.Check(Standing, act) ?? Correcting(corrected),
            _ => Guards.Check(Standing, act),
        };
        return refusal is null
            ? new Decision(EntryLine.Write(act, NextId(pen), pen.Device, pen.Now, pen.By, LastOf(pen.Device), Sight.ToSay(Entries, pen.Device)), null)
            : new Decision(null, refusal);
    }

    /// <summary>The device's last entry in this job, or null.</summary>
    public Entry? LastOf(string device) => Entries.Where(e => e.Device == device).MaxBy(e => e.Seq);

    /// <summary>The device's last entry that still counts, which is the one to take back next; null when nothing is left to take back.</summary>
    public Entry? LastToTakeBack(string device)
    {
        var gone = Fold.TakenBackEntries([.. Entries.Where(e => e.Kind == ActKinds.TakenBack).Select(e => (e, ActKinds.Read(e, out _)))]);
        return Entries.LastOrDefault(e => e.Device == device && e.Kind is not (ActKinds.TakenBack or ActKinds.JobOpened) && !gone.Contains(e.Id));
    }

    private static Job From(OperationNet net, IReadOnlyList<Entry> ordered, bool isRecorded)
    {
        Guid? latest = ordered.Count == 0 ? null : ordered.Max(e => e.Id);
        return new Job(net, ordered, Fold.Of(net, ordered), latest, isRecorded);
    }

    private Job Anew(IEnumerable<Entry> entries) => IsRecorded ? Recorded(entries) : From(Net, entries);

    private Guid NextId(Pen pen) => EntryId.Next(pen.Now, _latest, pen.Randomness);

    /// <summary>An entry can be taken back when everything recorded after it still stands without it.</summary>
    private Refusal? TakingBack(TakenBack back)
    {
        var target = Entries.FirstOrDefault(e => e.Id == back.Entry);
        if (target is null)
        {
            return new Refusal(RefusalKind.Unknown, $"This ledger has no entry {back.Entry}.");
        }

        if (IsTakenBack(target))
        {
            return new Refusal(RefusalKind.Already, "That entry is taken back already.");
        }

        if (target.Kind == ActKinds.JobOpened)
        {
            return new Refusal(RefusalKind.Forbidden, "The opening of the job cannot be taken back: the rest stands on it.");
        }

        return Asked(back, target) is { } asked
            ? new Refusal(RefusalKind.OutOfOrder, $"That cannot be taken back on its own, because later entries stand on it. {asked}")
            : null;
    }

    /// <summary>A line can say something else when everything recorded after it still stands.</summary>
    private Refusal? Correcting(LineCorrected corrected)
    {
        var target = Entries.FirstOrDefault(e => e.Id == corrected.Line && e.Kind == ActKinds.LineRecorded);
        return target is null ? new Refusal(RefusalKind.Unknown, $"This ledger has no line {corrected.Line}.")
            : IsTakenBack(target) ? new Refusal(RefusalKind.Already, "That line is taken back already; record it anew.")
            : Asked(corrected, target) is { } asked ? new Refusal(RefusalKind.OutOfOrder, $"That line cannot say this, because later entries stand on what it said. {asked}")
            : null;
    }

    private bool IsTakenBack(Entry entry) => CountedEntry.AllOf(Entries).Any(counted => counted.Entry.Id == entry.Id && counted.IsTakenBack);

    /// <summary>What would be asked if the act about an earlier entry were written down; null for nothing.</summary>
    private string? Asked(Act act, Entry about)
    {
        var trial = EntryLine.Write(act, EntryId.Next(about.At, _latest, new byte[10]), "trial", about.At, "trial", null);
        // An entry in question already may come into another question.
        return Anew(Entries.Append(trial)).Standing.Questions.Except(Standing.Questions).FirstOrDefault()?.Sentence;
    }
}
