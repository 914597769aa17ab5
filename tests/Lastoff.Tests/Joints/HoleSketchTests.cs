using CsCheck;
using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>The picture of a joint: geometry only, so whatever the holes it must hold for all of them.</summary>
public class HoleSketchTests
{
    private const double Lit = 1.25;

    private static readonly Gen<HolePattern> Patterns = Gen.OneOf(
        Gen.Int[1, 24].Select(Given.Circle),
        Gen.Select(Gen.Int[1, 8], Gen.Int[1, 3]).Select((columns, rows) => HolePattern.Grid(columns, rows).Or(Given.Fail<HolePattern>)),
        Gen.Select(Gen.Int[0, 12], Gen.Int[0, 12]).List[1, 14].Select(places =>
            HolePattern.From([.. places.Distinct().Select((place, i) => new Hole($"{i + 1}", 30 * place.Item1, 25 * place.Item2))]).Or(Given.Fail<HolePattern>)));

    [Fact]
    public void Every_bolt_is_inside_the_picture_and_none_covers_another_even_when_one_is_lit() => Patterns.Sample(pattern =>
    {
        var sketch = HoleSketch.Of(pattern, 320, 290);
        Assert.InRange(sketch.Height, 1, 290.001);
        Assert.All(sketch.Bolts, bolt =>
        {
            Assert.InRange(bolt.X, Lit * sketch.BoltRadius, sketch.Width - Lit * sketch.BoltRadius);
            Assert.InRange(bolt.Y, Lit * sketch.BoltRadius, sketch.Height - Lit * sketch.BoltRadius);
        });
        Assert.All(sketch.Bolts.Index(), a => Assert.All(sketch.Bolts.Take(a.Index), b =>
            Assert.True(Math.Sqrt((a.Item.X - b.X) * (a.Item.X - b.X) + (a.Item.Y - b.Y) * (a.Item.Y - b.Y)) >= (1 + Lit) * sketch.BoltRadius)));
    }, iter: 500);

    [Fact]
    public void The_picture_is_to_scale_and_up_is_up() => Patterns.Sample(pattern =>
    {
        var sketch = HoleSketch.Of(pattern, 320, 290);
        var scale = (from a in Enumerable.Range(0, pattern.Holes.Count)
                     from b in Enumerable.Range(0, a)
                     select Math.Sqrt(Math.Pow(sketch.Bolts[a].X - sketch.Bolts[b].X, 2) + Math.Pow(sketch.Bolts[a].Y - sketch.Bolts[b].Y, 2)) / pattern.Distance(a, b)).ToList();
        Assert.All(scale, s => Assert.Equal(scale[0], s, 1e-6 * scale[0]));
        Assert.All(pattern.Holes.Index(), a => Assert.All(pattern.Holes.Index(), b =>
            Assert.True(a.Item.Y_mm <= b.Item.Y_mm + 1e-6 || sketch.Bolts[a.Index].Y < sketch.Bolts[b.Index].Y)));
    }, iter: 300);

    [Fact]
    public void A_circle_has_its_whole_rim_in_the_picture() => Gen.Int[3, 24].Sample(bolts =>
    {
        var sketch = HoleSketch.Of(Given.Circle(bolts), 320, 290);
        var centre = Assert.Single(sketch.Outline);
        Assert.InRange(sketch.Circle!.Value + 1.7 * sketch.BoltRadius, 0, Math.Min(centre.Y, sketch.Height - centre.Y) + 1e-9);
        Assert.All(sketch.Bolts, bolt => Assert.Equal(sketch.Circle.Value, Math.Sqrt(Math.Pow(bolt.X - centre.X, 2) + Math.Pow(bolt.Y - centre.Y, 2)), 1e-6));
    }, iter: 24);

    [Fact]
    public void The_outline_of_a_cover_is_its_corners()
    {
        var sketch = HoleSketch.Of(HolePattern.Grid(3, 3).Or(Given.Fail<HolePattern>), 320, 290);
        Assert.Null(sketch.Circle);
        Assert.Equal(new[] { 0, 2, 6, 8 }.Select(corner => sketch.Bolts[corner]).OrderBy(p => p.X).ThenBy(p => p.Y), sketch.Outline.OrderBy(p => p.X).ThenBy(p => p.Y));
    }

    [Fact]
    public void One_hole_is_on_top_or_none()
    {
        Assert.Equal("1", Given.Circle(6).Top);
        Assert.Null(HolePattern.Grid(2, 2).Value!.Top);
    }
}
