using System.CommandLine;
using System.Globalization;
using Lastoff.Core;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary>Reads option values that are a number with its unit; what cannot be read becomes one sentence that names the option.</summary>
internal static class Given
{
    public static Option<string?> Option(string name, string description, bool required = false) => new(name) { Description = description, Required = required };

    public static Pressure Pressure(string option, string text) => Core.Fluids.Pressure.TryParse(text, out var pressure)
        ? pressure
        : throw Unreadable(option, text, "a pressure", $"a number, zero or more, with its unit: {string.Join(", ", Core.Fluids.Pressure.Units)}");

    public static Temperature Temperature(string option, string text) => Core.Fluids.Temperature.TryParse(text, out var temperature)
        ? temperature
        : throw Unreadable(option, text, "a temperature", "a number with its unit: 20degC, 68degF or 293 K");

    public static double Litres(string option, string text) => Core.Maps.Volume.TryParseLitres(text, out var litres) && litres >= 0
        ? litres
        : throw Unreadable(option, text, "a volume", $"a number, zero or more, with its unit: {string.Join(", ", Core.Maps.Volume.Units)}");

    public static double AltitudeMetres(string option, string text) => !Atmosphere.TryParseAltitude(text, out var metres)
        ? throw Unreadable(option, text, "an altitude", "a number with its unit: 1500m or 4900 ft")
        : Atmosphere.Covers(metres) ? metres : throw new Failure($"{option} {text}: altitudes from -500 m to 11 000 m are known; check the number and its unit.");

    /// <summary>"50", "50%".</summary>
    public static double Percent(string option, string text) => NumberWithUnit.TrySplit(text, out var number, out var unit) && unit is "" or "%" && number is >= 0 and <= 100
        ? number
        : throw Unreadable(option, text, "a share", "a number from 0 to 100, percent");

    /// <summary>"20000ppm", "2%".</summary>
    public static double PartsPerMillion(string option, string text)
    {
        double? ppm = !NumberWithUnit.TrySplit(text, out var number, out var unit) || number < 0 ? null : unit switch
        {
            "ppm" => number,
            "%" => number * 10_000,
            _ => null,
        };
        return ppm is <= 1_000_000 ? ppm.Value : throw Unreadable(option, text, "a contamination", "a number with its unit: 500ppm or 2%, at most 100%");
    }

    public static double Number(string option, string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
        ? number
        : throw Unreadable(option, text, "a number", "it with a decimal point and no unit");

    public static Glycol Glycol(string option, string text) => text.ToUpperInvariant() switch
    {
        "EG" or "ETHYLENE" => Core.Fluids.Glycol.Ethylene,
        "PG" or "PROPYLENE" => Core.Fluids.Glycol.Propylene,
        _ => throw Unreadable(option, text, "a glycol", "EG for ethylene glycol or PG for propylene glycol, as the label says"),
    };

    /// <summary>The value, or the failure with its sentence.</summary>
    public static T OrFail<T>(this Answer<T> answer) where T : class => answer.Found ? answer.Value : throw new Failure(answer.Sentence);

    private static Failure Unreadable(string option, string text, string what, string how) => new($"{option} “{text}” is not {what}; write {how}.");
}
