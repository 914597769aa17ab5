using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>Whoever said that all of it is here is asked again only for what is called for since.</summary>
public class HaveHereTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void More_work_asks_for_no_more_than_it_brings()
    {
        var bay = Ready(out var had);
        Assert.Null(bay.Do(0, new GoalAdded(["regulator"], [])));
        var missing = Missing(bay);
        Assert.NotEmpty(missing);
        Assert.Empty(missing.Intersect(had));
    }

    [Fact]
    public void On_the_way_out_and_back_nothing_is_asked_for_again()
    {
        var bay = Ready(out _);
        for (var steps = 0; steps < 200 && NextStep.Of(bay.On(0).Standing, Plan(bay)) is { Kind: not StepKind.Prove } step; steps++)
        {
            Assert.Null(bay.Do(0, step));
            Assert.Empty(Missing(bay));
        }

        Assert.True(bay.On(0).Standing.Disturbed.Count > 5);
        Assert.Empty(bay.On(0).Standing.Done);
    }

    /// <summary>A job that is agreed, with all that its plan calls for said to be here.</summary>
    private static Bay Ready(out IReadOnlyList<string> had)
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The invented owner", "in person", "Renew it")));
        had = Missing(bay);
        Assert.True(had.Count > 3);
        foreach (var name in had)
        {
            Assert.Null(bay.Do(0, new ItemTold(name, ItemState.Here, "")));
        }

        return bay;
    }

    private static Plan Plan(Bay bay) => Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce).Plan!;

    private static IReadOnlyList<string> Missing(Bay bay) =>
        [.. Needed.Of(bay.On(0).Standing, Plan(bay)).Where(item => item.IsCounted && item.State != ItemState.Here).Select(item => item.Name)];
}
