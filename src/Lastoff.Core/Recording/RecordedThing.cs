using System.Globalization;
using System.Text;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Recording;

/// <summary>Something a recorded line moved: the move as the ledger counts it, and the reading it comes from.</summary>
/// <remarks>
/// A joint is known by its entry, since two sets of bolts may be called the same; a part and a supply by their name, since another line speaks of them again.
/// So the same entries give the same identifiers, in whatever order they came together.
/// </remarks>
public sealed record RecordedThing(Moved Moved, Reading Reading)
{
    private const string PartMark = "part:";
    private const string SupplyMark = "supply:";

    /// <summary>What the line moved, in the order in which it must have happened: what was made safe, then the joints, a hose after what clamps it, then the parts they held.</summary>
    public static IReadOnlyList<RecordedThing> Of(Guid entry, LineRecorded line) =>
    [
        .. line.Readings.Select((reading, number) => (Reading: reading, Move: MoveOf(reading), Number: number))
            .Where(said => said.Move is not null)
            .OrderBy(said => said.Move switch { Move.SupplySafe => 0, Move.JointUndone => 1, _ => 2 })
            .ThenBy(said => HeldInLine.ClampsOf(line.Readings, said.Number).Append(said.Number).Max())
            .ThenBy(said => HeldInLine.ClampsOf(line.Readings, said.Number).Any())
            .Select(said => new RecordedThing(AsMoved(entry, said.Number, said.Move!.Value, said.Reading), said.Reading)),
    ];

    /// <summary>The hoses of a line, and what is fast by itself, with what clamps them, of what <see cref="Of"/> says moved.</summary>
    public static IEnumerable<(string Hose, string Clamp)> Clamped(Guid entry, LineRecorded line) =>
        from hose in Enumerable.Range(0, line.Readings.Count)
        from clamp in HeldInLine.ClampsOf(line.Readings, hose)
        select (JointId(entry, hose), JointId(entry, clamp));

    /// <summary>The part that a joint belongs to, or null when the line names none.</summary>
    public string? JointOf => Moved.Move == Move.JointUndone && Reading.Part is { } part ? PartId(part) : null;

