using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>How it stands with something that the job needs.</summary>
public enum ItemState { Missing, Ordered, Here, Wrong }

/// <summary>How it stands with a part, seal, fluid, sundry or tool that the job needs. The last one said of each holds.</summary>
/// <param name="Item">What it is called: the name in the map for what the plan calls for, else any name.</param>
/// <param name="Note">Where it was ordered, what is wrong with it, where it lies; may be empty.</param>
public sealed record ItemTold(string Item, ItemState State, string Note) : Act
{
    /// <summary>The day it is awaited; null when nobody knows.</summary>
    public DateOnly? Awaited { get; init; }

    /// <summary>Nothing may come off before it is here.</summary>
    public bool HoldsUpTheStart { get; init; }

    public override string Kind => ActKinds.ItemTold;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["item"] = Item, ["state"] = Words<ItemState>.Of(State), ["note"] = Note };
        if (Awaited is { } day)
        {
            data["awaited"] = ActKinds.Day(day);
        }

        if (HoldsUpTheStart)
        {
            data["holds_up_the_start"] = true;
        }

        return data;
    }

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static ItemTold Read(Entry entry) => new(ActKinds.Text(entry, "item"), ActKinds.WordOf<ItemState>(entry, "state"), ActKinds.Text(entry, "note"))
    {
        Awaited = ActKinds.OptionalText(entry, "awaited") is null ? null : ActKinds.DayOf(entry, "awaited"),
        HoldsUpTheStart = entry.Data.TryGetProperty("holds_up_the_start", out var holds) && holds.ValueKind == System.Text.Json.JsonValueKind.True,
    };
}
