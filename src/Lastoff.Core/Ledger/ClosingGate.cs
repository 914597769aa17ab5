using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>Something that must be true before a layer closes over it.</summary>
/// <param name="Sentence">What must be true, as if it were: “The plug is out of …”.</param>
public sealed record GateCondition(string Sentence, bool IsMet);

/// <summary>What must be true before the next layer hides it: nothing lost in there, nothing loose beneath, covers out, seals new, faces clean, a last look taken.</summary>
/// <remarks>The guards hold back the single act for the same reasons, but for what fell in, which may be reached only by going on; the gate shows them all before anybody tries.</remarks>
public static class ClosingGate
{
    /// <summary>Of a layer of the strip: the conditions of all that is undone in it. Empty when it is closed, or wants nothing.</summary>
    public static IReadOnlyList<GateCondition> Of(Standing standing, OperationSet layer) =>
    [
        .. layer.Any(standing.Done.Contains) ? standing.File.StillInside.Select(thing => new GateCondition($"“{thing.What}” is out of “{thing.Where}”.", false)) : [],
        .. Beneath(standing, layer),
        .. layer.Where(standing.Done.Contains).SelectMany(operation => Of(standing, operation)).Distinct(),
    ];

    /// <summary>Of one operation that is done, apart from what hangs on it.</summary>
    public static IEnumerable<GateCondition> Of(Standing standing, int operation)
    {
        var net = standing.Net;
        var (kind, target) = (net.Operations[operation].Kind, net.Operations[operation].Target);
        // A part that hangs aside closes its openings when it comes home, not when it is fitted to what it hangs from.
        if (kind != OperationKind.Off || !standing.IsDone(OperationKind.Aside, target))
        {
            foreach (var opening in net.OpeningsOn.GetValueOrDefault(target, []))
            {
                yield return new GateCondition($"The {standing.CoverIn(opening)} is out of “{opening.Name}”.", !standing.Covered.Contains(opening.Id));
            }
        }

        foreach (var work in standing.File.Works.Where(work => work.Before.Contains(target)))
        {
            yield return new GateCondition($"“{work.What}” is done.", work.IsDone);
        }

        foreach (var renewal in standing.RenewalsOwed(target))
        {
            yield return new GateCondition($"“{renewal.Name}” is in, and new.", standing.Renewed.Contains(renewal.Id));
        }

        if (kind == OperationKind.Undo && net.Joints[target] is { Clean: true } joint)
        {
            yield return new GateCondition($"The faces of “{joint.Name}” are clean and dry.", standing.Cleaned.Contains(joint.Id));
        }

        foreach (var hidden in net.HiddenBy(standing.Done, operation).Where(hidden => standing.WasDisturbed(OperationKind.Undo, hidden.Id)))
        {
            yield return new GateCondition($"“{hidden.Name}” has had its last look.", standing.Looked.Contains(hidden.Id));
        }
    }

    /// <summary>What is still undone in deeper layers and would be left hanging.</summary>
    private static IEnumerable<GateCondition> Beneath(Standing standing, OperationSet layer) => layer
        .Where(standing.Done.Contains)
        .SelectMany(operation => standing.Net.HoldingBack(standing.Done, operation).Except(layer))
        .Distinct()
        .Select(hanging => new GateCondition(Home(standing.Net.Operations[hanging]), false));

    private static string Home(Operation operation) => operation.Kind switch
    {
        OperationKind.MakeSafe => $"“{operation.Name}” is restored.",
        OperationKind.Undo => $"“{operation.Name}” is done up.",
        OperationKind.Aside => $"“{operation.Name}” is home.",
        _ => $"“{operation.Name}” is fitted.",
    };
}
