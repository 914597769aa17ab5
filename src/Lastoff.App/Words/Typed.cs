using System.Globalization;
using Lastoff.App.Device;
using Lastoff.Core;
using Lastoff.Core.Fluids;
using Lastoff.Core.Maps;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>Reads what a thumb typed, in the unit beside it, and says figures back in that unit.</summary>
public static class Typed
{
    /// <summary>A decimal comma is as good as a point.</summary>
    public static string Plain(string text) => text.Trim().Replace(',', '.');

    /// <summary>The number as it stands; null when it is none, or empty.</summary>
    public static double? Number(string text) =>
        NumberWithUnit.TrySplit(Plain(text), out var number, out var unit) && unit.Length == 0 && Plain(text).Length > 0 ? number : null;

    public static double? Litres(string text, string unit) => Volume.TryParseLitres($"{Plain(text)} {unit}", out var litres) && litres >= 0 ? litres : null;

    public static Temperature? Temperature(string text, string unit) => Core.Fluids.Temperature.TryParse($"{Plain(text)} {unit}", out var read) ? read : null;

    /// <summary>The pressure on a dial; whether it counts from the weather or from nothing is left to the caller.</summary>
    public static Pressure? Pressure(string text, string unit) => Core.Fluids.Pressure.TryParse($"{Plain(text)} {unit.Split(' ')[0]}", out var read) ? read : null;

    public static double? Metres(string text, string unit) => Atmosphere.TryParseAltitude($"{Plain(text)} {unit}", out var metres) ? metres : null;

    public static double? Percent(string text) => Number(text) is >= 0 and <= 100 and var percent ? percent : null;

    /// <summary>What is wrong with a text, in one sentence; null when it can be read, or is empty.</summary>
    public static string? Fault(Quantity quantity, string text, string unit)
    {
        if (text.Trim().Length == 0)
        {
            return null;
        }

        var isRead = quantity switch
        {
            Quantity.Volume => Litres(text, unit) is not null,
            Quantity.Temperature => Temperature(text, unit) is not null,
            Quantity.Dial => Pressure(text, unit) is not null,
            Quantity.Height => Metres(text, unit) is not null,
            Quantity.Percent => Percent(text) is not null,
            _ => Number(text) is not null,
        };
        return isRead ? null : quantity switch
        {
            Quantity.Volume => Say($"“{text}” is not a volume; write a number, zero or more, such as 4.5."),
            Quantity.Temperature => Say($"“{text}” is not a temperature; write a number, such as 20 or -31."),
            Quantity.Dial => Say($"“{text}” is not a pressure; write a number, zero or more, such as 1."),
            Quantity.Height => Say($"“{text}” is not an altitude; write a number, such as 640."),
            Quantity.Percent => Say($"“{text}” is not a share; write a number from 0 to 100."),
            Quantity.Gravity => Say($"“{text}” is not a specific gravity; write a number, such as 1.065."),
            _ => Say($"“{text}” is not a reading; write a number with a decimal point and no unit."),
        };
    }

    public static string Litres(double litres, Measures measures) => measures.Unit(Quantity.Volume) == "L"
        ? Shown($"{litres:0.##} L")
        : Shown($"{InQuarts(litres):0.##} qt");

    public static string Degrees(Temperature temperature, Measures measures) => measures.Unit(Quantity.Temperature) == "°C"
        ? Shown($"{temperature.Celsius:0} °C")
        : Shown($"{temperature.Fahrenheit:0} °F");

    /// <summary>A difference of temperatures.</summary>
    public static string Kelvins(double kelvins, Measures measures) => measures.Unit(Quantity.Temperature) == "°C"
        ? Shown($"{kelvins:0.#}")
        : Shown($"{kelvins * 9 / 5:0.#}");

    /// <summary>How deep, in the unit of the person's vacuum gauge.</summary>
    public static string Vacuum(Pressure vacuum, Pressure ambient, Measures measures)
    {
        var unit = measures.Unit(Quantity.VacuumGauge);
        var pascals = unit.EndsWith("abs", StringComparison.Ordinal) ? ambient.Pascals - vacuum.Pascals : vacuum.Pascals;
        return $"{Shown($"{pascals / Core.Fluids.Pressure.PascalsIn(unit.Split(' ')[0])!.Value:0.#}")} {Say(unit)}";
    }

    /// <summary>Litres as they would be typed.</summary>
    public static string LitresText(double litres, Measures measures) =>
        (measures.Unit(Quantity.Volume) == "L" ? litres : InQuarts(litres)).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Shown(FormattableString figures) => Figures.Marked(figures.ToString(CultureInfo.InvariantCulture));

    private static double InQuarts(double litres)
    {
        Volume.TryParseLitres("1 US qt", out var quart);
        return litres / quart;
    }
}
