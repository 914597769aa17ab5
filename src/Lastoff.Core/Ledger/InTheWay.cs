using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>Says in words what keeps an operation from being done.</summary>
public static class InTheWay
{
    /// <summary>The first operation of every need that is not met, along the way that lacks least.</summary>
    public static IReadOnlyList<Operation> Of(OperationNet net, OperationSet done, int operation) =>
        net.Operations[operation].Ways
            .Select(way => way.Needs.Where(need => !need.Overlaps(done)).Select(need => net.Operations[Easiest(net, need)]).ToList())
            .MinBy(missing => missing.Count) ?? [];

    /// <summary>The parts, now in place, that hide a joint; empty when it can be got at.</summary>
    public static IReadOnlyList<string> Covering(Standing standing, string joint)
    {
        var ways = standing.Net.Operations[standing.Net.Find(OperationKind.Undo, joint)].Ways;
        return ways.Any(way => way.IsInReach(standing.Done))
            ? []
            : ways.Select(way => way.Clear.Where(c => !c.By.Overlaps(standing.Done)).Select(c => c.Part).ToList()).MinBy(covering => covering.Count) ?? [];
    }

    public static string Words(OperationNet net, IReadOnlyList<Operation> missing) => missing.Count == 0
        ? "do what it waits for"
        : string.Join(", ", missing.Take(3).Select(operation => OutWords(net, operation))) + (missing.Count > 3 ? $" and {missing.Count - 3} more" : "");

    public static string BackWords(Operation operation) => operation.Kind switch
    {
        OperationKind.MakeSafe => $"restore “{operation.Name}”",
        OperationKind.Undo => $"do up “{operation.Name}”",
        OperationKind.Aside => $"bring “{operation.Name}” home",
        _ => $"fit “{operation.Name}”",
    };

    private static string OutWords(OperationNet net, Operation operation) => operation.Kind switch
    {
        OperationKind.MakeSafe => $"make “{operation.Name}” safe",
        OperationKind.Undo => $"undo “{operation.Name}”",
        OperationKind.Aside => $"lay “{operation.Name}” aside",
        _ => net.TryFind(OperationKind.Aside, operation.Target, out _)
            ? $"move “{operation.Name}” out of the way"
            : $"take “{operation.Name}” off",
    };

    /// <summary>Of the operations that would each do, the part itself rather than one it rides on.</summary>
    private static int Easiest(OperationNet net, OperationSet need) =>
        need.OrderByDescending(o => net.Operations[o].Kind).ThenBy(o => o).First();
}
