namespace Lastoff.Core.Learning;

/// <summary>The middle of what was measured, where anything was.</summary>
internal static class Median
{
    public static double? Of(IEnumerable<double?> measured)
    {
        List<double> all = [.. measured.OfType<double>().Order()];
        return all.Count == 0 ? null : (all[(all.Count - 1) / 2] + all[all.Count / 2]) / 2;
    }
}
