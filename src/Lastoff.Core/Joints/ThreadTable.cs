namespace Lastoff.Core.Joints;

/// <summary>The threads there are: diameters and pitches of ISO 261:1998, sizes and threads per inch of ASME B1.1 (UNC and UNF).</summary>
/// <remarks>Written from memory of both standards; the coarse pitches M4 to M16 were checked against a reprint of EN ISO 898-1.</remarks>
public static class ThreadTable
{
    // The first pitch is the coarse one.
    private static readonly (double Diameter_mm, double[] Pitches_mm)[] Metric =
    [
        (1.6, [0.35]), (2, [0.4]), (2.5, [0.45]), (3, [0.5, 0.35]), (3.5, [0.6, 0.35]), (4, [0.7, 0.5]), (5, [0.8, 0.5]), (6, [1, 0.75]),
        (7, [1, 0.75]), (8, [1.25, 1, 0.75]), (10, [1.5, 1.25, 1, 0.75]), (12, [1.75, 1.5, 1.25, 1]), (14, [2, 1.5, 1.25, 1]), (16, [2, 1.5, 1]),
        (18, [2.5, 2, 1.5, 1]), (20, [2.5, 2, 1.5, 1]), (22, [2.5, 2, 1.5, 1]), (24, [3, 2, 1.5, 1]), (27, [3, 2, 1.5, 1]),
        (30, [3.5, 3, 2, 1.5, 1]), (33, [3.5, 3, 2, 1.5]), (36, [4, 3, 2, 1.5]), (39, [4, 3, 2, 1.5]), (42, [4.5, 4, 3, 2, 1.5]),
        (45, [4.5, 4, 3, 2, 1.5]), (48, [5, 4, 3, 2, 1.5]), (52, [5, 4, 3, 2, 1.5]), (56, [5.5, 4, 3, 2, 1.5]), (60, [5.5, 4, 3, 2, 1.5]),
        (64, [6, 4, 3, 2, 1.5]),
    ];

    private static readonly (string Size, double Diameter_in, int? Coarse, int? Fine)[] Unified =
    [
        ("#0", 0.060, null, 80), ("#1", 0.073, 64, 72), ("#2", 0.086, 56, 64), ("#3", 0.099, 48, 56), ("#4", 0.112, 40, 48), ("#5", 0.125, 40, 44),
        ("#6", 0.138, 32, 40), ("#8", 0.164, 32, 36), ("#10", 0.190, 24, 32), ("#12", 0.216, 24, 28), ("1/4", 0.25, 20, 28), ("5/16", 0.3125, 18, 24),
        ("3/8", 0.375, 16, 24), ("7/16", 0.4375, 14, 20), ("1/2", 0.5, 13, 20), ("9/16", 0.5625, 12, 18), ("5/8", 0.625, 11, 18), ("3/4", 0.75, 10, 16),
        ("7/8", 0.875, 9, 14), ("1", 1, 8, 12), ("1 1/8", 1.125, 7, 12), ("1 1/4", 1.25, 7, 12), ("1 3/8", 1.375, 6, 12), ("1 1/2", 1.5, 6, 12),
    ];

    public static IEnumerable<ScrewThread> All =>
        Metric.SelectMany(row => row.Pitches_mm.Select((pitch, i) => Make(row.Diameter_mm, pitch, i)))
            .Concat(Unified.SelectMany(row => new[] { Make(row.Size, row.Diameter_in, row.Coarse, true), Make(row.Size, row.Diameter_in, row.Fine, false) }.OfType<ScrewThread>()));

    /// <summary>The metric threads of one diameter, coarse first; none when the series has no such diameter.</summary>
    public static IReadOnlyList<ScrewThread> OfDiameter(double diameter_mm) => [.. All.Where(t => t.IsMetric && t.Diameter_mm == diameter_mm)];

    /// <summary>The Unified threads of one size (3/8, #10, 1 1/8), coarse first; none when the series has no such size.</summary>
    public static IReadOnlyList<ScrewThread> OfSize(string size) => [.. All.Where(t => !t.IsMetric && t.Designation.StartsWith(size + "-", StringComparison.Ordinal))];

    private static ScrewThread Make(double diameter_mm, double pitch_mm, int place) =>
        new($"M{ScrewThread.Text(diameter_mm)}x{ScrewThread.Text(pitch_mm)}", place == 0 ? ThreadSeries.IsoCoarse : ThreadSeries.IsoFine, diameter_mm, pitch_mm);

    private static ScrewThread? Make(string size, double diameter_in, int? threadsPerInch, bool coarse) => threadsPerInch is not { } n ? null
        : new ScrewThread($"{size}-{n} {(coarse ? "UNC" : "UNF")}", coarse ? ThreadSeries.UnifiedCoarse : ThreadSeries.UnifiedFine,
            diameter_in * Measure.MillimetresPerInch, Measure.MillimetresPerInch / n);
}
