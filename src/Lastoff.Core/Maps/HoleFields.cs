using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

/// <summary>Reads where the bolts of a joint sit, and in which order the maker tightens them: {circle: 8}, {row: 5}, {grid: [4, 2]} or {places_mm: [[0, 0], ..]}.</summary>
internal static class HoleFields
{
    private static readonly string[] Ways = ["circle", "row", "grid", "places_mm"];

    /// <summary>The pattern and the order; null when the map gives none, or none that can be used.</summary>
    public static (HolePattern Pattern, IReadOnlyList<int> Order)? Read(YamlFields owner, Joint joint, FaultList faults)
    {
        if (owner.Fields("holes", $"The holes of joint '{joint.Id}'") is not { } fields)
        {
            return null;
        }

        if (Ways.Count(fields.Has) != 1)
        {
            faults.Add(owner.At("holes"), $"{fields.What} are given in {(Ways.Any(fields.Has) ? "more than one way" : "no way")}; write one of {{circle: 6}}, {{row: 5}}, {{grid: [4, 2]}} or {{places_mm: [[0, 0], [40, 0]]}}.");
            return null;
        }

        var answer = fields.Has("circle") ? HolePattern.Circle(fields.Whole("circle", 0))
            : fields.Has("row") ? HolePattern.Grid(fields.Whole("row", 0), 1)
            : fields.Has("grid") ? Grid(NumberList.Read(fields, "grid", faults))
            : Places(fields, faults);
        var order = NumberList.Read(fields, "order", faults);
        fields.Finish();
        if (!answer.TryGet(out var pattern, out var sentence))
        {
            faults.Add(owner.At("holes"), $"{fields.What}: {sentence}");
            return null;
        }

        // A count that cannot be is reported where it stands.
        if (joint.Count < 1)
        {
            return null;
        }

        if (pattern.Holes.Count != joint.Count)
        {
            faults.Add(owner.At("holes"), $"{fields.What} are {pattern.Holes.Count} and its 'count' is {joint.Count}; they must be the same.");
            return null;
        }

        if (order is null)
        {
            return (pattern, TighteningOrder.Of(pattern));
        }

        if (!order.Order().SequenceEqual(Enumerable.Range(1, joint.Count).Select(i => (double)i)))
        {
            faults.Add(fields.At("order"), $"{fields.What}: the order names each hole once, from 1 to {joint.Count}.");
            return null;
        }

        return (pattern, [.. order.Select(number => (int)number - 1)]);
    }

    private static Answer<HolePattern> Grid(IReadOnlyList<double>? sides) => sides is [var columns, var rows] && columns == Math.Truncate(columns) && rows == Math.Truncate(rows) && Math.Max(Math.Abs(columns), Math.Abs(rows)) < 1e6
        ? HolePattern.Grid((int)columns, (int)rows)
        : Answer.None<HolePattern>("A grid is two whole numbers, columns and rows, as [4, 2].");

    private static Answer<HolePattern> Places(YamlFields fields, FaultList faults)
    {
        var holes = new List<Hole>();
        foreach (var item in (fields.Take("places_mm") as YamlList)?.Items ?? [])
        {
            if (item is not YamlList { Items: [var x, var y] } || !NumberList.TryRead(x, out var right) || !NumberList.TryRead(y, out var up))
            {
                faults.Place(fields.At("places_mm"), item.Line);
                return Answer.None<HolePattern>("A place is written in millimetres to the right and up, as [40, 0].");
            }

            holes.Add(new Hole($"{holes.Count + 1}", right, up));
        }

        return HolePattern.From(holes);
    }
}
