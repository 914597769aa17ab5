using System.Globalization;

namespace Lastoff.App.Floor.Fluids;

/// <summary>Where figures lie on a picture of readings over time.</summary>
/// <param name="Span">Seconds from the first reading to the last.</param>
public sealed record Chart(double Span, double Least, double Most)
{
    public const double Left = 46;
    public const double Right = 352;
    public const double Top = 14;
    public const double Bottom = 168;

    /// <summary>The scale's ends, a little beyond the figures.</summary>
    public static Chart Of(double span, IEnumerable<double> values)
    {
        List<double> all = [.. values];
        var (least, most) = (all.Min(), all.Max());
        var room = Math.Max((most - least) * 0.08, 1e-9 + (Math.Abs(most) * 1e-3));
        return new Chart(span, least - room, most + room);
    }

    public double X(double seconds) => Left + ((Right - Left) * seconds / Span);

    public double Y(double value) => Bottom - ((Bottom - Top) * Math.Clamp((value - Least) / (Most - Least), -1, 2));

    public string At(double seconds, double value) => $"{Text(X(seconds))} {Text(Y(value))}";

    public string Line(IEnumerable<(double Seconds, double Value)> points) => "M" + string.Join("L", points.Select(point => At(point.Seconds, point.Value)));

    public static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>Three or four round figures along the scale.</summary>
    public IEnumerable<double> Marks => Round(Least, Most);

    /// <summary>The same along the time, in minutes.</summary>
    public IEnumerable<double> Minutes => Round(0, Span / 60);

    private static IEnumerable<double> Round(double from, double to)
    {
        var rough = (to - from) / 3;
        var scale = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var step = scale * (rough / scale) switch { < 1.5 => 1, < 3.5 => 2, < 7.5 => 5, _ => 10 };
        for (var at = Math.Ceiling(from / step) * step; at <= to; at += step)
        {
            yield return Math.Round(at, 9);
        }
    }
}
