using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Planning;

public class PlannerTests
{
    private static readonly Tool Ratchet = new("ratchet 3/8 in", "hex 13 mm");

    /// <summary>An invented barrow with a wash pump under a guard: water to drain, a hose with an open port, and bolts behind the guard.</summary>
    private static readonly Map Barrow = new()
    {
        Name = "barrow-pump",
        Title = "Wash pump of an invented barrow",
        Invented = true,
        SetUp = new SetUpMinutes(0.4, 0.5, 2),
        Supplies = [new Supply { Id = "water", Name = "Water", Kind = SupplyKind.Coolant, At = Position.Below, SafeMinutes = 6, RestoreMinutes = 9 }],
        Parts =
        [
            new Part { Id = "guard", Name = "Guard", At = Position.Left, OffMinutes = 1, OnMinutes = 1 },
            new Part { Id = "pump", Name = "Pump", At = Position.Left, OffMinutes = 2, OnMinutes = 3, Caution = "Heavy for its size." },
            new Part { Id = "lamp", Name = "Lamp", At = Position.Front, OffMinutes = 1, OnMinutes = 1 },
        ],
        Joints =
        [
            new Joint { Id = "guard-screws", Name = "Guard screws", Kind = JointKind.Screw, Holds = ["guard"], At = Position.Left, Tool = new Tool("driver", "cross 2"), UndoMinutes = 1, MakeMinutes = 1.5 },
            new Joint { Id = "hose", Name = "Outlet hose", Kind = JointKind.Hose, Holds = ["pump"], At = Position.Left, UndoMinutes = 0.5, MakeMinutes = 1, Needs = ["water"] },
            new Joint
            {
                Id = "pump-bolts", Name = "Pump bolts", Kind = JointKind.Bolt, Count = 4, Holds = ["pump"], At = Position.Left, Tool = Ratchet,
                UndoMinutes = 2, MakeMinutes = 3.5, OneTime = true, Clean = true, Reach = new Reach(["guard"], [], []),
            },
        ],
        Openings = [new Opening("outlet", "Pump outlet", "hose", "32 mm cap", 0.3, 0)],
        Renewals = [new Renewal("seal", "Pump seal", RenewalKind.Seal, "pump-bolts", 1, "", 0)],
        Proofs =
        [
            new Proof("run", "Run it", ProofKind.Function, "pump", 2, null, 0),
            new Proof("drips", "Look for drips", ProofKind.LeakLook, "hose", 5, null, 0),
            new Proof("tight", "Bolts in their order", ProofKind.TorquePasses, "pump-bolts", 1, null, 0),
        ],
    };

