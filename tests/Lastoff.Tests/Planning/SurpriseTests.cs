using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Planning;

/// <summary>From any standing, whatever happened: stuck joints, more work, moves out of turn and against the map.</summary>
public class SurpriseTests
{
    [Fact]
    public void A_part_that_comes_off_anyway_and_becomes_a_goal_asks_for_another_plan()
    {
        var map = MapReader.Read(File.ReadAllText(Path.Combine(LastoffProgram.Repository, "demo", "orchard-sprayer-pump.map.yaml")), "demo").Map!;
        var bay = new Bay(OperationNet.From(map), ["upper-diaphragm"], TimeSpan.Zero);
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.True(NextStep.Fits(bay.On(0).Standing, plan));
        Assert.Contains(plan.Out, step => step is { Kind: StepKind.TakeOff, Target: "upper-head" });
        Assert.Null(bay.Do(0, new GoalAdded(["upper-head"], [])));
        Assert.False(NextStep.Fits(bay.On(0).Standing, plan));
    }

    private static readonly PlanLimits Few = new(200);

    private static readonly Gen<(Map Map, byte[] Bytes)> Histories = Gen.Select(RandomMaps.Waiting(14), Gen.Byte.Array[0, 150]);

    [Fact]
    public void From_every_prefix_of_a_history_the_plan_is_legal_or_a_stuck_joint_stands_in_the_way() => Histories.Sample(
        (map, bytes) =>
        {
            var bay = History(map, new Choices(bytes));
            Plan? had = null;
            for (var length = 1; length <= bay.On(0).Entries.Count; length++)
            {
                had = IsPlannedFrom(Fold.Of(bay.Net, bay.On(0).Entries.Take(length)), had);
            }
        },
        iter: 150);

