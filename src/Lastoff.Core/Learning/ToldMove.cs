using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>One move that a ledger tells of, out or back.</summary>
/// <param name="Reading">What its line said; null for a move of a job with a map, and for the way back.</param>
internal sealed record ToldMove(Entry Entry, Moved Moved, Reading? Reading)
{
    /// <summary>What it is called over all recordings, sizes left out.</summary>
    public string Name => Reading is null ? RecordedThing.Capital(Moved.Target.Replace('-', ' '))
        : Moved.Move == Move.JointUndone ? RecordedThing.JointName(Reading)
        : new RecordedThing(Moved, Reading).Name;

    public JointKind Joint => Reading is not null ? RecordedThing.KindOf(Reading)
        : LineReader.All.SelectMany(reader => reader.Read(Name).Readings).Select(reading => reading.Kind).FirstOrDefault(kind => kind is not null) ?? JointKind.Bolt;

    /// <summary>The part it was said to belong to.</summary>
    public string? Part => Moved.Move == Move.JointUndone && Reading is { Part: { } part } && !RecordedThing.IsItself(Reading) ? RecordedThing.Capital(part) : null;

    /// <summary>The line that tells of it; null where none does.</summary>
    public LineRecorded? Line { get; init; }

    /// <summary>Above zero, so that time can be shared out by it.</summary>
    public double TradeMinutes
    {
        get
        {
            var count = Math.Max(1, Reading?.Count ?? 1);
            return Moved.Move switch
            {
                Move.JointUndone => Estimating.TradeMinutes.Undo(Joint, count),
                Move.JointMade => Estimating.TradeMinutes.Make(Joint, count),
                Move.SupplySafe => Math.Max(1, Supply.Safe),
                Move.SupplyRestored => Math.Max(1, Supply.Restore),
                Move.PartOff => Estimating.TradeMinutes.PartOff,
                Move.PartFitted => Estimating.TradeMinutes.PartOn,
                _ => Estimating.TradeMinutes.Aside,
            };
        }
    }

    private (double Safe, double Restore) Supply => Estimating.TradeMinutes.Of(RecordedThing.SupplyOf(Reading ?? new Reading { Fluid = Name }));

    /// <summary>Every move that counts, in order.</summary>
    public static IReadOnlyList<ToldMove> Of(IReadOnlyList<Entry> entries) =>
    [
        .. CountedEntry.AllOf(entries).Where(a => !a.IsTakenBack).SelectMany(a => a.Act switch
        {
            LineRecorded line => RecordedThing.Of(a.Entry.Id, line).Select(thing => new ToldMove(a.Entry, thing.Moved, thing.Reading) { Line = line }),
            Moved moved => [new ToldMove(a.Entry, moved, null)],
            _ => Enumerable.Empty<ToldMove>(),
        }),
    ];
}
