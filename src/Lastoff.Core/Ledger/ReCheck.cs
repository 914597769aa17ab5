using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>Something to look at again on a day after the handover.</summary>
public sealed record ReCheckSet(string What, DateOnly On) : Act
{
    public override string Kind => ActKinds.ReCheckSet;

    public override JsonObject ToData() => new() { ["what"] = What, ["on"] = ActKinds.Day(On) };

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static ReCheckSet Read(Entry entry) => new(ActKinds.Text(entry, "what"), ActKinds.DayOf(entry, "on"));
}

/// <summary>It was looked at again.</summary>
/// <param name="ReCheck">The entry that set it.</param>
public sealed record ReCheckDone(Guid ReCheck, string Found) : Act
{
    public override string Kind => ActKinds.ReCheckDone;

    public override JsonObject ToData() => new() { ["re_check"] = ReCheck.ToString(), ["found"] = Found };

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static ReCheckDone Read(Entry entry) => new(
        Guid.TryParse(ActKinds.Text(entry, "re_check"), out var id) ? id : throw new FormatException("its data names no entry"), ActKinds.Text(entry, "found"));
}

/// <summary>A re-check of a job.</summary>
/// <param name="Entry">The entry that set it.</param>
/// <param name="Found">What was found; null while it is still to come.</param>
public sealed record ReCheck(Guid Entry, string What, DateOnly On, string? Found);