    [Fact]
    public void What_a_joint_takes_longer_is_the_most_that_it_adds_however_short_the_search() => Gen.Select(RandomMaps.Waiting(14), Gen.Int[0, 13], Gen.Int[1, 40]).Sample(
        (map, at, more) =>
        {
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var had = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.Quick).Plan!;
            if (had.Out.Where(step => step.Kind == StepKind.Undo).ElementAtOrDefault(at) is not { } step)
            {
                return;
            }

            Assert.Null(bay.Do(0, new JointStuck(step.Target, more, false, "")));
            var after = bay.On(0).Standing;
            var plan = Planner.Remake(after, GoalLeft.Of(after), had, new PlanLimits(1)).Plan!;
            Assert.True(plan.MinutesP50 <= had.MinutesP50 + more + 1e-6, $"{had.MinutesP50} and {more} became {plan.MinutesP50}");
            Assert.True(plan.LowerBoundMinutes <= plan.MinutesP50 + 1e-9);
        },
        iter: 300);

    /// <summary>Plans from here, or on with the plan at hand; gives back what was planned.</summary>
    private static Plan? IsPlannedFrom(Standing standing, Plan? had)
    {
        var (net, goal) = (standing.Net, GoalLeft.Of(standing));
        if (goal.Off.Count + goal.Undo.Count + standing.Done.Count == 0)
        {
            return null;
        }

        var ct = TestContext.Current.CancellationToken;
        var result = had is null ? Planner.Make(standing, goal, Few, ct) : Planner.Remake(standing, goal, had, Few, ct);
        var goals = goal.Off.Select(p => net.Find(OperationKind.Off, p)).Concat(goal.Undo.Select(j => net.Find(OperationKind.Undo, j))).ToList();
        if (!result.HasPlan)
        {
            Assert.Contains("cannot be undone, as was found", result.Refusal);
            Assert.False(goals.All(CanBeReached(standing).Contains));
            return null;
        }

        Assert.True(goals.All(CanBeReached(standing).Contains));
        var undone = PlanReplay.Out(net, standing.Done, result.Plan.Out, standing.Stuck);
        Assert.NotNull(undone);
        Assert.True(goals.All(undone.Value.Contains));
        var left = undone.Value;
        foreach (var x in result.Plan.Back.Select(step => PlanReplay.Operation(net, step)).OfType<int>())
        {
            Assert.True(net.CanReverse(left, x));
            left = left.Without(x);
        }

        Assert.Equal(0, left.Count);
        Assert.True(goals.Count == 0 || NextStep.Fits(standing, result.Plan), string.Join(" ", standing.AgainstTheMap));
        return result.Plan;
    }

    /// <summary>All that can be undone from here past what was found, by going round until nothing more opens.</summary>
    private static OperationSet CanBeReached(Standing standing)
    {
        var done = standing.Done;
        while (standing.Net.Operations.FirstOrDefault(o => !done.Contains(o.Index)
            && o.Ways.Any(way => way.IsOpen(done) && PlanReplay.Found(standing.Stuck, o, way) is not { IsClosed: true })) is { } next)
        {
            done = done.With(next.Index);
        }

        return done;
    }

    [Fact]
    public void With_stuck_joints_small_maps_are_planned_as_well_as_trying_every_order() =>
        Gen.Select(RandomMaps.UpTo(9), Gen.Byte.Array[0, 20]).Sample(
            (map, bytes) =>
            {
                var choices = new Choices(bytes);
                var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
                for (var i = choices.Next(4); i > 0 && map.Joints.Count > 0; i--)
                {
                    Assert.Null(bay.Do(0, SomeStuck(bay.Net, choices)));
                }

                var standing = bay.On(0).Standing;
                var best = EveryOrder.Best(bay.Net, bay.Net.Nothing.With(bay.Net.Find(OperationKind.Off, map.Parts[^1].Id)), bay.Net.Nothing, standing.Stuck);
                var result = Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.Usual, TestContext.Current.CancellationToken);
                Assert.Equal(best < long.MaxValue, result.HasPlan);
                if (result.HasPlan)
                {
                    Assert.True(result.Plan.ProvenOptimal);
                    Assert.Equal(best / 1000.0, result.Plan.MinutesP50, 1e-9);
                }
            },
            iter: 600);

    [Fact]
    public void What_goes_as_planned_is_no_surprise() => RandomMaps.UpTo(14).Sample(
        map =>
        {
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "All of it")));
            var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), Few, TestContext.Current.CancellationToken).Plan!;
            while (NextStep.Of(bay.On(0).Standing, plan) is { } next)
            {
                Assert.Null(bay.Do(0, next));
            }

            Assert.Null(PlanChange.Last(bay.Net, bay.On(0).Entries, Few, TestContext.Current.CancellationToken));
        },
        iter: 200);

    [Fact]
    public void Whatever_happened_the_change_is_told_in_words_that_add_up() => Histories.Sample(
        (map, bytes) =>
        {
            var bay = History(map, new Choices(bytes));
            if (PlanChange.Last(bay.Net, bay.On(0).Entries, Few, TestContext.Current.CancellationToken) is { } change)
            {
                Assert.StartsWith(change.Why, change.Sentence);
                Assert.EndsWith(".", change.Sentence);
                Assert.True(change.MinutesAfter >= 0 && change.MinutesBefore >= 0);
                Assert.Empty(change.Added.Select(s => (s.Kind, s.Target)).Intersect(change.Dropped.Select(s => (s.Kind, s.Target))));
            }
        },
        iter: 150);

    /// <summary>An invented pump behind a cowl: its bolt is got at with the cowl off, or past it with a long swivel.</summary>
    private static readonly OperationNet Pump = OperationNet.From(new Map
    {
        Name = "pump",
        Title = "Invented pump",
        SetUp = new SetUpMinutes(0, 0, 0),
        Parts =
        [
            new Part { Id = "cowl", Name = "Cowl", OffMinutes = 6, OnMinutes = 6 },
            new Part { Id = "pump", Name = "Pump", OffMinutes = 2, OnMinutes = 3 },
            new Part { Id = "lamp", Name = "Lamp", OffMinutes = 1, OnMinutes = 1 },
        ],
        Joints =
        [
            new Joint
            {
                Id = "bolt", Name = "Pump bolt", Kind = JointKind.Bolt, Holds = ["pump"], UndoMinutes = 2, MakeMinutes = 2, Tool = new Tool("ratchet", "hex 13 mm"),
                Reach = new Reach([], [], [new ReachWay(["cowl"], [], null, null, 1, 0), new ReachWay([], [], Position.Below, new Tool("long swivel", "hex 13 mm"), 3, 0)]),
            },
            new Joint { Id = "hose", Name = "Hose", Kind = JointKind.Hose, Holds = ["pump"], UndoMinutes = 1, MakeMinutes = 1 },
        ],
    });

    public static TheoryData<Act, string> Told => new()
    {
        {
            new JointStuck("bolt", 25, false, "rusted"),
            "“Pump bolt” is stuck, 25 min more (rusted). The way stays the same. 19 min still to do becomes 44 min."
        },
        {
            new JointStuck("bolt", 0, true, "", "long swivel, hex 13 mm", Position.Below),
            "“Pump bolt” cannot be undone from below with long swivel, hex 13 mm. Now: “Pump bolt” from above with ratchet, hex 13 mm (2 min). Now also: take “Cowl” off. 19 min still to do becomes 23 min."
        },
        { new GoalAdded(["lamp"], []), "More work is taken in: “Lamp”. Now also: take “Lamp” off. 19 min still to do becomes 21 min." },
        {
            new Moved(Move.PartOff, "cowl"),
            "“Cowl” was taken off, which was not in the plan. Now: “Pump bolt” from above with ratchet, hex 13 mm (2 min). Now also: fit “Cowl”. 19 min still to do becomes 17 min."
        },
        {
            new Moved(Move.PartOff, "pump", Despite: "It had broken loose."),
            "“Pump” was taken off against the map (It had broken loose). No longer: undo “Pump bolt”, undo “Hose”. 19 min still to do becomes 3 min."
        },
    };

    [Theory]
    [MemberData(nameof(Told))]
    public void What_changed_and_why_is_told(Act act, string sentence)
    {
        var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, act));
        Assert.Equal(sentence, PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken)!.Sentence);
    }

    [Theory]
    [InlineData(1, 60, 80, 60, 80)]
    [InlineData(1.5, 60, 80, 90, 120)]
    [InlineData(1.5, 60, 80, 90, 110, 0, 20)]
    [InlineData(1.5, 60, 40, 90, 60)]
    [InlineData(0.5, 60, 4, 30, 2)]
    [InlineData(1.5, 60, 80, 80, 100, 20, 40)]
    public void By_a_workshops_own_times_all_goes_by_them_but_what_was_told(double factor, double before, double after, double ownBefore, double ownAfter, double toldBefore = 0, double toldAfter = 0)
    {
        var change = new PlanChange("It is stuck", before, after, [], [], [], false) { ToldBefore = toldBefore, ToldAfter = toldAfter }.At(factor);
        Assert.Equal((ownBefore, ownAfter), (change.MinutesBefore, change.MinutesAfter));
    }

    [Fact]
    public void One_surprise_begins_where_the_last_one_ended()
    {
        var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new JointStuck("bolt", 20, false, "")));
        var first = PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken)!.At(1.5);
        Assert.Null(bay.Do(0, new JointStuck("bolt", 25, false, "")));
        var second = PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken)!.At(1.5);
        Assert.Equal(first.MinutesAfter, second.MinutesBefore, 1e-9);
        Assert.Equal(5, second.MinutesAfter - second.MinutesBefore, 1e-9);
    }

    [Fact]
    public void So_does_one_after_a_way_that_goes_round_a_stuck_joint()
    {
        var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
        // So long that the plan takes another way, in which nothing is told.
        Assert.Null(bay.Do(0, new JointStuck("bolt", 0, true, "", "long swivel, hex 13 mm", Position.Below)));
        var first = PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken)!.At(1.5);
        Assert.NotEqual(first.MinutesBefore, first.MinutesAfter);
        Assert.Null(bay.Do(0, new GoalAdded(["lamp"], [])));
        var second = PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken)!.At(1.5);
        Assert.Equal(first.MinutesAfter, second.MinutesBefore, 1e-9);
    }

    [Fact]
    public void A_move_before_its_turn_changes_nothing_while_the_plan_at_hand_leads_on()
    {
        var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
        var second = plan.Out.Where(step => step.Kind == StepKind.Undo).ElementAt(1);
        Assert.Equal($"“{second.Name}” was undone before its turn", Surprise.Of(bay.On(0).Standing, second.ToAct(), plan));
        Assert.Null(bay.Do(0, second.ToAct()));
        Assert.Null(PlanChange.Last(Pump, bay.On(0).Entries, PlanLimits.Usual, TestContext.Current.CancellationToken));
    }

    [Fact]
    public void A_stuck_joint_with_no_way_round_it_is_named_with_what_to_do()
    {
        var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new JointStuck("hose", 0, true, "")));
        Assert.Null(bay.Do(0, new JointStuck("bolt", 5, false, "")));
        Assert.Equal(
            "“Hose” cannot be undone, as was found, and no other way leads to “Pump” (pump): record how many minutes more it takes after all, or take another part as the goal.",
            Refusal());
        Assert.Null(bay.Do(0, new JointStuck("hose", 9, false, "cut it off")));
        Assert.Null(Refusal());

        string? Refusal() => Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.Usual, TestContext.Current.CancellationToken).Refusal;
    }

    [Fact]
    public void A_plan_that_knows_nothing_of_what_was_found_or_taken_in_does_not_fit_any_more()
    {
        foreach (var act in new Act[] { new JointStuck("bolt", 25, false, ""), new GoalAdded(["lamp"], []) })
        {
            var bay = new Bay(Pump, ["pump"], TimeSpan.Zero);
            var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
            Assert.True(NextStep.Fits(bay.On(0).Standing, plan));
            Assert.Null(bay.Do(0, act));
            Assert.False(NextStep.Fits(bay.On(0).Standing, plan));
        }
    }

    /// <summary>Moves in and out of turn and against the map, goals added, stuck joints found.</summary>
    private static Bay History(Map map, Choices choices)
    {
        var bay = new Bay(OperationNet.From(map), [choices.Of(map.Parts).Id], TimeSpan.Zero);
        for (var step = choices.Next(20); step > 0; step--)
        {
            var standing = bay.On(0).Standing;
            bay.Do(0, choices.Next(8) switch
            {
                0 => new GoalAdded([choices.Of(map.Parts).Id], []),
                1 when map.Joints.Count > 0 => SomeStuck(bay.Net, choices),
                2 => choices.Of([.. PossibleActs.AllMoves(standing)]) with { Despite = "it was so" },
                3 => new TakenBack(choices.Of(bay.On(0).Entries).Id),
                _ => PossibleActs.Of(standing).ToList() is { Count: > 0 } possible ? choices.Of(possible) : new Noted("nothing to do"),
            });
        }

        return bay;
    }

    private static JointStuck SomeStuck(OperationNet net, Choices choices)
    {
        var joint = choices.Of(net.Map.Joints).Id;
        var way = choices.Of(net.Operations[net.Find(OperationKind.Undo, joint)].Ways);
        return choices.Next(4) switch
        {
            0 => new JointStuck(joint, 0, true, ""),
            1 => new JointStuck(joint, 0, true, "", way.Tool.ToString(), way.At),
            2 => new JointStuck(joint, 8, false, "rusted", way.Tool.ToString(), way.At),
            _ => new JointStuck(joint, 15, false, "rounded off"),
        };
    }
}
