namespace Lastoff.Core.Joints;

/// <summary>From the least to the most a quantity can be; the unit is in the name of what holds it.</summary>
public readonly record struct Interval
{
    /// <exception cref="ArgumentOutOfRangeException">An end is not a finite number, or the low end is above the high end.</exception>
    public Interval(double low, double high)
    {
        if (!double.IsFinite(low) || !double.IsFinite(high) || low > high)
        {
            throw new ArgumentOutOfRangeException(nameof(low), $"{low} to {high} is not an interval.");
        }

        (Low, High) = (low, high);
    }

    public double Low { get; }
    public double High { get; }

    public static Interval Of(IEnumerable<double> values)
    {
        var all = values.ToArray();
        return new Interval(all.Min(), all.Max());
    }
}
