using System.Globalization;
using System.Text.Json.Nodes;

namespace Lastoff.Commands;

/// <summary>What the fluid commands print alike: figures without noise, notes apart from results, cautions last.</summary>
internal static class FluidOutput
{
    /// <summary>A number for JSON with the digits that mean something, so that 0.1 + 0.2 is read as 0.3.</summary>
    public static JsonNode? Figure(double? value) =>
        value is not { } number || !double.IsFinite(number) ? null : double.Parse(number.ToString("G10", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    public static JsonArray Sentences(IEnumerable<string> sentences) => Output.List(sentences, sentence => JsonValue.Create(sentence));

    /// <summary>Notes go to standard error, so that they are seen when the result goes to another program.</summary>
    public static void Notes(IEnumerable<string> notes)
    {
        foreach (var note in notes)
        {
            Console.Error.WriteLine($"Note: {note}");
        }
    }

    public static void Cautions(IEnumerable<string> cautions)
    {
        Console.WriteLine();
        foreach (var caution in cautions)
        {
            Console.WriteLine($"! {caution}");
        }
    }

    public static void Line(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