    /// <summary>How well a name says this thing: 3 by its whole name, 2 by that without the size, 1 by some words of it, 0 not at all.</summary>
    /// <param name="alias">Another name that it goes by.</param>
    internal int Fits(string name, string? alias = null)
    {
        var words = Words(name);
        return Name.Equals(name, StringComparison.OrdinalIgnoreCase) ? 3
            : (alias ?? (Moved.Move == Move.JointUndone ? JointName(Reading) : Name)).Equals(name, StringComparison.OrdinalIgnoreCase) ? 2
            : words.Count > 0 && words.IsSubsetOf(Words(Name)) ? 1
            : 0;

        static HashSet<string> Words(string name) =>
            [.. new string([.. name.ToLowerInvariant().Select(c => char.IsLetterOrDigit(c) ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries)];
    }

    /// <summary>What it is called on the screen and in the account.</summary>
    public string Name => Moved.Move switch
    {
        Move.JointUndone => JointName(Reading) + (Reading.Across is { } size ? $", {Said(size)}" : Reading.Thread is { } thread ? $", {thread}" : "")
            + (Reading.Length is { } length ? $", {Said(length)} long" : "") + (Reading is { Drive.Shape: DriveShape.Hex } && Reading.Name?.Contains("hex", StringComparison.OrdinalIgnoreCase) != true ? ", hex" : ""),
        Move.SupplySafe => Capital(SupplyName(Reading)),
        _ => Capital(PartName(Reading)),
    };

    /// <summary>What a joint is called without its size: “starter pivot bolt”, “rocker cover screws”.</summary>
    public static string JointName(Reading reading)
    {
        if (IsItself(reading))
        {
            return Capital(reading.Part!);
        }

        var kind = KindOf(reading);
        var word = Words<JointKind>.Of(kind) + (reading.Count > 1 ? "s" : "");
        return Capital((reading.Name, reading.Part) switch
        {
            (null, null) => word,
            (null, { } part) => $"{part} {word}",
            ({ } name, null) => reading.Count == 1 ? LineReader.One(name) : name,
            // “Hose clamps” of a “breather hose” are its clamps.
            ({ } name, { } part) when name.Split(' ', 2) is [var first, var rest] && part.Split(' ')[^1].Equals(first, StringComparison.OrdinalIgnoreCase) => $"{part} {rest}",
            // A hose is called by itself, wherever it ends; “long bolts” are long bolts of something.
            ({ } name, { } part) => kind is JointKind.Hose or JointKind.Pipe || name.Contains(part, StringComparison.OrdinalIgnoreCase) ? name : $"{part} {(reading.Count == 1 ? LineReader.One(name) : name)}",
        });
    }

    public static JointKind KindOf(Reading reading) => reading.Kind ?? (IsItself(reading) ? JointKind.Clip : JointKind.Bolt);

    /// <summary>“Return spring unhooked”, “strap undone”: with no joint named and nothing measured, it is fast by itself.</summary>
    public static bool IsItself(Reading reading) => reading is { Deed: Deed.Undone or Deed.Loose, Kind: null, Name: null, Part: not null } && !reading.IsMeasured();

    /// <summary>The part as it was called, or the words that stand for it.</summary>
    public static string PartName(Reading reading) => reading.Part ?? reading.Name ?? "part";

    public static string PartId(string name) => PartMark + Plain(name);

    /// <summary>What sort of supply was made safe. What was drained is told by its name, and taken for oil when that says nothing: it is caught and not spilt all the same. Of anything else it is known that it may turn or be hot.</summary>
    public static SupplyKind SupplyOf(Reading reading) => reading.Supply ?? LineReader.SortOf(reading.Fluid ?? reading.Part ?? "") ?? LineReader.Carried(reading.Part)?.Supply ?? (reading.Deed == Deed.Safe ? SupplyKind.Heat : SupplyKind.Oil);

    /// <summary>What the hand that puts it back should know; null when that is nothing.</summary>
    public static string? CautionOf(Reading reading) => CautionsOf(reading) is { Count: > 0 } cautions ? string.Join(" ", cautions) : null;

    internal static IReadOnlyList<string> CautionsOf(Reading reading)
    {
        List<string> cautions = [];
        if (reading.LeftHand)
        {
            cautions.Add("Left-hand thread: undo it clockwise, do it up anticlockwise.");
        }

        if (MixedLengths.InSet(reading) is { } mixed)
        {
            cautions.Add(mixed);
        }

        if (reading.Seized)
        {
            cautions.Add("It was seized: look at its threads before it goes back.");
        }

        if (IsItself(reading) && LineReader.IsSpring(reading.Part!))
        {
            cautions.Add(Cautions.OfSpring);
        }

        return cautions;
    }

    /// <summary>What to know before a fluid goes in again: which of what was off holds it in, no line says.</summary>
    internal static string? RestoreOf(Reading reading)
    {
        var came = reading.Volume_L is { } litres ? FormattableString.Invariant($"{litres:0.##} L came out.") : "";
        return reading.Deed == Deed.Drained ? $"{came} Close first what holds it in.{(SupplyOf(reading) == SupplyKind.Coolant ? " Let the air out at the highest place while it fills." : "")}".TrimStart()
            : came.Length > 0 ? came
            : null;
    }

    /// <summary>A size as it is said: “12 mm”.</summary>
    public static string Said(Size size) => size.ToString() is var text ? $"{text[..^2]} {text[^2..]}" : "";

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string SupplyName(Reading reading) => reading.Fluid ?? reading.Part ?? (SupplyOf(reading) == SupplyKind.Heat ? "machine" : Words<SupplyKind>.Of(SupplyOf(reading)).Replace('_', ' '));

    private static Move? MoveOf(Reading reading) => reading.Deed switch
    {
        Deed.Undone or Deed.Loose => Move.JointUndone,
        Deed.Off => Move.PartOff,
        Deed.Aside => Move.PartAside,
        Deed.Safe or Deed.Drained => Move.SupplySafe,
        _ => null,
    };

    private static Moved AsMoved(Guid entry, int number, Move move, Reading reading) => move switch
    {
        Move.JointUndone => new Moved(move, JointId(entry, number)) { Tray = InTray(reading), Count = Counted(reading) },
        Move.SupplySafe => new Moved(move, SupplyMark + Plain(SupplyName(reading)), Amount_L: reading.Volume_L),
        Move.PartOff => new Moved(move, PartId(PartName(reading))) { Tray = reading.Tray, Count = reading.Tray is not null && reading.Count is <= Moved.MostCounted ? reading.Count : null },
        _ => new Moved(move, PartId(PartName(reading))),
    };

    private static string JointId(Guid entry, int number) => $"joint:{entry}:{number}";

    // What stays in its place goes into no tray.
    private static string? InTray(Reading reading) => reading.Captive || reading.Deed == Deed.Loose ? null : reading.Tray;

    // “Centre nut, tray 5” is one.
    private static int? Counted(Reading reading) => reading.Captive || reading.Deed == Deed.Loose ? null
        : reading.Count is <= Moved.MostCounted ? reading.Count
        : reading is { Count: null, Tray: not null, Name: { } name } && LineReader.IsOne(name) ? 1
        : null;

    /// <summary>The name with nothing in it that tells two ways of writing it apart.</summary>
    internal static string Plain(string name)
    {
        var plain = new StringBuilder();
        foreach (var rune in name.Normalize(NormalizationForm.FormKC).ToLower(CultureInfo.InvariantCulture).EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                plain.Append(rune.ToString());
            }
            else if (plain.Length > 0 && plain[^1] != '-')
            {
                plain.Append('-');
            }
        }

        var text = plain.ToString().TrimEnd('-');
        return text.Length > 0 ? text : "unnamed";
    }
}
