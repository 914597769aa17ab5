namespace Lastoff.Core.Joints;

/// <summary>One bolt hole; y points up, as one looks at the part.</summary>
public sealed record Hole(string Name, double X_mm, double Y_mm);

public enum PatternShape
{
    /// <summary>On a circle, or near enough: flanges, wheels, round covers.</summary>
    Circle,
    /// <summary>Anything else, tightened from the middle outwards: rectangular covers, manifolds, heads.</summary>
    Outward,
}

/// <summary>Where the bolts of one joint sit.</summary>
public sealed class HolePattern
{
    public const int MostHoles = 200;
    private const double Apart_mm = 0.5;
    // Holes drilled for a gasket face lie off their circle by far less; a rectangle's by more, unless it has only its corners.
    private const double OffCircle = 0.03;

    private HolePattern(IReadOnlyList<Hole> holes, PatternShape shape, double x, double y) => (Holes, Shape, CentreX_mm, CentreY_mm) = (holes, shape, x, y);

    public IReadOnlyList<Hole> Holes { get; }
    public PatternShape Shape { get; }
    public double CentreX_mm { get; }
    public double CentreY_mm { get; }

    /// <summary>The one hole above all others, as one looks at the part; null where two are as high.</summary>
    public string? Top => Holes.OrderByDescending(hole => hole.Y_mm).Take(2).ToList() is [var top, .. var next] && next.All(other => top.Y_mm - other.Y_mm > Apart_mm) ? top.Name : null;

    /// <summary>Evenly spaced on a circle, numbered clockwise from 12 o'clock.</summary>
    public static Answer<HolePattern> Circle(int bolts, double radius_mm = 100) => bolts is < 1 or > MostHoles
        ? Answer.None<HolePattern>($"A circle of {bolts} bolts cannot be; it has from 1 to {MostHoles}.")
        : From([.. Enumerable.Range(0, bolts).Select(i => new Hole(
            $"{i + 1}", radius_mm * Math.Sin(2 * Math.PI * i / bolts), radius_mm * Math.Cos(2 * Math.PI * i / bolts)))], PatternShape.Circle);

    /// <summary>Evenly spaced in rows and columns, numbered along the rows from the top left.</summary>
    public static Answer<HolePattern> Grid(int columns, int rows, double apart_mm = 50) => columns is < 1 or > MostHoles || rows is < 1 or > MostHoles || columns * rows > MostHoles
        ? Answer.None<HolePattern>($"{columns} columns and {rows} rows of bolts cannot be; together they have from 1 to {MostHoles}.")
        : From([.. Enumerable.Range(0, columns * rows).Select(i => new Hole($"{i + 1}", i % columns * apart_mm, -(i / columns) * apart_mm))], PatternShape.Outward);

    /// <param name="shape">Null: a circle when the holes lie on one, else from the middle outwards.</param>
    public static Answer<HolePattern> From(IReadOnlyList<Hole> holes, PatternShape? shape = null)
    {
        if (holes.Count is 0 or > MostHoles)
        {
            return Answer.None<HolePattern>($"There are {holes.Count} holes; a pattern has from 1 to {MostHoles}.");
        }

        if (holes.FirstOrDefault(h => !(Math.Abs(h.X_mm) <= 1e5) || !(Math.Abs(h.Y_mm) <= 1e5)) is { } lost)
        {
            return Answer.None<HolePattern>($"Hole {lost.Name}: its place is not a number within 100 m of the origin.");
        }

        if (holes.GroupBy(h => h.Name).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            return Answer.None<HolePattern>($"Two holes are called {twice.Key}; give each its own name.");
        }

        foreach (var (i, hole) in holes.Index())
        {
            if (holes.Take(i).FirstOrDefault(h => Distance(h, hole) < Apart_mm) is { } same)
            {
                return Answer.None<HolePattern>($"Holes {same.Name} and {hole.Name} are in the same place; look at their coordinates.");
            }
        }

        var (x, y) = (holes.Average(h => h.X_mm), holes.Average(h => h.Y_mm));
        if (CircleThrough(holes, x, y) is { } centre && shape != PatternShape.Outward)
        {
            return Answer.Of(new HolePattern(holes, PatternShape.Circle, centre.X, centre.Y));
        }

        return Answer.Of(new HolePattern(holes, shape ?? PatternShape.Outward, x, y));
    }

