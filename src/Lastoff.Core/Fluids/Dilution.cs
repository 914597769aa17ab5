namespace Lastoff.Core.Fluids;

/// <summary>
/// One fluid in another, thinned by changes. Each change keeps what the filter, the cooler, the lines and the pan do not let go; the rest is new.
/// </summary>
public sealed record Dilution(IReadOnlyList<double> RemainingPpm)
{
    private const int MostChanges = 50;

    /// <summary>How many changes reach the target.</summary>
    public int Changes => RemainingPpm.Count;

    /// <param name="holdsLitres">All the fluid in the circuit, filter, cooler and lines with it.</param>
    /// <param name="retainedLitres">What of it stays when it is drained.</param>
    /// <param name="startPpm">The contamination now.</param>
    /// <param name="targetPpm">The level to get below.</param>
    public static Answer<Dilution> Of(double holdsLitres, double retainedLitres, double startPpm, double targetPpm)
    {
        if (!(holdsLitres > 0 && double.IsFinite(holdsLitres) && retainedLitres >= 0 && retainedLitres < holdsLitres))
        {
            return Answer.None<Dilution>("What stays behind is less than what the circuit holds, and neither is below nothing; check the two volumes.");
        }

        if (!(startPpm is >= 0 and <= 1_000_000 && targetPpm is > 0 and <= 1_000_000))
        {
            return Answer.None<Dilution>("Contamination is between 0 and 1 000 000 ppm, and a target above 0: dilution never reaches nothing.");
        }

        var remaining = new List<double>();
        var now = startPpm;
        while (now > targetPpm)
        {
            now *= retainedLitres / holdsLitres;
            remaining.Add(now);
            if (remaining.Count > MostChanges)
            {
                return Answer.None<Dilution>($"More than {MostChanges} changes do not reach the target; let more of the old fluid out: new filter, drained or renewed cooler, emptied lines.");
            }
        }

        return new Dilution(remaining);
    }
}
