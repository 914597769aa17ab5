using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>Something fell where it must not stay: a washer, a bit, a rag in an open port; or it was missing when it was got to. It is open until somebody has it in hand.</summary>
/// <param name="Where">Into what, in plain words; or what lacks it.</param>
public sealed record ThingLost(string What, string Where) : Act
{
    public override string Kind => ActKinds.ThingLost;

    /// <summary>Nobody here lost it: it was not there.</summary>
    public bool IsMissing { get; init; }

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["what"] = What, ["where"] = Where };
        if (IsMissing)
        {
            data["missing"] = true;
        }

        return data;
    }

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static ThingLost Read(Entry entry) => new(ActKinds.Text(entry, "what"), ActKinds.Text(entry, "where")) { IsMissing = entry.Data.TryGetProperty("missing", out var missing) && missing.ValueKind == JsonValueKind.True };
}

/// <summary>It is out again, or what was missing is there.</summary>
/// <param name="Thing">The entry that says it was lost.</param>
/// <param name="What">What it is, as that entry has it.</param>
/// <param name="How">Where it was, and that it was whole.</param>
public sealed record ThingFound(Guid Thing, string What, string How) : Act
{
    /// <summary>How it was found where nobody has said it yet: that may be said afterwards.</summary>
    public const string NotSaid = "nothing more was said";

    public override string Kind => ActKinds.ThingFound;

    public override JsonObject ToData() => new() { ["thing"] = Thing.ToString(), ["what"] = What, ["how"] = How };

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static ThingFound Read(Entry entry) => new(
        Guid.TryParse(ActKinds.Text(entry, "thing"), out var id) ? id : throw new FormatException("its data names no entry"), ActKinds.Text(entry, "what"), ActKinds.Text(entry, "how"));
}

/// <summary>A thing that fell in, or that was missing.</summary>
/// <param name="Entry">The entry that says so.</param>
/// <param name="Found">How it was found; null while it is in there.</param>
public sealed record LostThing(Guid Entry, string What, string Where, string? Found)
{
    public bool IsMissing { get; init; }

    /// <summary>What is open about it.</summary>
    public string Sentence => IsMissing ? $"“{Where}” lacks this: {What}." : $"“{What}” is not found; it fell here: “{Where}”.";
}