    private static Plan PlanFor(Goal goal, params string[] undone)
    {
        var net = OperationNet.From(Barrow);
        var done = OperationSet.Of(net.Operations.Count, net.Operations.Where(o => undone.Contains(o.Target)).Select(o => o.Index));
        return Planner.Make(net, goal, done, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
    }

    [Fact]
    public void A_plan_holds_what_the_goal_needs_and_nothing_else()
    {
        var plan = PlanFor(Goal.Renewing("pump"));
        string[] needed = ["Cover outlet", "MakeSafe water", "TakeOff guard", "TakeOff pump", "Undo guard-screws", "Undo hose", "Undo pump-bolts"];
        Assert.Equal(needed, plan.Out.Select(step => $"{step.Kind} {step.Target}").Order());
        Assert.True(plan.ProvenOptimal);
        Assert.Null(plan.Unproven);
        Assert.Equal(["pump-bolts.new", "pump.new", "seal"], plan.Renewals.Select(r => r.Id).Order());
        Assert.Equal([new LastLook("pump-bolts", "guard")], plan.LastLooks);
    }

    [Fact]
    public void On_the_way_back_what_must_come_first_does()
    {
        var back = PlanFor(Goal.Renewing("pump")).Back.Select(step => $"{step.Kind} {step.Target}").ToList();
        Assert.True(back.IndexOf("Renew pump.new") < back.IndexOf("Fit pump"));
        // Once the pump lies on them its faces cannot be got at.
        Assert.InRange(back.IndexOf("Clean pump-bolts"), 0, back.IndexOf("Fit pump"));
        Assert.True(back.IndexOf("Fit pump") < back.IndexOf("Renew seal"));
        Assert.True(back.IndexOf("Renew seal") < back.IndexOf("Make pump-bolts"));
        Assert.Equal(back.IndexOf("Make pump-bolts") + 1, back.IndexOf("Prove tight"));
        Assert.Equal(back.IndexOf("LastLook pump-bolts") + 1, back.IndexOf("Fit guard"));
        Assert.Equal(back.IndexOf("Uncover outlet") + 1, back.IndexOf("Make hose"));
        Assert.True(back.IndexOf("Restore water") < back.IndexOf("Prove drips"));
        Assert.Equal("Prove run", back[^1]);
    }

    [Fact]
    public void Every_step_says_why_and_where_it_can_hurt()
    {
        var plan = PlanFor(Goal.Renewing("pump"));
        Assert.Equal("to free Guard, to get at Pump bolts, to free Pump, which is to be renewed", Step("guard-screws").Why);
        Assert.Equal("so that Outlet hose is safe to undo, to free Pump, which is to be renewed", Step("water").Why);
        Assert.All(plan.Out.Concat(plan.Back), step => Assert.NotEqual("", step.Why));
        Assert.Equal(["guard", "pump-bolts", "pump"], Step("guard-screws").Chain);
        Assert.Equal(["hose", "pump"], Step("water").Chain);
        Assert.Equal(["hose", "pump"], plan.Out.Single(step => step.Kind == StepKind.Cover).Chain);
        Assert.Empty(Step("pump").Chain);
        Assert.Contains("poison", Step("water").Caution);
        Assert.Contains("stands on firm ground", Step("water").Caution);
        Assert.Contains("Coolant may still run out", Step("hose").Caution);
        Assert.Equal("Heavy for its size.", Step("pump").Caution);
        Assert.Null(Step("guard").Caution);

        PlanStep Step(string target) => plan.Out.First(step => step.Target == target);
    }

    [Fact]
    public void Goals_reached_already_leave_only_the_way_back()
    {
        var plan = PlanFor(Goal.Renewing("guard"), "guard", "guard-screws");
        Assert.Empty(plan.Out);
        Assert.Equal(["Renew guard.new", "Fit guard", "Make guard-screws"], plan.Back.Select(step => $"{step.Kind} {step.Target}"));
        Assert.Equal("taken off on the way out", plan.Back[1].Why);
        Assert.Equal("undone on the way out", plan.Back[2].Why);
    }

    [Fact]
    public void A_joint_can_be_the_goal_without_any_part_coming_off()
    {
        var plan = PlanFor(new Goal([], ["guard-screws"]));
        Assert.Equal(["guard-screws"], plan.Out.Select(step => step.Target));
        Assert.Empty(plan.Renewals);
    }

    [Theory]
    [InlineData("pumpp", "The map has no part “pumpp”; the nearest name is “pump”.")]
    [InlineData("", "The map has no part “”; the nearest name is “guard”.")]
    public void An_unknown_part_is_refused_in_one_sentence(string part, string sentence) => Assert.Equal(sentence, Refusal(Barrow, Goal.Renewing(part)));

    [Fact]
    public void A_job_without_a_goal_is_refused_in_one_sentence() =>
        Assert.Equal("Name a goal: the part that is to come off, or the joint that is to be undone.", Refusal(Barrow, new Goal([], [])));

    [Fact]
    public void A_goal_that_is_stuck_is_refused_in_one_sentence()
    {
        var stuck = Barrow with { Parts = [.. Barrow.Parts.Select(p => p.Id == "guard" ? p with { Reach = new Reach([], ["pump"], []) } : p)] };
        Assert.Contains("“Pump” (pump) can never come off", Refusal(stuck, Goal.Renewing("pump")));
    }

    // Quantile of the standard normal at 0.9 from a table (1.2816, for example NIST/SEMATECH e-Handbook 1.3.6.7.1); tolerance: its last digit.
    [Fact]
    public void One_step_alone_stays_within_its_log_normal_quantile()
    {
        var net = OperationNet.From(Barrow);
        PlanStep[] one = [PlanFor(Goal.Renewing("pump")).Out.Single(step => step.Target == "pump") with { SetUpMinutes = 0 }];
        var spread = Math.Sqrt(Math.Pow(Spread.Of(net, StepKind.TakeOff, "pump"), 2) + Math.Pow(Spread.Common, 2));
        Assert.Equal(2 * Math.Exp(1.2816 * spread), Spread.Of(net, one).P90, 1e-3);
    }

    // The quantile of a sum of a fixed time and a risk, by simulation: a million draws of the same mixture, another way than by its two moments.
    // Tolerance: matching two moments by one log-normal is good to a few per cent where the risk is no rare disaster.
    [Theory]
    [InlineData(0.3, 15)]
    [InlineData(0.5, 20)]
    [InlineData(1, 10)]
    public void A_risk_widens_the_spread_as_drawing_it_does(double chance, double minutes)
    {
        var net = OperationNet.From(Barrow);
        PlanStep[] one = [new(StepKind.TakeOff, "pump", "Pump", Tool.Hand, Position.Left, 30, 0, null, "") { Risk = new Risk(chance, minutes, "it breaks") }];
        var random = new Random(20260302);
        var drawn = Enumerable.Range(0, 1_000_000).Select(_ =>
            Math.Exp(Spread.Common * Normal()) * (30 * Math.Exp(Spread.Of(net, StepKind.TakeOff, "pump") * Normal())
                + (random.NextDouble() < chance ? minutes * Math.Exp(Spread.OfRisk * Normal()) : 0))).Order().ToList();
        Assert.InRange(Spread.Of(net, one).P90, 0.96 * drawn[900_000], 1.04 * drawn[900_000]);

        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }

    [Fact]
    public void A_brittle_way_is_taken_only_where_it_pays()
    {
        // Through the clip: 1 min, and 3 in 10 that it breaks, 15 min more. By the swivel: 1 min times 5, and no risk.
        Reach reach = new([], [], [new ReachWay([], [], null, null, 1, 0), new ReachWay([], [], null, null, 5, 0, new Risk(0, 0, "nothing breaks"))]);
        var step = Step(15);
        Assert.Equal((5, 0, 0), (step.Minutes, step.RiskMinutes, step.Risk!.Chance));
        step = Step(13);
        Assert.Equal((1, 3.9, 0.3), (step.Minutes, step.RiskMinutes, step.Risk!.Chance));
        Assert.Equal("3 in 10", step.Risk.Odds);

        PlanStep Step(double minutes)
        {
            var map = Barrow with { Joints = [.. Barrow.Joints.Select(j => j.Id == "guard-screws" ? j with { Reach = reach, MakeMinutes = 0, Risk = new Risk(0.3, minutes, "it breaks") } : j)] };
            var net = OperationNet.From(map);
            var plan = Planner.Make(net, Goal.Renewing("guard"), net.Nothing, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
            Assert.All(plan.Back, back => Assert.Null(back.Risk));
            return plan.Out.Single(s => s.Target == "guard-screws");
        }
    }

    [Theory]
    [InlineData(0.3, "3 in 10")]
    [InlineData(1, "10 in 10")]
    [InlineData(0.05, "1 in 20")]
    [InlineData(0.15, "15 in 100")]
    [InlineData(0.002, "1 in 500")]
    public void A_chance_is_said_as_people_say_it(double chance, string odds) => Assert.Equal(odds, new Risk(chance, 1, "").Odds);

    private static string Refusal(Map map, Goal goal)
    {
        var net = OperationNet.From(map);
        var result = Planner.Make(net, goal, net.Nothing, PlanLimits.Usual, TestContext.Current.CancellationToken);
        Assert.False(result.HasPlan);
        return result.Refusal;
    }
}
