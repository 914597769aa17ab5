using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

public class NextStepTests
{
    private static readonly PlanLimits Few = new(200);

    [Fact]
    public void Doing_what_comes_next_ends_with_nothing_open_and_never_meets_a_refusal() =>
        RandomMaps.UpTo(16).Sample(map =>
        {
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var plan = Make(bay);
            Finish(bay, () => plan);
            Assert.Null(bay.Do(0, new HandedOver("The owner", null)));
        }, iter: 300);

    [Fact]
    public void A_plan_that_fits_still_leads_to_the_end_whatever_was_done_in_between() =>
        Gen.Select(RandomMaps.UpTo(14), Gen.Byte.Array[0, 200]).Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var plan = Make(bay);
            for (var step = 0; step < 60; step++)
            {
                var possible = PossibleActs.Of(bay.On(0).Standing).ToList();
                if (possible.Count > 0)
                {
                    Assert.Null(bay.Do(0, choices.Of(possible)));
                }
            }

            Finish(bay, () => NextStep.Fits(bay.On(0).Standing, plan) ? plan : plan = Make(bay));
            Assert.Null(bay.Do(0, new HandedOver("The owner", null)));
        }, iter: 300);

    [Fact]
    public void Layers_hold_every_operation_of_a_strip_once_and_only_what_lies_higher_is_in_the_way() =>
        RandomMaps.UpTo(20).Sample(map =>
        {
            var net = OperationNet.From(map);
            var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
            var layers = Layers.Of(net, all);
            Assert.Equal(net.Operations.Count, layers.Sum(layer => layer.Count));
            var above = net.Nothing;
            foreach (var layer in layers)
            {
                Assert.Equal(0, layer.Intersect(above).Count);
                above = above.Union(layer);
                Assert.Equal(above, net.Supported(above));
            }
        }, iter: 300);

    [Fact]
    public void A_fluid_that_is_to_be_changed_twice_comes_out_again_before_anything_closes_over_it()
    {
        var bay = new Bay(OperationNet.From(Demo.Map("orchard-sprayer-pump")), ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "All of it")));
        var plan = Make(bay);
        List<(StepKind Kind, string Target)> made = [];
        while (NextStep.Of(bay.On(0).Standing, plan) is { } next)
        {
            Assert.True(NextStep.Fits(bay.On(0).Standing, plan));
            var isFirst = next is { Kind: StepKind.Restore, Target: "pump-oil" } && !made.Contains((StepKind.Restore, "pump-oil"));
            Assert.Null(isFirst ? bay.Do(0, new Moved(Move.SupplyRestored, "pump-oil", Amount_L: 1.1) { ChangesLeft = 1 }) : bay.Do(0, next));
            Assert.True(!isFirst || OpenItems.Of(bay.On(0).Standing).Any(item => item.Sentence == "“Oil in the pump” is to be changed once more."));
            made.Add((next.Kind, next.Target));
        }

        Assert.Equal(2, made.Count(step => step == (StepKind.MakeSafe, "pump-oil")));
        Assert.Equal(2, made.Count(step => step == (StepKind.Restore, "pump-oil")));
        Assert.True(made.LastIndexOf((StepKind.Restore, "pump-oil")) < made.LastIndexOf((StepKind.Fit, "side-shield")));
        Assert.True(made.LastIndexOf((StepKind.Restore, "pump-oil")) < made.IndexOf((StepKind.Prove, "oil-clear")));
        Assert.Empty(OpenItems.Of(bay.On(0).Standing));
    }

    private static void Finish(Bay bay, Func<Plan> plan)
    {
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "All of it")));
        for (var step = 0; NextStep.Of(bay.On(0).Standing, plan()) is { } next; step++)
        {
            Assert.True(step < 1000, "The steps go round in a circle.");
            Assert.Null(bay.Do(0, next.Kind == StepKind.Prove ? new ProofRecorded(next.Target, Verdict.Good, "as it should be") : next.ToAct(bay.On(0).Standing)));
        }

        // What was done before may have closed an opening that was never covered; a person looks and says how it is.
        foreach (var question in bay.On(0).Standing.Questions.DistinctBy(q => q.Entry).ToList())
        {
            Assert.Null(bay.Do(0, new Settled(question.Entry, "Looked inside: clean")));
        }

        Assert.Empty(OpenItems.Of(bay.On(0).Standing));
    }

    private static Plan Make(Bay bay)
    {
        var standing = bay.On(0).Standing;
        var result = Planner.Make(bay.Net, GoalLeft.Of(standing), standing.Done, Few, TestContext.Current.CancellationToken);
        Assert.True(result.HasPlan, result.Refusal);
        return result.Plan;
    }
}
