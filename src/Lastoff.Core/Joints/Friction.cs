using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>A coefficient of friction, as the interval it can lie in; a single figure is an interval without width.</summary>
public readonly record struct Friction
{
    // Below the best lubricated and above galled threads no published figure lies (nut factors from 0.086 to 0.52 were measured over lubricants).
    private const double Least = 0.03;
    private const double Most = 0.45;

    private Friction(Interval range) => Range = range;

    public Interval Range { get; }

    public static Answer<Friction> Between(double low, double high) =>
        !double.IsFinite(low) || !double.IsFinite(high) ? Answer.None<Friction>("Friction is a number; this is not one.")
        : low > high ? Answer.None<Friction>(string.Create(CultureInfo.InvariantCulture, $"Friction from {low} to {high} runs backwards; write the lower figure first."))
        : low < Least || high > Most ? Answer.None<Friction>(string.Create(CultureInfo.InvariantCulture,
            $"Friction of {(low < Least ? low : high)} is outside {Least} to {Most}, where steel threads lie, so nothing is computed from it."))
        : Answer.Of(new Friction(new Interval(low, high)));

    /// <summary>Reads 0.12 or 0.10..0.14.</summary>
    public static Answer<Friction> Read(string text)
    {
        var ends = text.Split("..");
        return ends.Length <= 2
            && double.TryParse(ends[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var low)
            && double.TryParse(ends[^1], NumberStyles.Float, CultureInfo.InvariantCulture, out var high)
                ? Between(low, high)
                : Answer.None<Friction>($"“{text}” is not a friction; write one figure as 0.12, or what it can lie between as 0.10..0.14.");
    }

    public override string ToString() => Range.Low == Range.High
        ? string.Create(CultureInfo.InvariantCulture, $"{Range.Low:0.0##}")
        : string.Create(CultureInfo.InvariantCulture, $"{Range.Low:0.0##} to {Range.High:0.0##}");
}
