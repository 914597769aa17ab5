using System.Numerics;

namespace Lastoff.Core.Maps;

/// <summary>A map compiled to its operations and what each of them needs: the ground on which plan, guards and last looks stand.</summary>
/// <remarks>
/// What is needed only ever grows easier as more is undone, so the sets that can be reached from a whole machine are closed under union.
/// Hence the rules used here: an operation may be reversed when everything still undone could also have been undone without it, and a
/// strip run backwards is always a legal way home.
/// </remarks>
public sealed class OperationNet
{
    private readonly Dictionary<(OperationKind, string), int> _index;
    private readonly int[][] _neededBy;

    private OperationNet(Map map, Operation[] operations, Dictionary<(OperationKind, string), int> index)
    {
        Map = map;
        Operations = operations;
        _index = index;
        _neededBy = NeededBy(operations);
        Nothing = OperationSet.Empty(operations.Length);
        Parts = map.Parts.ToDictionary(p => p.Id);
        Joints = map.Joints.ToDictionary(j => j.Id);
        Supplies = map.Supplies.ToDictionary(s => s.Id);
        Openings = map.Openings.ToDictionary(o => o.Id);
        Proofs = map.Proofs.ToDictionary(p => p.Id);
        JointsOf = map.Parts.ToDictionary(p => p.Id, p => (IReadOnlyList<Joint>)[.. map.Joints.Where(j => j.Holds.Contains(p.Id))]);
        OpeningsOn = map.Openings.ToLookup(o => o.On).ToDictionary(g => g.Key, g => (IReadOnlyList<Opening>)[.. g]);
        RenewalsFor = map.Renewals.Concat(map.Joints.Where(j => j.OneTime).Select(NewFasteners)).ToLookup(r => r.For).ToDictionary(g => g.Key, g => (IReadOnlyList<Renewal>)[.. g]);
    }

    public Map Map { get; }
    public IReadOnlyList<Operation> Operations { get; }
    public IReadOnlyDictionary<string, Part> Parts { get; }
    public IReadOnlyDictionary<string, Joint> Joints { get; }
    public IReadOnlyDictionary<string, Supply> Supplies { get; }
    public IReadOnlyDictionary<string, Opening> Openings { get; }
    public IReadOnlyDictionary<string, Proof> Proofs { get; }
    /// <summary>The joints that hold each part.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<Joint>> JointsOf { get; }
    /// <summary>The openings laid bare by each part or joint.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<Opening>> OpeningsOn { get; }
    /// <summary>The renewals that each part, joint or supply calls for once disturbed: those the map lists, and one-time fasteners.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<Renewal>> RenewalsFor { get; }

    public OperationSet Nothing { get; }

    /// <summary>Compiles a map that the check found no unknown name in.</summary>
    public static OperationNet From(Map map)
    {
        var slots = new List<(OperationKind Kind, string Target)>();
        slots.AddRange(map.Supplies.Select(s => (OperationKind.MakeSafe, s.Id)));
        slots.AddRange(map.Joints.Select(j => (OperationKind.Undo, j.Id)));
        slots.AddRange(map.Parts.Where(p => p.Aside is not null).Select(p => (OperationKind.Aside, p.Id)));
        slots.AddRange(map.Parts.Select(p => (OperationKind.Off, p.Id)));
        var index = slots.Select((slot, i) => (slot, i)).ToDictionary(x => x.slot, x => x.i);
        return new OperationNet(map, new OperationBuilder(map, index).Build(), index);
    }

    public bool TryFind(OperationKind kind, string target, out int operation) => _index.TryGetValue((kind, target), out operation);

    /// <exception cref="KeyNotFoundException">The map has no such operation.</exception>
    public int Find(OperationKind kind, string target) => _index[(kind, target)];

    /// <summary>The renewal with this identifier, the new part of a possible goal and the new piece of a joint included; null when the map has none.</summary>
    public Renewal? RenewalNamed(string id) =>
        RenewalsFor.Values.SelectMany(r => r).FirstOrDefault(r => r.Id == id)
        ?? Map.Parts.Select(p => NewPart(p.Id)).Concat(Map.Joints.Select(j => NewPiece(j.Id))).FirstOrDefault(r => r.Id == id);

    /// <summary>A new part, or a new set of one-time fasteners, is called by what it is for; of what broke it is one piece.</summary>
    public string NameOf(Renewal renewal) =>
        renewal.Kind == RenewalKind.Part && Parts.TryGetValue(renewal.For, out var part) ? part.Name
        : IsNewSet(renewal) && Joints.TryGetValue(renewal.For, out var joint) ? joint.OneTime ? joint.Name : OneNew(joint)
        : renewal.Name;

    /// <summary>The name where nothing else says that it is a new one: on a list of what is to be had, and in a price.</summary>
    public string NameToBuy(Renewal renewal) => IsNewSet(renewal) && Joints.TryGetValue(renewal.For, out var joint) && joint.OneTime ? $"{joint.Name}, new" : NameOf(renewal);

    /// <summary>What the map tells of a part, joint or supply beside what is to be heeded.</summary>
    public IReadOnlyList<string> NotesOf(string target) =>
        Parts.TryGetValue(target, out var part) ? part.Notes
        : Joints.TryGetValue(target, out var joint) ? joint.Notes
        : Supplies.TryGetValue(target, out var supply) ? supply.Notes
        : [];

