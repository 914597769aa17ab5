using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Ledger;

/// <summary>More work that the map does not know: it has its turn like any step, and nothing closes over it.</summary>
public class OwnWorkTests
{
    private const string Seal = "new seal in the pump shaft";

    [Fact]
    public void It_has_its_turn_before_its_part_goes_back_and_what_can_wait_before_the_proofs()
    {
        var bay = Sprayer();
        Assert.Null(bay.Do(0, new WorkTold(Seal, "upper-head")));
        Assert.Null(bay.Do(0, new WorkTold("New drain hose", null)));
        var order = Walk(bay);
        var at = order.FindIndex(step => step is { Kind: StepKind.Work, Target: Seal });
        Assert.True(at > order.FindIndex(step => step is { Kind: StepKind.TakeOff, Target: "upper-head" }));
        Assert.True(at < order.FindIndex(step => step is { Kind: StepKind.Fit, Target: "upper-head" }));
        var last = order.FindIndex(step => step.Target == "New drain hose");
        Assert.True(last > order.FindLastIndex(step => step.Kind is StepKind.Fit or StepKind.Make));
        Assert.True(last < order.FindIndex(step => step.Kind == StepKind.Prove));
        Assert.All(bay.On(0).Standing.File.Works, work => Assert.True(work.IsDone));
        Assert.DoesNotContain(OpenItems.Of(bay.On(0).Standing), item => item.Kind == OpenKind.Work);
    }

    [Fact]
    public void Nothing_closes_over_it_and_the_gate_says_so()
    {
        var bay = Sprayer();
        var plan = PlanOf(bay);
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step && !(step.Kind == StepKind.Fit && step.Target == "upper-head"))
        {
            Assert.Null(bay.Do(0, step));
        }

        Assert.Null(bay.Do(0, new WorkTold(Seal, "upper-head")));
        var standing = bay.On(0).Standing;
        Assert.Equal($"“{Seal}” is not done yet: do it first, or it is closed in.", bay.Do(0, new Moved(Move.PartFitted, "upper-head"))!.Sentence);
        Assert.Contains(new GateCondition($"“{Seal}” is done.", false), ClosingGate.Of(standing, standing.Net.Find(OperationKind.Off, "upper-head")));
        Assert.Contains(OpenItems.Of(standing), item => item.Sentence == $"“{Seal}” is not done yet.");
        Assert.Null(bay.Do(0, new WorkDone(Seal)));
        Assert.Null(bay.Do(0, new Moved(Move.PartFitted, "upper-head")));
        Assert.Equal(RefusalKind.Already, bay.Do(0, new WorkDone(Seal))!.Kind);
    }

    [Fact]
    public void Taken_back_it_is_asked_for_no_more()
    {
        var bay = Sprayer();
        Assert.Null(bay.Do(0, new WorkTold(Seal, null)));
        Assert.Equal(RefusalKind.Already, bay.Do(0, new WorkTold(Seal, "upper-head"))!.Kind);
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Empty(bay.On(0).Standing.File.Works);
        Assert.Equal(RefusalKind.Unknown, bay.Do(0, new WorkDone(Seal))!.Kind);
        Assert.Equal(RefusalKind.Unknown, bay.Do(0, new WorkTold(Seal, "no such part"))!.Kind);
    }

    [Fact]
    public void Of_two_who_tell_it_in_the_same_words_it_is_one_work()
    {
        var bay = Sprayer(TimeSpan.Zero, TimeSpan.FromHours(-3));
        Assert.Null(bay.Do(0, new WorkTold(Seal, null)));
        Assert.Null(bay.Do(1, new WorkTold(Seal, "upper-head")));
        bay.Pass(0, 1);
        // And whichever came first, nothing that one of them named closes over it.
        Assert.Equal([Seal], bay.On(1).Standing.File.Works.Select(work => work.What));
        Assert.Equal(["upper-head"], bay.On(1).Standing.File.Works[0].Before);
        Assert.Null(bay.Do(1, new WorkDone(Seal)));
        bay.Pass(1, 0);
        Assert.Empty(bay.On(0).Standing.File.WorkLeft);
    }

    [Fact]
    public void The_handover_and_the_record_say_what_became_of_it()
    {
        var bench = Papers.Bench.Stripped();
        bench.Do(new WorkTold("new seal in the pump shaft", null));
        Assert.Contains("New seal in the pump shaft: not done yet", Done());
        bench.Do(new WorkDone("new seal in the pump shaft"));
        Assert.Contains("New seal in the pump shaft: done", Done());

        IEnumerable<string> Done() => Papers.Read.List(Papers.Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "What was done").Select(item => (string)item["text"]!);
    }

    private static Bay Sprayer(params TimeSpan[] skews) => new(
        OperationNet.From(MapReader.Read(File.ReadAllText(Path.Combine(LastoffProgram.Repository, "demo", "orchard-sprayer-pump.map.yaml")), "demo").Map!),
        ["upper-diaphragm"], skews.Length == 0 ? [TimeSpan.Zero] : skews);

    private static Plan PlanOf(Bay bay) => Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;

    private static List<PlanStep> Walk(Bay bay)
    {
        var plan = PlanOf(bay);
        List<PlanStep> order = [];
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step)
        {
            Assert.True(order.Count < 500);
            Assert.Null(bay.Do(0, step));
            order.Add(step);
        }

        return order;
    }
}
