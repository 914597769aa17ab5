using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>What bolts already tight lose while their neighbours are tightened, from given coefficients.</summary>
/// <remarks>
/// A linear model: raising a bolt by ΔF lowers each tight bolt k neighbours away by c(k) ΔF. Coefficients belong to one joint and gasket and are measured, not
/// looked up; a bolting consultancy's page gives up to 35 % for the bolt beside, more with a soft gasket. Preloads are shares of the target.
/// </remarks>
public sealed class ElasticInteraction
{
    // No pass is added for a rounding in the last digit.
    private const double Rounding = 1e-9;

    private readonly int[,] _steps;
    private readonly IReadOnlyList<double> _coefficients;

    private ElasticInteraction(HolePattern pattern, IReadOnlyList<double> coefficients)
    {
        (_steps, _coefficients) = (pattern.StepsApart(), coefficients);
        Bolts = pattern.Holes.Count;
    }

    public int Bolts { get; }

    /// <param name="coefficients">For the neighbour, the one after it, and so on.</param>
    public static Answer<ElasticInteraction> Of(HolePattern pattern, IReadOnlyList<double> coefficients) =>
        coefficients.Count > 0 && coefficients.All(c => c is >= 0 and < 1)
            ? Answer.Of(new ElasticInteraction(pattern, coefficients))
            : Answer.None<ElasticInteraction>("The interaction is a list of shares from 0 up to 1, the nearest neighbour first, as 0.2,0.05.");

    /// <summary>The preload of every bolt after each pass; a wrench set to less than a bolt has turns nothing, and a slack bolt loses nothing.</summary>
    public IReadOnlyList<IReadOnlyList<double>> After(IReadOnlyList<int> order, IEnumerable<double> shares)
    {
        var preload = new double[Bolts];
        var after = new List<IReadOnlyList<double>>();
        foreach (var share in shares)
        {
            preload = Pass(preload, order, share);
            after.Add(preload);
        }

        return after;
    }

    /// <summary>How many passes at the full torque bring every bolt within a band of the target.</summary>
    public Answer<int> PassesTo(IReadOnlyList<int> order, double band, int most = 50)
    {
        if (!(band is > 0 and < 1))
        {
            return Answer.None<int>(string.Create(CultureInfo.InvariantCulture, $"A band of {100 * band:0.##} % is not between 0 and 100 %."));
        }

        var preload = new double[Bolts];
        for (var pass = 1; pass <= most; pass++)
        {
            preload = Pass(preload, order, 1);
            if (preload.All(p => Math.Abs(p - 1) <= band + Rounding))
            {
                return Answer.Of(pass);
            }
        }

        return Answer.None<int>(string.Create(CultureInfo.InvariantCulture, $"{most} passes do not bring all bolts within {100 * band:0.##} %: with this interaction they never settle; look at the coefficients."));
    }

    private double[] Pass(double[] before, IReadOnlyList<int> order, double share)
    {
        var preload = (double[])before.Clone();
        foreach (var bolt in order)
        {
            var rise = share - preload[bolt];
            if (rise <= 0)
            {
                continue;
            }

            preload[bolt] = share;
            for (var other = 0; other < Bolts; other++)
            {
                var steps = _steps[bolt, other];
                if (steps >= 1 && steps <= _coefficients.Count)
                {
                    preload[other] = Math.Max(0, preload[other] - _coefficients[steps - 1] * rise);
                }
            }
        }

        return preload;
    }
}