    /// <summary>The new part that a goal brings: it is renewed, not refitted. Where the map renews it each time, that is the one.</summary>
    public Renewal NewPart(string part) => RenewalsFor.GetValueOrDefault(part, []).FirstOrDefault(renewal => renewal.Kind == RenewalKind.Part) ?? new($"{part}.new", $"new: {Parts[part].Name}", RenewalKind.Part, part, 1, "", Parts[part].Line);

    /// <summary>What goes into a joint for the piece of it that broke.</summary>
    public Renewal NewPiece(string joint) => NewFasteners(Joints[joint]) with { Count = 1, Name = OneNew(Joints[joint]) };

    /// <summary>“One new bolt M10: pump head”: what it is stands first, or else it is taken for the whole.</summary>
    private static string OneNew(Joint joint) => $"One new {Words<JointKind>.Of(joint.Kind)}{(joint.Thread is { } thread ? $" {thread}" : "")}: {joint.Name}";

    private static bool IsNewSet(Renewal renewal) => renewal.Id == $"{renewal.For}.new";

    /// <summary>Whether the operation can be done now, on the way out.</summary>
    public bool CanDo(OperationSet done, int operation) =>
        !done.Contains(operation) && !IsOffAlready(done, operation) && IsOpen(done, operation);

    /// <summary>The quickest way of doing the operation with this much undone, or null when none is open.</summary>
    public Way? OpenWay(OperationSet done, int operation)
    {
        Way? best = null;
        foreach (var way in Operations[operation].Ways)
        {
            if (way.IsOpen(done) && (best is null || way.Times < best.Times))
            {
                best = way;
            }
        }

        return best;
    }

    /// <summary>The largest set of operations, out of those given, that can be done in some order from a whole machine.</summary>
    public OperationSet Supported(OperationSet among)
    {
        var words = new ulong[(Operations.Count + 63) / 64];
        var done = OperationSet.Over(words);
        Span<ulong> waiting = stackalloc ulong[words.Length];
        among.CopyTo(waiting);
        for (var word = 0; word < waiting.Length;)
        {
            if (waiting[word] == 0)
            {
                word++;
                continue;
            }

            var operation = (word << 6) + BitOperations.TrailingZeroCount(waiting[word]);
            waiting[word] &= waiting[word] - 1;
            if (!IsOpen(done, operation))
            {
                continue;
            }

            words[operation >> 6] |= 1UL << operation;
            foreach (var other in _neededBy[operation])
            {
                if (among.Contains(other) && !done.Contains(other))
                {
                    waiting[other >> 6] |= 1UL << other;
                    word = Math.Min(word, other >> 6);
                }
            }
        }

        return done;
    }

    /// <summary>What is still undone and would be left hanging if this operation were reversed now; empty when it may be.</summary>
    /// <remarks>An operation that was done out of order (the map was wrong, or two ledgers met) holds nothing back.</remarks>
    public OperationSet HoldingBack(OperationSet done, int operation)
    {
        var hanging = Nothing;
        if (IsAnyDone(_neededBy[operation], done))
        {
            hanging = Supported(done).Without(operation).Except(Supported(done.Without(operation)));
        }

        return IsOffAlready(done, operation) ? hanging.With(Find(OperationKind.Off, Operations[operation].Target)) : hanging;
    }

    public bool CanReverse(OperationSet done, int operation) =>
        done.Contains(operation) && HoldingBack(done, operation).Count == 0;

    /// <summary>The made joints that can be got at now but no longer once the operation is reversed: they want a last look first.</summary>
    public IEnumerable<Joint> HiddenBy(OperationSet done, int operation)
    {
        var after = done.Without(operation);
        foreach (var neighbour in _neededBy[operation])
        {
            var other = Operations[neighbour];
            if (other.Kind == OperationKind.Undo && !done.Contains(neighbour) && IsInReach(done, neighbour) && !IsInReach(after, neighbour))
            {
                yield return Joints[other.Target];
            }
        }
    }

    private static bool IsAnyDone(int[] operations, OperationSet done)
    {
        foreach (var operation in operations)
        {
            if (done.Contains(operation))
            {
                return true;
            }
        }

        return false;
    }

    private bool IsInReach(OperationSet done, int operation)
    {
        foreach (var way in Operations[operation].Ways)
        {
            if (way.IsInReach(done))
            {
                return true;
            }
        }

        return false;
    }

    private bool IsOpen(OperationSet done, int operation)
    {
        foreach (var way in Operations[operation].Ways)
        {
            if (way.IsOpen(done))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>A part that is off cannot be laid aside, nor brought home from aside before it is back on what holds it.</summary>
    private bool IsOffAlready(OperationSet done, int operation) =>
        Operations[operation] is { Kind: OperationKind.Aside } aside && done.Contains(Find(OperationKind.Off, aside.Target));

    private static Renewal NewFasteners(Joint joint) =>
        new($"{joint.Id}.new", $"new: {joint.Name}", RenewalKind.Fastener, joint.Id, joint.Count, "", joint.Line);

    private static int[][] NeededBy(Operation[] operations)
    {
        var neededBy = operations.Select(_ => new SortedSet<int>()).ToArray();
        foreach (var operation in operations)
        {
            foreach (var needed in operation.Ways.SelectMany(w => w.Needs).SelectMany(set => set))
            {
                neededBy[needed].Add(operation.Index);
            }
        }

        return [.. neededBy.Select(set => set.ToArray())];
    }
}
