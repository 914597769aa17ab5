using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>Invented machines of a given size: assemblies in layers from the outside in, a few tools, a few sides, some alternatives.</summary>
/// <remarks>
/// Made to look like a real engine bay: joints mostly on the side of their part, tools of very unequal use, each deeper part behind one to
/// three of the layer above, and from one to six joints that can be got at in two ways.
/// </remarks>
public sealed class MapGenerator
{
    private static readonly Tool[] Tools =
    [
        Tool.Hand, new("ratchet 1/4 in", "hex 10 mm"), new("ratchet 3/8 in", "hex 13 mm"), new("screwdriver", "flat 6 mm"), new("ratchet 1/4 in", "hex 8 mm"),
        new("clamp pliers", null), new("ratchet 1/4 in", "star 30"), new("ratchet 3/8 in", "hex 12 mm"), new("trim fork", null), new("ratchet 1/2 in", "hex 15 mm"),
        new("long extension 3/8 in", "hex 12 mm"), new("flare spanner", "17 mm"), new("ratchet 1/2 in", "hex 19 mm"), new("ratchet 3/8 in", "inner hex 6 mm"),
    ];

    private static readonly Tool Swivel = new("long swivel 3/8 in", "hex 13 mm");

    private static readonly Position[] Sides =
    [
        Position.Above, Position.Above, Position.Above, Position.Above, Position.Above, Position.Front, Position.Front, Position.Left, Position.Left, Position.Right,
        Position.Below, Position.Below,
    ];

    private static readonly SupplyKind[] Kinds = [SupplyKind.Battery, SupplyKind.Coolant, SupplyKind.FuelPressure];

    private readonly Random _random;
    private readonly List<Supply> _supplies = [];
    private readonly List<Joint> _joints = [];
    private readonly List<List<Part>> _layers = [];
    private readonly int _tools;
    private int _parts;

    private MapGenerator(int operations, int seed)
    {
        _random = new Random(seed);
        _tools = Math.Clamp(4 + operations / 12, 5, Tools.Length);
    }

    /// <param name="operations">How many operations the map has, near enough.</param>
    public static Map Make(int operations, int seed) => new MapGenerator(operations, seed).Make(operations);

    /// <summary>The deepest part of such a map.</summary>
    public static string Goal(Map map) => map.Parts[^1].Id;

    private Map Make(int operations)
    {
        foreach (var kind in Kinds.Take(operations < 40 ? 1 : operations < 120 ? 2 : 3))
        {
            _supplies.Add(new Supply
            {
                Id = $"supply-{_supplies.Count + 1}",
                Name = $"Supply {_supplies.Count + 1}",
                Kind = kind,
                At = Side(),
                Tool = AnyTool(),
                SafeMinutes = Minutes(2, 10),
                RestoreMinutes = Minutes(3, 15),
            });
        }

        var layers = Math.Clamp(3 + operations / 40, 3, 9);
        for (var layer = 0; layer < layers; layer++)
        {
            _layers.Add([]);
            var until = layer == layers - 1 ? operations : (operations - 4) * (layer + 1) / (layers - 1);
            do
            {
                AddPart(layer, isLast: layer == layers - 1);
            }
            while (layer < layers - 1 && Size() < until - 4);
        }

        BlockWithWhatIsLoose();
        AddAlternatives(Math.Clamp(operations / 25, 1, 6));
        return new Map
        {
            Name = "generated",
            Title = "Invented machine",
            Invented = true,
            SetUp = new SetUpMinutes(0.4, 0.6, 2.5),
            Supplies = _supplies,
            Parts = [.. _layers.SelectMany(parts => parts)],
            Joints = _joints,
        };
    }

    private int Size() => _supplies.Count + _joints.Count + _layers.Sum(parts => parts.Sum(part => part.Aside is null ? 1 : 2));

