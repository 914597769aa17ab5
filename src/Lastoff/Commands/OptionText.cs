using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary>Reads what options hold: numbers with units, lists, and what Core makes of them; whatever is wrong becomes one sentence that names the option.</summary>
internal static class OptionText
{
    private const double MostOfAnything = 1e9;

    /// <exception cref="Failure">It is not a number with a unit of this measure, or not above zero where it must be.</exception>
    public static double Read(string option, string text, Measure measure, bool aboveZero = true) =>
        !measure.TryRead(text, out var value) ? throw new Failure($"{option} {text}: this is not {measure.What}; write a number with its unit, like {measure.Example}.")
        : Math.Abs(value) > MostOfAnything ? throw new Failure($"{option} {text}: this is beyond anything in a workshop; look for a slip.")
        : aboveZero && value <= 0 ? throw new Failure($"{option} {text}: {measure.What} here is more than zero; look at the figure.")
        : value;

    /// <summary>Null when the option is not given.</summary>
    /// <inheritdoc cref="Read(string, string, Measure, bool)"/>
    public static double? Read(this ParseResult parsed, Option<string?> option, Measure measure, bool aboveZero = true) =>
        parsed.GetValue(option) is { } text ? Read(option.Name, text, measure, aboveZero) : null;

    /// <inheritdoc cref="Read(string, string, Measure, bool)"/>
    public static Torque? ReadTorque(this ParseResult parsed, Option<string?> option) =>
        parsed.Read(option, Measure.Torque_Nm) is { } value ? Torque.FromNewtonMetres(value) : null;

    /// <summary>Reads numbers with commas between them.</summary>
    /// <exception cref="Failure">One of them is not a number.</exception>
    public static IReadOnlyList<double> Numbers(string option, string text, string example) => [.. text.Split(',').Select(part =>
        double.TryParse(part.Trim().TrimEnd('%', '°'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : throw new Failure($"{option} {text}: “{part.Trim()}” is not a number; write the list like {example}."))];

    /// <exception cref="Failure">There is no value; the sentence says why.</exception>
    public static T OrFail<T>(this Answer<T> answer, string? option = null) where T : notnull =>
        answer.Or(sentence => throw new Failure(option is null ? sentence : $"{option}: {sentence}"));

    public static string Words(Torque torque) => string.Create(CultureInfo.InvariantCulture,
        $"{torque} ({(torque.NewtonMetres < 20 ? $"{torque.InchPounds.ToString("0.#", CultureInfo.InvariantCulture)} in·lb" : $"{torque.FootPounds.ToString("0.#", CultureInfo.InvariantCulture)} ft·lb")})");

    public static string Kilonewtons(double newtons) => string.Create(CultureInfo.InvariantCulture, $"{newtons / 1000:0.##} kN");

    /// <summary>Holes are numbers where they are numbered, and else names.</summary>
    public static JsonNode Bolt(string name) => int.TryParse(name, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : name;
}
