namespace Lastoff.Core.Estimating;

/// <summary>The inverse of a precision matrix.</summary>
internal static class Covariance
{
    /// <summary>By Cholesky's decomposition; the matrix is symmetric and positive definite.</summary>
    public static double[,] Of(double[,] precision)
    {
        var n = precision.GetLength(0);
        var lower = new double[n, n];
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = precision[i, j];
                for (var k = 0; k < j; k++)
                {
                    sum -= lower[i, k] * lower[j, k];
                }

                lower[i, j] = i == j ? Math.Sqrt(sum) : sum / lower[j, j];
            }
        }

        // Column by column of the inverse of the triangle, then its square.
        var inverse = new double[n, n];
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = i == j ? 1.0 : 0;
                for (var k = j; k < i; k++)
                {
                    sum -= lower[i, k] * inverse[k, j];
                }

                inverse[i, j] = sum / lower[i, i];
            }
        }

        var covariance = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                for (var k = i; k < n; k++)
                {
                    covariance[i, j] += inverse[k, i] * inverse[k, j];
                }

                covariance[j, i] = covariance[i, j];
            }
        }

        return covariance;
    }
}
