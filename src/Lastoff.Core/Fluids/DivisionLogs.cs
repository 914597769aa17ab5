namespace Lastoff.Core.Fluids;

/// <summary>The logarithm of the probability that normal scatter about a place falls within the division whose middle is so far away; from a table.</summary>
internal sealed class DivisionLogs
{
    private const int StepsPerScatter = 24;
    private const double TableReaches = 8;

    private readonly double scatter;
    private readonly double stepsPerDivision;
    private readonly double[] logs;

    /// <param name="scatter">The standard deviation, in divisions.</param>
    public DivisionLogs(double scatter)
    {
        this.scatter = scatter;
        stepsPerDivision = StepsPerScatter / scatter;
        logs = new double[(int)Math.Ceiling((0.5 + (TableReaches * scatter)) * stepsPerDivision) + 2];
        for (var i = 0; i < logs.Length; i++)
        {
            var away = i / stepsPerDivision;
            logs[i] = Gauss.LogBetween((away - 0.5) / scatter, (away + 0.5) / scatter);
        }
    }

    public double At(double away)
    {
        var place = Math.Abs(away) * stepsPerDivision;
        var i = (int)Math.Min(place, logs.Length - 1);
        if (i < logs.Length - 1)
        {
            return logs[i] + ((place - i) * (logs[i + 1] - logs[i]));
        }

        // Far out the nearer edge is all that counts.
        var edge = (Math.Abs(away) - 0.5) / scatter;
        return Gauss.LogDensity(edge) - Math.Log(edge);
    }
}
