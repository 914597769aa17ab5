using Lastoff.Core.Joints;
using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Planning;

/// <summary>What sort of thing a job needs to have here.</summary>
public enum NeededKind { New, Cover, Tool, Other }

/// <summary>Something that has to be here for a job.</summary>
/// <param name="Name">What it is called, which is also what the ledger says of it goes by.</param>
/// <param name="Count">How many, or how much of the <paramref name="Unit"/>.</param>
/// <param name="Told">What was last said of it; null while nobody said anything.</param>
public sealed record Needed(string Name, NeededKind Kind, double Count, string Unit, ItemTold? Told)
{
    /// <summary>What no map names: it follows from how its joints are tightened.</summary>
    public const string TorqueWrenchName = "Torque wrench", ThreadLockName = "Thread lock";

    /// <summary>What stands behind the name of a thing that is used up and called for again.</summary>
    public const string OnceMore = ", once more";

    /// <summary>Nobody ever said how much of it there is.</summary>
    public bool IsUnmeasured => Count == 0;

    /// <summary>It is in already, so it was here.</summary>
    public bool IsIn { get; init; }

    /// <summary>What a torque wrench has to reach; null for all else.</summary>
    public Interval? Torque_Nm { get; init; }

    /// <summary>Tools lie in the drawer as a rule: they are neither counted nor waited for.</summary>
    public bool IsCounted => Kind != NeededKind.Tool;

    public ItemState State => IsIn ? ItemState.Here : Told?.State ?? ItemState.Missing;

    /// <summary>What stands behind the name of a piece that broke at an earlier job on the map.</summary>
    public const string BrokeLastTime = ", broke last time";

    /// <summary>What the plan calls for (new parts, seals and fluids first, then covers, then tools), what of it is done with, and what people added.</summary>
    /// <param name="met">What gave trouble at earlier jobs on the map; null for nothing.</param>
    public static IReadOnlyList<Needed> Of(Standing standing, Plan? plan, IReadOnlyList<TroubleRate>? met = null)
    {
        var net = standing.Net;
        var items = standing.File.Items;
        List<Needed> needed =
        [
            .. Renewals(standing, plan).Select(renewal => (Renewal: renewal, IsOnceMore: IsOnceMore(standing, renewal), IsIn: standing.Renewed.Contains(renewal.Id)))
                .Concat(MoreChanges(standing).Select(renewal => (Renewal: renewal, IsOnceMore: true, IsIn: false)))
                .GroupBy(thing => (Name: thing.IsOnceMore ? net.NameToBuy(thing.Renewal) + OnceMore : net.NameToBuy(thing.Renewal), thing.Renewal.Unit))
                .Select(same => new Needed(same.Key.Name, NeededKind.New, same.Sum(thing => thing.Renewal.Count), same.Key.Unit, null) { IsIn = same.All(thing => thing.IsIn) }),
            .. Unmeasured(standing, plan),
            .. Covers(standing, plan).GroupBy(opening => net.Openings[opening].Cover)
                .Select(same => new Needed(Capital(same.Key), NeededKind.Cover, same.Count(), "", null) { IsIn = same.All(standing.EverCovered.Contains) }),
            .. ThreadLock(standing, plan),
            .. BrokeBefore(net, plan, met ?? []),
            .. (plan?.Tools ?? []).Where(tool => !tool.IsHand).Select(tool => new Needed(Capital(tool.ToString()), NeededKind.Tool, 1, "", null)),
            .. TorqueWrench(standing, plan),
        ];
        return
        [
            .. needed.DistinctBy(item => (item.Name, item.Unit)).Select(item => item with { Told = items.GetValueOrDefault(item.Name) }),
            .. items.Values.Where(told => needed.All(item => item.Name != told.Item)).Select(told => new Needed(told.Item, KindOf(net, told.Item), 1, "", told)),
        ];
    }

    /// <summary>What went in was disturbed again, and one that was here is used up: the next has a name of its own, so that nobody takes the one for the other.</summary>
    private static bool IsOnceMore(Standing standing, Renewal renewal) => standing.PutIn.ContainsKey(renewal.Id) && !standing.Renewed.Contains(renewal.Id);

    /// <summary>A fluid that is to be changed some times more takes as much each time; what goes in next after a drain is called for already.</summary>
    private static IEnumerable<Renewal> MoreChanges(Standing standing) =>
        from filled in standing.Restored.GroupBy(filled => filled.Target).Select(fills => fills.Last())
        let more = (filled.ChangesLeft ?? 0) - (standing.IsDone(OperationKind.MakeSafe, filled.Target) ? 1 : 0)
        where more > 0
        from renewal in standing.Net.RenewalsFor.GetValueOrDefault(filled.Target, [])
        where renewal.Kind == RenewalKind.Fluid
        select renewal with { Count = more * renewal.Count };

