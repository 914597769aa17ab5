using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Ledger;

/// <summary>The light van's demo job, recorded step by step as the plan says.</summary>
public class DemoJobTests
{
    private static readonly OperationNet Net =
        OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("light-van.map.yaml")), "light-van").Map!);

    private static readonly Plan Plan = Planner.Make(Net, Goal.Renewing("transfer-pipe"), Net.Nothing, PlanLimits.Quick).Plan!;

    [Fact]
    public void Done_as_planned_it_ends_with_nothing_open_and_is_handed_over()
    {
        var bay = Opened();
        foreach (var step in Plan.Out.Concat(Plan.Back))
        {
            Assert.Null(bay.Do(0, step));
        }

        Assert.Empty(OpenItems.Of(bay.On(0).Standing));
        Assert.Equal(Plan.Out.Count(s => s.Kind == StepKind.Cover), bay.On(0).Standing.CoversTakenOut);
        Assert.Null(bay.Do(0, new HandedOver("The owner", null)));
    }

    [Fact]
    public void With_one_connector_not_made_its_cover_cannot_go_on()
    {
        var bay = Opened();
        var refusals = Forgetful(bay, "knock-plug", despite: null);
        Assert.Contains(refusals, r => r.Sentence.Contains("“Inlet manifold” cannot be fitted yet: first do up “Knock sensor plug”"));
    }

    [Fact]
    public void With_one_connector_not_made_the_handover_names_it_and_what_covers_it()
    {
        var bay = Opened();
        Forgetful(bay, "coil-plugs", despite: "It was on before I noticed");
        var refusal = bay.Do(0, new HandedOver("The owner", null));
        Assert.Contains("“Ignition coil plugs” is not done up; it is now covered by “Engine cover”", refusal!.Sentence);
        Assert.Null(bay.On(0).Standing.HandedOver);

        // The cover's own studs wait for the plugs; nothing else is left.
        Assert.Equal(["coil-plugs", "engine-cover-studs"], OpenItems.Of(bay.On(0).Standing).Where(item => item.Kind == OpenKind.Joint).Select(item => item.Target).Order());
    }

    /// <summary>Does everything but make one joint; the part that would cover it is put back all the same when a reason is given.</summary>
    private static List<Refusal> Forgetful(Bay bay, string forgotten, string? despite)
    {
        var refusals = new List<Refusal>();
        foreach (var step in Plan.Out.Concat(Plan.Back).Where(s => s.Target != forgotten || s.Kind == StepKind.Undo))
        {
            if (bay.Do(0, step) is { } refusal)
            {
                refusals.Add(refusal);
                if (despite is not null && step.Kind is StepKind.Fit or StepKind.BringHome && step.ToAct() is Moved moved && refusal.Sentence.Contains(Net.Joints[forgotten].Name))
                {
                    Assert.Null(bay.Do(0, moved with { Despite = despite }));
                }
            }
        }

        return refusals;
    }

    private static Bay Opened()
    {
        var bay = new Bay(Net, ["transfer-pipe"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the transfer pipe")));
        return bay;
    }
}
