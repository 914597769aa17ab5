using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;

namespace Lastoff.Tests.Learning;

/// <summary>A joint that broke or was seized at one job on a map is known at the next. The machine is invented.</summary>
public class TroubleMetTests
{
    private const string Yaml = """
        format: 1
        name: trouble
        title: "Invented pump"
        parts:
          - id: pump
            name: "Pump"
            off_min: 1
            on_min: 1
        joints:
          - id: bolt
            name: "Pump bolts"
            kind: bolt
            count: 4
            holds: [pump]
            undo_min: 2
            make_min: 2
        """;

    private static readonly Map Plain = MapReader.Read(Yaml, "trouble.map.yaml").Map!;

    private static readonly Map WithRisk = MapReader.Read(Yaml + "\n    risk: {chance: 0.2, minutes: 5, what: it rounds off}\n", "trouble.map.yaml").Map!;

    // Beta(0.5, 9.5) after one of two: 1.5 / 12. With one in five known before: (2 + 1) / 12.
    [Theory]
    [InlineData(false, 0.125, "it is seized")]
    [InlineData(true, 0.25, "it rounds off")]
    public void It_is_the_risk_of_the_joint_the_next_time(bool hadRisk, double chance, string what)
    {
        var met = TroubleMet.At([Job(new JointStuck("bolt", 15, false, "rusted")), Job()]);
        Assert.Equal((TroubleKind.Seized, 1, 2, 15), met.Select(rate => (rate.Kind, rate.Seen, rate.Times, rate.ExtraMinutes)).Single());
        var net = OperationNet.From(TroubleMet.On(hadRisk ? WithRisk : Plain, met));
        var step = Planner.Make(net, Goal.Renewing("pump"), net.Nothing, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!.Out.Single(step => step.Target == "bolt");
        Assert.Equal((chance, 15, what), (step.Risk!.Chance, step.Risk.Minutes, step.Risk.What));
    }

    [Fact]
    public void The_last_word_on_how_long_it_took_counts() =>
        Assert.Equal(20, TroubleMet.At([Job(new JointStuck("bolt", 15, false, "rusted"), new JointStuck("bolt", 20, false, "longer"))]).Single().ExtraMinutes);

    [Fact]
    public void What_nobody_timed_has_no_figure_and_stays_as_the_map_has_it()
    {
        var met = TroubleMet.At([Job(new JointStuck("bolt", 0, false, "snapped") { Broke = true })]);
        Assert.Null(TroubleMet.On(Plain, met).Joints[0].Risk);
        Assert.Equal(5, TroubleMet.On(WithRisk, met).Joints[0].Risk!.Minutes);
    }

    [Fact]
    public void What_broke_is_on_the_list_of_what_to_have()
    {
        var bay = new Bay(OperationNet.From(Plain), ["pump"], TimeSpan.Zero);
        var standing = bay.On(0).Standing;
        var plan = Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        const string Piece = "One new bolt: Pump bolts, broke last time";
        Assert.Contains(Needed.Of(standing, plan, TroubleMet.At([Job(new JointStuck("bolt", 0, false, "snapped") { Broke = true })])), item => item is { Name: Piece, IsCounted: true, State: ItemState.Missing });
        Assert.DoesNotContain(Needed.Of(standing, plan, TroubleMet.At([Job(new JointStuck("bolt", 15, false, "rusted"))])), item => item.Name == Piece);
        Assert.DoesNotContain(Needed.Of(standing, plan), item => item.Name == Piece);
    }

    [Fact]
    public void A_job_without_trouble_says_nothing() => Assert.Empty(TroubleMet.At([Job(), Job()]));

    /// <summary>The pump comes off and trouble is met on the way.</summary>
    private static IReadOnlyList<Entry> Job(params JointStuck[] met)
    {
        var bay = new Bay(OperationNet.From(Plain), ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the pump")));
        foreach (var act in met.Cast<Act>().Append(new Moved(Move.JointUndone, "bolt")))
        {
            Assert.Null(bay.Do(0, act));
        }

        return bay.On(0).Entries;
    }
}
