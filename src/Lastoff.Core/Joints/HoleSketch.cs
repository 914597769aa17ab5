namespace Lastoff.Core.Joints;

/// <summary>A place on the picture, from its top left.</summary>
public readonly record struct SketchPoint(double X, double Y);

/// <summary>The joint as a picture shows it: its bolts at their places, as large as they can be without touching, and the edge of the part round them.</summary>
/// <param name="Bolts">In the order of the pattern's holes.</param>
/// <param name="Outline">The corners round the bolts; one where all lie on a circle about it.</param>
/// <param name="Circle">The radius of the circle the bolts lie on; null elsewhere.</param>
public sealed record HoleSketch(double Width, double Height, double BoltRadius, IReadOnlyList<SketchPoint> Bolts, IReadOnlyList<SketchPoint> Outline, double? Circle)
{
    private const double LargestBolt = 30;
    private const double SmallestBolt = 6;
    // Between the middles of neighbours, in radii: the lit bolt is a quarter larger than the rest.
    private const double Apart = 2.4;
    private const double Margin = 2;

    /// <summary>Fits a pattern into a box; the picture is as high as it needs to be.</summary>
    public static HoleSketch Of(HolePattern pattern, double width, double mostHeight)
    {
        var holes = pattern.Holes;
        // A circle takes room all the way round, also where no bolt sits.
        double? circle_mm = pattern.Shape == PatternShape.Circle && holes.Count > 2 ? pattern.FromCentre(0) : null;
        var (left, top) = circle_mm is { } r ? (pattern.CentreX_mm - r, pattern.CentreY_mm + r) : (holes.Min(h => h.X_mm), holes.Max(h => h.Y_mm));
        var (across, down) = circle_mm is { } round ? (2 * round, 2 * round) : (holes.Max(h => h.X_mm) - left, top - holes.Min(h => h.Y_mm));
        var nearest = holes.Count == 1 ? 1 : holes.SelectMany((_, a) => Enumerable.Range(0, a).Select(b => pattern.Distance(a, b))).Min();
        var (radius, scale) = (LargestBolt, Scale(LargestBolt));
        while (radius > SmallestBolt && holes.Count > 1 && Apart * radius > nearest * scale)
        {
            radius *= 0.96;
            scale = Scale(radius);
        }

        var pad = Margin * radius;
        var (x0, y0) = ((width - across * scale) / 2, pad);
        List<SketchPoint> bolts = [.. holes.Select(h => At(h.X_mm, h.Y_mm))];
        IReadOnlyList<SketchPoint> outline = circle_mm is null ? Hull(bolts) : [At(pattern.CentreX_mm, pattern.CentreY_mm)];
        return new HoleSketch(width, down * scale + 2 * pad, radius, bolts, outline, circle_mm * scale);

        SketchPoint At(double x_mm, double y_mm) => new(x0 + (x_mm - left) * scale, y0 + (top - y_mm) * scale);

        double Scale(double bolt)
        {
            var (wide, high) = (Math.Max(1, width - 2 * Margin * bolt), Math.Max(1, mostHeight - 2 * Margin * bolt));
            return across == 0 && down == 0 ? 1 : Math.Min(across == 0 ? double.PositiveInfinity : wide / across, down == 0 ? double.PositiveInfinity : high / down);
        }
    }

    /// <summary>The corners of the tightest line round all points, by Andrew's monotone chain.</summary>
    private static List<SketchPoint> Hull(IReadOnlyList<SketchPoint> points)
    {
        var sorted = points.OrderBy(p => p.X).ThenBy(p => p.Y).ToList();
        return sorted.Count < 3 ? sorted : [.. Half(sorted), .. Half(Enumerable.Reverse(sorted))];
    }

    private static IEnumerable<SketchPoint> Half(IEnumerable<SketchPoint> points)
    {
        var half = new List<SketchPoint>();
        foreach (var point in points)
        {
            while (half.Count > 1 && Turn(half[^2], half[^1], point) <= 0)
            {
                half.RemoveAt(half.Count - 1);
            }

            half.Add(point);
        }

        return half.SkipLast(1);
    }

    private static double Turn(SketchPoint a, SketchPoint b, SketchPoint c) => (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);
}
