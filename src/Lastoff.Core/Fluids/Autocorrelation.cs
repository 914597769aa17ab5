namespace Lastoff.Core.Fluids;

/// <summary>How much a series says when each reading is much like the last.</summary>
internal static class Autocorrelation
{
    // Beyond this the estimate itself is worthless.
    private const double MostAlike = 0.98;

    /// <summary>How many independent readings are worth the same as these residuals, from how alike neighbours are; three at least.</summary>
    public static double Independent(IReadOnlyList<double> residuals)
    {
        var squares = residuals.Sum(residual => residual * residual);
        var alike = squares == 0 ? 0 : Math.Clamp(residuals.Zip(residuals.Skip(1), (one, next) => one * next).Sum() / squares, 0, MostAlike);
        return Math.Max(3, residuals.Count * (1 - alike) / (1 + alike));
    }
}
