using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>More work taken in that the map does not know, in the words of whoever saw it: it is open until it is done.</summary>
/// <param name="What">What is to be done; by these words it is known from then on.</param>
/// <param name="Before">The part or joint that must not close before it is done; null when it can be done any time before the machine goes.</param>
public sealed record WorkTold(string What, string? Before) : Act
{
    public override string Kind => ActKinds.WorkTold;

    public override JsonObject ToData() => Before is null ? new() { ["what"] = What } : new() { ["what"] = What, ["before"] = Before };
}

/// <summary>It is done.</summary>
/// <param name="Despite">Why it was done although nobody said yes to it; it is then on the record. Null as a rule.</param>
public sealed record WorkDone(string What, string? Despite = null) : Act
{
    public override string Kind => ActKinds.WorkDone;

    public override JsonObject ToData() => Despite is null ? new() { ["what"] = What } : new() { ["what"] = What, ["despite"] = Despite };
}

/// <summary>A piece of work that the map does not know, as it stands.</summary>
/// <param name="Before">The parts and joints that must not close before it is done: of two who told it in the same words, each may have named another.</param>
public sealed record OwnWork(string What, IReadOnlyList<string> Before, bool IsDone)
{
    /// <summary>With what one more told of it.</summary>
    internal OwnWork And(WorkTold told) => told.Before is { } before && !Before.Contains(before) ? this with { Before = [.. Before, before] } : this;

    /// <summary>The work that must be done before this part or joint closes, and is not.</summary>
    internal static IEnumerable<OwnWork> OwedBefore(Standing standing, string target) => standing.File.WorkLeft.Where(work => work.Before.Contains(target));

    /// <summary>What is left that nothing which is still open waits for.</summary>
    internal static IEnumerable<OwnWork> OwedAnyTime(Standing standing) => standing.File.WorkLeft.Where(work => !work.Before.Any(standing.IsOpen));

    internal static Refusal? Check(Standing standing, WorkTold told) =>
        standing.File.Works.Any(work => work.What == told.What) ? new Refusal(RefusalKind.Already, $"“{told.What}” is taken in already.")
        : told.Before is { } before && !standing.Net.Parts.ContainsKey(before) && !standing.Net.Joints.ContainsKey(before) ? Guards.Unknown("part or joint", before)
        : null;

    internal static Refusal? Check(Standing standing, WorkDone done) => standing.File.Works.FirstOrDefault(work => work.What == done.What) switch
    {
        null => new Refusal(RefusalKind.Unknown, $"“{done.What}” was not taken in as work; write it down as a note."),
        { IsDone: true } => new Refusal(RefusalKind.Already, $"“{done.What}” is done already."),
        _ => null,
    };
}
