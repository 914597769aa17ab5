namespace Lastoff.Core.Fluids;

/// <summary>Straight lines between the rows of a table.</summary>
internal static class Interpolation
{
    /// <summary>The value at <paramref name="x"/> of a table whose <paramref name="xs"/> all rise or all fall. Outside it, its end.</summary>
    public static double At(double x, IReadOnlyList<double> xs, IReadOnlyList<double> ys)
    {
        var rising = xs[^1] > xs[0];
        for (var i = 1; i < xs.Count; i++)
        {
            if (rising ? x <= xs[i] : x >= xs[i])
            {
                var share = Math.Clamp((x - xs[i - 1]) / (xs[i] - xs[i - 1]), 0, 1);
                return ys[i - 1] + (share * (ys[i] - ys[i - 1]));
            }
        }

        return ys[^1];
    }
}