    /// <summary>The holes clockwise about the centre, beginning with the first.</summary>
    public IReadOnlyList<int> Clockwise()
    {
        var start = Bearing(0);
        return [.. Enumerable.Range(0, Holes.Count).OrderBy(i => i == 0 ? -1 : (Bearing(i) - start + 4 * Math.PI) % (2 * Math.PI))];
    }

    /// <summary>
    /// How many neighbours lie between each two holes, counting the last: 1 for neighbours. Two holes are neighbours when no third lies within the circle
    /// that has them at its ends (a Gabriel graph), which on a row or a circle are the ones beside.
    /// </summary>
    public int[,] StepsApart()
    {
        var n = Holes.Count;
        var neighbours = Enumerable.Range(0, n).Select(a => Enumerable.Range(0, n).Where(b => b != a && AreNeighbours(a, b)).ToArray()).ToArray();
        var steps = new int[n, n];
        for (var from = 0; from < n; from++)
        {
            var reached = new bool[n];
            reached[from] = true;
            int[] ring = [from];
            for (var step = 0; ring.Length > 0; step++)
            {
                foreach (var hole in ring)
                {
                    steps[from, hole] = step;
                }

                ring = [.. ring.SelectMany(hole => neighbours[hole]).Distinct().Where(hole => !reached[hole])];
                foreach (var hole in ring)
                {
                    reached[hole] = true;
                }
            }
        }

        return steps;
    }

    public double Distance(int a, int b) => Distance(Holes[a], Holes[b]);

    public double FromCentre(int hole) => Math.Sqrt(Square(Holes[hole].X_mm - CentreX_mm) + Square(Holes[hole].Y_mm - CentreY_mm));

    private bool AreNeighbours(int a, int b)
    {
        var (p, q) = (Holes[a], Holes[b]);
        var reach = Square(p.X_mm - q.X_mm) + Square(p.Y_mm - q.Y_mm);
        return Enumerable.Range(0, Holes.Count).All(i => i == a || i == b
            || Square(Holes[i].X_mm - p.X_mm) + Square(Holes[i].Y_mm - p.Y_mm) + Square(Holes[i].X_mm - q.X_mm) + Square(Holes[i].Y_mm - q.Y_mm) > reach * (1 + 1e-9));
    }

    // Clockwise from 12 o'clock.
    private double Bearing(int hole) => Math.Atan2(Holes[hole].X_mm - CentreX_mm, Holes[hole].Y_mm - CentreY_mm);

    /// <summary>The centre of the circle that fits best (least squares of x² + y² = a x + b y + c), null when the holes do not go round it.</summary>
    private static (double X, double Y)? CircleThrough(IReadOnlyList<Hole> holes, double x, double y)
    {
        if (holes.Count < 3)
        {
            return null;
        }

        double uu = 0, vv = 0, uv = 0, uz = 0, vz = 0;
        foreach (var hole in holes)
        {
            var (u, v) = (hole.X_mm - x, hole.Y_mm - y);
            var z = u * u + v * v;
            (uu, vv, uv, uz, vz) = (uu + u * u, vv + v * v, uv + u * v, uz + u * z, vz + v * z);
        }

        var det = uu * vv - uv * uv;
        if (det <= 1e-9 * uu * vv)
        {
            return null;
        }

        var centre = (X: x + (uz * vv - vz * uv) / (2 * det), Y: y + (vz * uu - uz * uv) / (2 * det));
        var radii = holes.Select(h => Math.Sqrt(Square(h.X_mm - centre.X) + Square(h.Y_mm - centre.Y))).ToArray();
        var bearings = holes.Select(h => Math.Atan2(h.X_mm - centre.X, h.Y_mm - centre.Y)).Order().ToArray();
        var widest = bearings.Zip(bearings.Skip(1).Append(bearings[0] + 2 * Math.PI), (a, b) => b - a).Max();
        return radii.Max() - radii.Min() <= OffCircle * radii.Average() && widest <= Math.PI + 1e-9 ? centre : null;
    }

    private static double Distance(Hole a, Hole b) => Math.Sqrt(Square(a.X_mm - b.X_mm) + Square(a.Y_mm - b.Y_mm));

    private static double Square(double value) => value * value;
}
