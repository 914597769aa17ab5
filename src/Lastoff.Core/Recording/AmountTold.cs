namespace Lastoff.Core.Recording;

/// <summary>“Measured it, 14.2 litres of hyd oil”, lines after “oil drained”: how much that was, and no second fluid.</summary>
internal static class AmountTold
{
    /// <param name="before">What was told in the lines before, the last first.</param>
    public static Reading Of(Reading reading, IReadOnlyList<Reading> before, bool saysDeed) =>
        !saysDeed && reading is { Deed: Deed.Drained, Volume_L: not null, Part: null, Fluid: { } fluid } && before.FirstOrDefault(other => other.Deed == Deed.Drained) is { Volume_L: null, Fluid: { } drained } && IsSame(fluid, drained)
            ? reading with { Fluid = drained }
            : reading;

    /// <summary>“Hyd oil” and “oil”; “gear oil” is no “engine oil”.</summary>
    private static bool IsSame(string one, string other) => Ends(one, other) || Ends(other, one);

    private static bool Ends(string longer, string shorter) => $" {longer}".EndsWith($" {shorter}", StringComparison.OrdinalIgnoreCase);
}
