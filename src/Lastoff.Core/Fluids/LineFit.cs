namespace Lastoff.Core.Fluids;

/// <summary>The least-squares straight line through points, with the scatter about it.</summary>
public sealed record LineFit
{
    private readonly double spreadOfX;

    private LineFit(int count, double slope, double intercept, double residualSumOfSquares, double spreadOfX)
    {
        Count = count;
        Slope = slope;
        Intercept = intercept;
        ResidualSumOfSquares = residualSumOfSquares;
        this.spreadOfX = spreadOfX;
    }

    public int Count { get; }
    public double Slope { get; }
    public double Intercept { get; }
    public double ResidualSumOfSquares { get; }

    /// <summary>The standard deviation about the line; needs three points.</summary>
    public double ResidualDeviation => Count > 2 ? Math.Sqrt(ResidualSumOfSquares / (Count - 2)) : double.NaN;

    public double SlopeDeviation => ResidualDeviation / Math.Sqrt(spreadOfX);
    public double InterceptDeviation(IReadOnlyList<double> x) => ResidualDeviation * Math.Sqrt(x.Sum(at => at * at) / (Count * spreadOfX));

    /// <exception cref="ArgumentException">The lists differ in length, there are fewer than two points, or all lie at the same x.</exception>
    public static LineFit Of(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        if (x.Count != y.Count || x.Count < 2)
        {
            throw new ArgumentException("A line needs two points or more, each with an x and a y.");
        }

        // About the means: the plain sums lose digits.
        var meanX = x.Average();
        var meanY = y.Average();
        double xx = 0, xy = 0;
        for (var i = 0; i < x.Count; i++)
        {
            xx += (x[i] - meanX) * (x[i] - meanX);
            xy += (x[i] - meanX) * (y[i] - meanY);
        }

        if (xx == 0)
        {
            throw new ArgumentException("All points lie at the same x: there is no line.");
        }

        var slope = xy / xx;
        var residual = 0.0;
        for (var i = 0; i < x.Count; i++)
        {
            var off = y[i] - meanY - (slope * (x[i] - meanX));
            residual += off * off;
        }

        return new LineFit(x.Count, slope, meanY - (slope * meanX), residual, xx);
    }
}
