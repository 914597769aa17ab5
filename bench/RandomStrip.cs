using Lastoff.Core.Learning;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>A job of a map done by ways and in an order drawn at random, as somebody might who knows the machine and does nothing for nothing.</summary>
public static class RandomStrip
{
    /// <param name="mayBe">Where something can be moved out of the way in several ways, those that may be chosen.</param>
    public static IReadOnlyList<int> Order(OperationNet net, string goal, Random random, Predicate<Operation> mayBe)
    {
        // Ways chosen at random may wait for each other: then others are chosen, and in the end more than seems to be needed, as where a joint lies behind its own part.
        for (var attempt = 0; attempt < 10_000; attempt++)
        {
            var among = Needed(net, goal, random, mayBe, careful: attempt < 20);
            if (net.Supported(among).Contains(net.Find(OperationKind.Off, goal)))
            {
                return InAnyOrder(net, among, random);
            }
        }

        throw new InvalidOperationException($"No choice of ways led to {goal}.");
    }

    private static List<int> InAnyOrder(OperationNet net, OperationSet among, Random random)
    {
        var (order, done) = (new List<int>(), net.Nothing);
        while (among.Where(operation => net.CanDo(done, operation)).ToList() is { Count: > 0 } open)
        {
            var next = open[random.Next(open.Count)];
            order.Add(next);
            done = done.With(next);
        }

        return order;
    }

    /// <summary>What a recorder on the spot writes down of it. Every thing is called by its identifier.</summary>
    public static Strip Recorded(OperationNet net, IReadOnlyList<int> order, string name)
    {
        var (removals, done) = (new List<Removal>(), net.Nothing);
        foreach (var index in order)
        {
            var operation = net.Operations[index];
            var way = net.OpenWay(done, index)!;
            removals.Add(new Removal(operation.Kind, operation.Target)
            {
                Joint = operation.Kind == OperationKind.Undo ? net.Joints[operation.Target].Kind : default,
                Supply = operation.Kind == OperationKind.MakeSafe ? net.Supplies[operation.Target].Kind : default,
                Tool = way.Tool,
                At = way.At,
                Minutes = operation.OutMinutes * way.Times,
                TookAlong = operation.Kind == OperationKind.Off ? [.. net.Map.Parts.Where(part => GoesWith(net, part, operation.Target)).Select(part => part.Id)] : [],
            });
            done = done.With(index);
        }

        return new Strip(name, removals);
    }

    private static bool GoesWith(OperationNet net, Part part, string carrier) =>
        part.RidesOn is { } on && (on == carrier || GoesWith(net, net.Parts[on], carrier));

    private static OperationSet Needed(OperationNet net, string goal, Random random, Predicate<Operation> mayBe, bool careful)
    {
        var needed = net.Nothing;
        var open = new Stack<int>([net.Find(OperationKind.Off, goal)]);
        while (open.TryPop(out var operation))
        {
            if (needed.Contains(operation))
            {
                continue;
            }

            needed = needed.With(operation);
            var ways = net.Operations[operation].Ways;
            foreach (var need in ways[random.Next(ways.Count)].Needs.Where(need => !need.Overlaps(needed) || (!careful && random.Next(3) == 0)))
            {
                List<int> members = need.Where(member => mayBe(net.Operations[member])).ToList() is { Count: > 0 } some ? some : [.. need];
                open.Push(members[random.Next(members.Count)]);
            }
        }

        return needed;
    }
}
