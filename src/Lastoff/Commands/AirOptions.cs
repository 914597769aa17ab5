using System.CommandLine;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary>The options that say how much the air presses here and today.</summary>
internal sealed class AirOptions
{
    private readonly Option<string?> altitude = Given.Option("--altitude", "How high the bay lies, such as 1500m; sea level if not given.");
    private readonly Option<string?> barometer = Given.Option("--barometer", "What a barometer on the spot shows, such as 950hPa; instead of the altitude.");
    private readonly Option<string?> weather = Given.Option("--weather", "The pressure of the weather report, which is for sea level, such as 1025hPa; goes with the altitude.");

    public void AddTo(Command command)
    {
        command.Options.Add(altitude);
        command.Options.Add(barometer);
        command.Options.Add(weather);
    }

    /// <summary>Whether any of them was given.</summary>
    public bool AnyGiven(ParseResult parsed) => new[] { altitude, barometer, weather }.Any(option => parsed.GetValue(option) is not null);

    /// <summary>The air's absolute pressure on the spot.</summary>
    public Pressure Ambient(ParseResult parsed)
    {
        if (parsed.GetValue(barometer) is { } spot)
        {
            if (parsed.GetValue(altitude) is not null || parsed.GetValue(weather) is not null)
            {
                throw new Failure("A barometer on the spot needs no altitude and no weather report; give --barometer alone, or --altitude with --weather.");
            }

            var pressure = Given.Pressure("--barometer", spot);
            return pressure.Kilopascals is >= 20 and <= 110
                ? pressure
                : throw new Failure($"--barometer {spot}: air presses with 20 to 110 kPa anywhere on land; check the number and its unit.");
        }

        var metres = parsed.GetValue(altitude) is { } height ? Given.AltitudeMetres("--altitude", height) : 0;
        if (parsed.GetValue(weather) is not { } report)
        {
            return Atmosphere.Standard(metres);
        }

        var reported = Given.Pressure("--weather", report);
        return reported.Kilopascals is >= 85 and <= 110
            ? Atmosphere.At(metres, reported)
            : throw new Failure($"--weather {report}: reports for sea level lie between 850 and 1100 hPa; a barometer on the spot is given with --barometer.");
    }
}
