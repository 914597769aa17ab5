namespace Lastoff.Core.Maps;

/// <summary>Every name that is used stands for something, of the sort that is wanted there, and what hangs on a joint agrees with what it holds.</summary>
internal sealed class ReferenceCheck
{
    private readonly MapNames _names;
    private readonly FaultList _faults;

    private ReferenceCheck(MapNames names, FaultList faults) => (_names, _faults) = (names, faults);

    public static void Check(Map map, MapNames names, FaultList faults)
    {
        var check = new ReferenceCheck(names, faults);
        foreach (var (i, supply) in map.Supplies.Index())
        {
            check.Names($"supplies[{i}].needs", $"Supply '{supply.Id}'", supply.Needs, ["supply"]);
            check.Reach($"supplies[{i}]", $"Supply '{supply.Id}'", supply.Reach);
        }

        foreach (var (i, joint) in map.Joints.Index())
        {
            var (path, what) = ($"joints[{i}]", $"Joint '{joint.Id}'");
            if (joint.Holds.Count == 0)
            {
                faults.Add($"{path}.holds", $"{what} holds nothing; list under 'holds' every part that cannot come away while it is made, or take the joint out.");
            }

            check.Names($"{path}.holds", what, joint.Holds, ["part"]);
            check.Names($"{path}.needs", what, joint.Needs, ["supply"]);
            check.Reach(path, what, joint.Reach);
        }

        var holding = map.Joints.SelectMany(j => j.Holds.Select(part => (part, j.Id))).ToHashSet();
        foreach (var (i, part) in map.Parts.Index())
        {
            check.Part($"parts[{i}]", part, holding);
        }

        check.RidesInCircles(map);
        check.Owners(map);
    }

    private void Part(string path, Part part, HashSet<(string Part, string Joint)> holding)
    {
        var what = $"Part '{part.Id}'";
        Names($"{path}.needs", what, part.Needs, ["supply"]);
        Reach(path, what, part.Reach);
        if (part.RidesOn is { } carrier)
        {
            Name($"{path}.rides_on", what, carrier, ["part"]);
        }

        foreach (var (i, joint) in (part.Aside?.Leaves ?? []).Index())
        {
            var at = $"{path}.aside.leaves[{i}]";
            Name(at, what, joint, ["joint"]);
            if (_names.IsJoint(joint) && !holding.Contains((part.Id, joint)))
            {
                _faults.Add(at, $"{what} is laid aside with joint '{joint}' still made, but that joint does not hold it; take it out of 'leaves', or add the part to what the joint holds (line {_faults.LineOf(_names.PathOf(joint))}).");
            }
        }
    }

    private void Owners(Map map)
    {
        foreach (var (i, opening) in map.Openings.Index())
        {
            Owner($"openings[{i}].on", $"Opening '{opening.Id}'", opening.On, ["joint", "part"]);
        }

        foreach (var (i, renewal) in map.Renewals.Index())
        {
            Owner($"renewals[{i}].for", $"Renewal '{renewal.Id}'", renewal.For, ["part", "joint", "supply"]);
        }

        foreach (var (i, proof) in map.Proofs.Index())
        {
            Owner($"proofs[{i}].for", $"Proof '{proof.Id}'", proof.For, ["part", "joint", "supply"]);
        }
    }

    private void Owner(string path, string what, string name, string[] wanted)
    {
        if (name.Length == 0)
        {
            _faults.Add(path, $"{what} does not say what it is {path[(path.LastIndexOf('.') + 1)..]}; name a {string.Join(" or a ", wanted)}.");
        }

        Name(path, what, name, wanted);
    }

    private void Reach(string path, string what, Reach reach)
    {
        // The short form stands directly under 'reach'.
        Names($"{path}.reach{(_faults.Knows($"{path}.reach.clear") ? ".clear" : "")}", what, reach.Clear, ["part"]);
        Names($"{path}.reach.off", what, reach.Off, ["part"]);
        foreach (var (i, way) in reach.Either.Index())
        {
            Names($"{path}.reach.either[{i}].clear", what, way.Clear, ["part"]);
            Names($"{path}.reach.either[{i}].off", what, way.Off, ["part"]);
        }
    }

    private void Names(string path, string what, IReadOnlyList<string> names, string[] wanted)
    {
        var seen = new HashSet<string>();
        foreach (var (i, name) in names.Index())
        {
            Name($"{path}[{i}]", what, name, wanted);
            if (name.Length > 0 && !seen.Add(name))
            {
                _faults.Add($"{path}[{i}]", $"{what} lists '{name}' twice; keep one.");
            }
        }
    }

    private void Name(string path, string what, string name, string[] wanted)
    {
        var sort = _names.SortOf(name);
        // A list that could not be read at all knows no names: that is one fault, not one for each use of them.
        if (name.Length == 0 || (sort is null ? wanted.Any(s => _faults.IsFaulty(Section(s))) : wanted.Contains(sort)))
        {
            return;
        }

        var want = string.Join(" or a ", wanted);
        _faults.Add(path, sort is null
            ? $"{what} names '{name}', and the map has no {string.Join(" or ", wanted)} of that name{_faults.DidYouMean(name, _names.Of(wanted), "; correct it or add it.")}"
            : $"{what} names '{name}', which is a{(sort == "opening" ? "n" : "")} {sort} (line {_faults.LineOf(_names.PathOf(name))}), where a {want} is wanted.");
    }

    private static string Section(string sort) => sort == "supply" ? "supplies" : $"{sort}s";

    private void RidesInCircles(Map map)
    {
        var carrier = new Dictionary<string, string>();
        foreach (var part in map.Parts.Where(p => p.RidesOn is { } on && _names.IsPart(on)))
        {
            carrier.TryAdd(part.Id, part.RidesOn!);
        }

        var settled = new HashSet<string>();
        foreach (var part in map.Parts)
        {
            var way = new List<string>();
            var at = part.Id;
            while (!settled.Contains(at) && !way.Contains(at) && carrier.TryGetValue(at, out var on))
            {
                way.Add(at);
                at = on;
            }

            if (way.IndexOf(at) is var start && start >= 0)
            {
                var circle = Circle.From(way[start..], id => _faults.LineOf(_names.PathOf(id)));
                _faults.AddBetween($"{_names.PathOf(circle.First)}.rides_on", $"Parts carry each other in a circle: {circle.Spell("rides on")}. Take 'rides_on' from one of them.");
            }

            settled.UnionWith(way);
        }
    }
}
