using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>Which machine it is and how it came in. What is not known is empty; of each thing the last one said holds.</summary>
/// <param name="Vin">The identification number on its frame, with whatever faults it has: it is copied down, not judged.</param>
/// <param name="Condition">Dents, wetness, what was missing already, in the words of the one who took it in.</param>
/// <param name="Lamps">The warning lamps that were on at arrival.</param>
public sealed record MachineIdentified(string Vin, string Plate, string Condition, IReadOnlyList<string> Lamps) : Act
{
    /// <summary>What the distance counter showed; null when there is none, or it cannot be read.</summary>
    public double? Odometer_km { get; init; }

    /// <summary>What the hour counter showed.</summary>
    public double? Hours_h { get; init; }

    /// <summary>What is left empty here stays as it was said before.</summary>
    internal MachineIdentified Over(MachineIdentified? before) => before is null ? this : new(
        Vin.Length > 0 ? Vin : before.Vin, Plate.Length > 0 ? Plate : before.Plate, Condition.Length > 0 ? Condition : before.Condition, Lamps.Count > 0 ? Lamps : before.Lamps)
    {
        Odometer_km = Odometer_km ?? before.Odometer_km,
        Hours_h = Hours_h ?? before.Hours_h,
    };

    /// <summary>What a photo of the machine as it came in is about.</summary>
    public const string AtArrival = "the machine at arrival";

    public override string Kind => ActKinds.MachineIdentified;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["vin"] = Vin, ["plate"] = Plate, ["condition"] = Condition, ["lamps"] = ActKinds.List(Lamps) };
        if (Odometer_km is not null)
        {
            data["odometer_km"] = Odometer_km;
        }

        if (Hours_h is not null)
        {
            data["hours_h"] = Hours_h;
        }

        return data;
    }

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static MachineIdentified Read(Entry entry) => new(
        ActKinds.Text(entry, "vin"), ActKinds.Text(entry, "plate"), ActKinds.Text(entry, "condition"), ActKinds.Texts(entry, "lamps"))
    {
        Odometer_km = ActKinds.OptionalNumber(entry, "odometer_km"),
        Hours_h = ActKinds.OptionalNumber(entry, "hours_h"),
    };
}