    private void AddPart(int layer, bool isLast)
    {
        var number = ++_parts;
        var side = Side();
        var behind = layer == 0 ? [] : Behind(layer - 1, side, isLast ? 3 : 1 + _random.Next(2));
        var joints = isLast ? 4 : 1 + _random.Next(4);
        var leaves = new List<string>();
        var canLieAside = !isLast && _random.Next(8) == 0;
        for (var i = 1; i <= joints; i++)
        {
            var joint = AddJoint($"part-{number}", $"joint-{number}-{i}", side, layer);
            if (canLieAside && joint.Tool.IsHand)
            {
                leaves.Add(joint.Id);
            }
        }

        _layers[layer].Add(new Part
        {
            Id = $"part-{number}",
            Name = $"Part {number}",
            At = side,
            OffMinutes = Minutes(0.2, 2),
            OnMinutes = Minutes(0.3, 3),
            Reach = new Reach(behind, [], []),
            Aside = leaves.Count > 0 ? new Aside(leaves, Minutes(0.2, 1), Minutes(0.3, 1)) : null,
        });
    }

    private Joint AddJoint(string part, string id, Position side, int layer)
    {
        var joint = new Joint
        {
            Id = id,
            Name = id.Replace("joint", "Joint"),
            Kind = JointKind.Bolt,
            Holds = [part],
            At = _random.Next(5) == 0 ? Side() : side,
            Tool = AnyTool(),
            UndoMinutes = Minutes(0.3, 3),
            MakeMinutes = Minutes(0.5, 4),
            Needs = _random.Next(10) == 0 ? [_supplies[_random.Next(_supplies.Count)].Id] : [],
            Reach = layer > 0 && _random.Next(3) == 0 ? new Reach(Behind(_random.Next(layer), side, 1), [], []) : Reach.Free,
        };
        _joints.Add(joint);
        return joint;
    }

    /// <summary>Some parts of a layer, mostly of the same side.</summary>
    private List<string> Behind(int layer, Position side, int count)
    {
        var near = _layers[layer].Where(part => part.At == side).ToList();
        return [.. Enumerable.Range(0, count).Select(_ => Any(near.Count > 0 && _random.Next(4) > 0 ? near : _layers[layer]).Id).Distinct()];
    }

    /// <summary>Most parts are in the way of something deeper: else a map would be wide, and the plan a small corner of it.</summary>
    private void BlockWithWhatIsLoose()
    {
        for (var layer = 0; layer < _layers.Count - 1; layer++)
        {
            foreach (var part in _layers[layer])
            {
                if (_random.Next(6) > 0 && !_layers[layer + 1].Exists(deeper => deeper.Reach.Clear.Contains(part.Id)))
                {
                    var at = _random.Next(_layers[layer + 1].Count);
                    var deeper = _layers[layer + 1][at];
                    _layers[layer + 1][at] = deeper with { Reach = deeper.Reach with { Clear = [.. deeper.Reach.Clear, part.Id] } };
                }
            }
        }
    }

    /// <summary>Either one more part out of the way, or a long swivel (or a reach from another side) and more time.</summary>
    private void AddAlternatives(int count)
    {
        for (var left = count; left > 0; left--)
        {
            var layer = 1 + _random.Next(_layers.Count - 2);
            var part = Any(_layers[layer]);
            var own = _joints.FindIndex(joint => joint.Holds.Contains(part.Id));
            _joints[own] = _joints[own] with
            {
                Reach = new Reach([], [],
                [
                    new ReachWay([Any(_layers[layer - 1]).Id], [], null, null, 1, 0),
                    new ReachWay([], [], _random.Next(2) == 0 ? Side() : null, Swivel, 1.5 + _random.Next(4) / 2.0, 0),
                ]),
            };
        }
    }

    private T Any<T>(List<T> among) => among[_random.Next(among.Count)];

    private Position Side() => Sides[_random.Next(Sides.Length)];

    /// <summary>The first tools of the list are used most.</summary>
    private Tool AnyTool() => Tools[Math.Min(_random.Next(_tools), _random.Next(_tools))];

    private double Minutes(double least, double most) => Math.Round(least + (most - least) * _random.NextDouble() * _random.NextDouble(), 1);
}
