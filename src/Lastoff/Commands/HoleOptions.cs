using System.CommandLine;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary>Where the holes are, alike for ordering and simulating.</summary>
internal sealed class HoleOptions
{
    private readonly Option<int?> _circle = new("--circle") { Description = "So many bolts evenly on a circle, numbered clockwise from 12 o'clock." };
    private readonly Option<string?> _holes = new("--holes") { Description = "Holes as x,y in millimetres: 0,0;40,0;80,0." };
    private readonly Option<string?> _points = new("--points") { Description = "A CSV file with the columns x_mm,y_mm and, if the holes have names, bolt." };
    private readonly Option<string?> _pattern = new("--pattern") { Description = "circle or outward (rectangular covers, manifolds, heads); told from the places when left out." };

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[_circle, _holes, _points, _pattern])
        {
            command.Options.Add(option);
        }
    }

    public HolePattern Pattern(ParseResult parsed)
    {
        var (circle, holes, points) = (parsed.GetValue(_circle), parsed.GetValue(_holes), parsed.GetValue(_points));
        if (new[] { circle is not null, holes is not null, points is not null }.Count(given => given) != 1)
        {
            throw new Failure("--circle, --holes or --points: say in one of these ways where the holes are.");
        }

        PatternShape? shape = parsed.GetValue(_pattern) is not { } word ? null
            : Words<PatternShape>.TryRead(word, out var read) ? read
            : throw new Failure($"--pattern {word}: this is not known; use one of {string.Join(", ", Words<PatternShape>.All)}.");
        return circle is { } bolts ? HolePattern.Circle(bolts).OrFail("--circle")
            : holes is not null ? HolePattern.From(HoleFile.ReadRow(holes).OrFail("--holes"), shape).OrFail("--holes")
            : HolePattern.From(InputFile.Holes(points!), shape).OrFail(points);
    }
}