    /// <summary>Without a map there is no plan while it comes off; what was told to be new is known all the same.</summary>
    private static IEnumerable<Renewal> Renewals(Standing standing, Plan? plan) =>
        (plan?.Renewals ?? standing.Net.RenewalsFor.Keys.Where(standing.WasOpen).SelectMany(standing.RenewalsOwed))
            .Concat(standing.NewPieces)
            .Concat(standing.PutIn.Keys.Select(standing.Net.RenewalNamed).OfType<Renewal>()).DistinctBy(renewal => renewal.Id);

    /// <summary>A fluid that was let out in a recording goes in again, though no map says how much.</summary>
    private static IEnumerable<Needed> Unmeasured(Standing standing, Plan? plan) =>
        from supply in standing.Net.Map.Supplies
        where RecordedMap.IsDrained(standing.Net.Map, supply.Id) && standing.Net.RenewalsFor.GetValueOrDefault(supply.Id, []).All(renewal => renewal.Kind != RenewalKind.Fluid)
        let isSafe = standing.IsDone(OperationKind.MakeSafe, supply.Id)
        where isSafe || standing.WasDisturbed(OperationKind.MakeSafe, supply.Id) || plan is not null && plan.Out.Any(step => step.Kind == StepKind.MakeSafe && step.Target == supply.Id)
        select new Needed(supply.Name, NeededKind.New, 0, "", null) { IsIn = !isSafe && standing.WasDisturbed(OperationKind.MakeSafe, supply.Id) };

    /// <summary>Without a map nothing called for the covers that are in: they were at hand.</summary>
    private static IEnumerable<string> Covers(Standing standing, Plan? plan) =>
        (plan?.Out ?? []).Where(step => step.Kind == StepKind.Cover).Select(step => step.Target)
            .Union(standing.Opened is { HasMap: true } ? standing.EverCovered.Where(standing.Net.Openings.ContainsKey).Order(StringComparer.Ordinal) : []);

    /// <summary>What the map has by a name that the plan calls for no more, because it is done with.</summary>
    private static NeededKind KindOf(OperationNet net, string name) =>
        name.EndsWith(OnceMore, StringComparison.Ordinal) ? KindOf(net, name[..^OnceMore.Length])
        : name == TorqueWrenchName || net.Operations.SelectMany(operation => operation.Ways).Any(way => !way.Tool.IsHand && Capital(way.Tool.ToString()) == name) ? NeededKind.Tool
        : net.Map.Openings.Any(opening => Capital(opening.Cover) == name) ? NeededKind.Cover
        : net.RenewalsFor.Values.SelectMany(renewals => renewals).Concat(net.Map.Parts.Select(part => net.NewPart(part.Id))).Any(renewal => net.NameToBuy(renewal) == name) ? NeededKind.New
        : NeededKind.Other;

    /// <summary>One to have ready for each joint still to come undone of which one broke before, unless all of them are new anyway.</summary>
    private static IEnumerable<Needed> BrokeBefore(OperationNet net, Plan? plan, IReadOnlyList<TroubleRate> met) =>
        from step in plan?.Out ?? []
        where step.Kind == StepKind.Undo && !net.Joints[step.Target].OneTime && met.Any(rate => rate.Name == step.Target && rate.Kind == TroubleKind.Broke)
        select new Needed(net.NameOf(net.NewPiece(step.Target)) + BrokeLastTime, NeededKind.Other, 1, "", null);

    /// <summary>What is back by now is in no plan that is made meanwhile, and still had it.</summary>
    private static IEnumerable<Needed> ThreadLock(Standing standing, Plan? plan)
    {
        var made = (plan?.Back ?? []).Where(step => step.Kind == StepKind.Make).Select(step => step.Target).ToHashSet();
        var locked = standing.Net.Joints.Keys.Where(joint => standing.Net.Joints[joint].Tighten?.Condition is { Condition: ThreadCondition.ThreadLocked } && (made.Contains(joint) || WasUndone(joint))).ToList();
        return locked.Count == 0 ? [] : [new Needed(ThreadLockName, NeededKind.Other, 1, "", null)
        {
            IsIn = locked.TrueForAll(joint => WasUndone(joint) && !standing.IsDone(OperationKind.Undo, joint)),
        }];

        bool WasUndone(string joint) => standing.WasDisturbed(OperationKind.Undo, joint);
    }

    private static IEnumerable<Needed> TorqueWrench(Standing standing, Plan? plan)
    {
        double[] torques_Nm = [.. (plan?.Back ?? []).Where(step => step.Kind == StepKind.Make).Select(step => standing.Net.Joints[step.Target].Torque?.NewtonMetres).OfType<double>()];
        return torques_Nm.Length == 0 ? [] : [new Needed(TorqueWrenchName, NeededKind.Tool, 1, "", null) { Torque_Nm = new Interval(torques_Nm.Min(), torques_Nm.Max()) }];
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
