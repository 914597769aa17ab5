using CsCheck;
using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Tests.Planning.TwoHands;

public class HandsSearchTests
{
    private const int Enough = 200_000;

    [Fact]
    public void Two_people_are_planned_as_well_as_trying_every_moment() => AsGoodAsEveryMoment(RandomHands.UpTo(5), 500);

    [Fact]
    public void Two_people_with_more_to_do_are_planned_as_well_as_trying_every_moment() => AsGoodAsEveryMoment(RandomHands.UpTo(9), 75);

    [Fact]
    public void A_bound_given_early_is_never_above_the_best() => Solvable(RandomHands.UpTo(7)).Sample(
        problem =>
        {
            var best = EveryMoment.Best(problem);
            foreach (var states in new[] { 1, 300 })
            {
                var plan = HandsSearch.Solve(problem, states)!;
                Assert.True(plan.LowerBound <= best && best <= plan.Makespan, $"bound {plan.LowerBound}, best {best}, plan {plan.Makespan}");
                Assert.Equal(plan.Unproven is null, plan.LowerBound == plan.Makespan);
            }
        },
        iter: Tries.Of(100), print: RandomHands.Describe);

    [Fact]
    public void Every_schedule_keeps_the_rules_and_is_never_slower_than_one_person() => Solvable(RandomHands.UpTo(16)).Sample(
        problem =>
        {
            var plan = HandsSearch.Solve(problem, 500)!;
            Assert.Null(HandsCheck.Fault(problem, plan));
            Assert.True(plan.LowerBound <= plan.Makespan && plan.Makespan <= plan.OnePerson, $"bound {plan.LowerBound}, plan {plan.Makespan}, one {plan.OnePerson}");
        },
        iter: Tries.Of(100), print: RandomHands.Describe);

    [Fact]
    public void Without_waits_one_person_takes_what_the_plan_for_one_says() => Solvable(RandomHands.UpTo(8)).Sample(
        problem =>
        {
            var alone = problem with { Trip = problem.Trip with { Lags = [] } };
            Assert.Equal(TripSearch.Solve(alone.Trip, Enough)!.Cost, HandsSearch.Solve(alone, Enough)!.OnePerson);
        },
        iter: Tries.Of(150), print: RandomHands.Describe);

    [Fact]
    public void A_map_of_eighty_operations_gets_a_legal_plan_that_saves_time()
    {
        var map = MapGenerator.Make(80, 4);
        var net = OperationNet.From(map);
        var problem = MapHands.Of(net, MapTrip.Of(net, [net.Nothing.With(net.Find(OperationKind.Off, MapGenerator.Goal(map)))], net.Nothing));
        var plan = HandsSearch.Solve(problem, 2000, TestContext.Current.CancellationToken)!;
        Assert.Null(HandsCheck.Fault(problem, plan));
        Assert.True(plan.Makespan < 0.85 * plan.OnePerson, $"{plan.Makespan} of {plan.OnePerson}");
    }

    [Fact]
    public void The_same_problem_has_the_same_plan() => Solvable(RandomHands.UpTo(12)).Sample(
        problem =>
        {
            var (first, second) = (HandsSearch.Solve(problem, 1000)!, HandsSearch.Solve(problem, 1000)!);
            Assert.Equal(first.Out.Concat(first.Back), second.Out.Concat(second.Back));
        },
        iter: Tries.Of(50), print: RandomHands.Describe);

    [Fact]
    public void Two_equal_jobs_at_two_sides_take_half_the_time_and_at_one_side_all_of_it()
    {
        // Worked by hand: two operations of 10 out and 20 back, bare-handed, no set-ups.
        HandsProblem Jobs(Position side) => new(
            new RoundTrip([[new TripWay([], 10, 20, 0)], [new TripWay([], 10, 20, 1)]], [OperationSet.Of(2, [0]), OperationSet.Of(2, [1])], OperationSet.Empty(2), new long[2, 2], 0),
            [new Hold(Hold.BareHand, Position.Front), new Hold(Hold.BareHand, side)], default, new Collisions([]));
        Assert.Equal(30, HandsSearch.Solve(Jobs(Position.Left), Enough, TestContext.Current.CancellationToken)!.Makespan);
        Assert.Equal(60, HandsSearch.Solve(Jobs(Position.Front), Enough, TestContext.Current.CancellationToken)!.Makespan);
        Assert.Equal(60, HandsSearch.Solve(Jobs(Position.Below), Enough, TestContext.Current.CancellationToken)!.Makespan);
    }

    [Fact]
    public void A_search_called_off_stops()
    {
        using var off = new CancellationTokenSource();
        off.Cancel();
        var net = OperationNet.From(MapGenerator.Make(40, 1));
        var problem = MapHands.Of(net, MapTrip.Of(net, [net.Nothing.With(net.Find(OperationKind.Off, MapGenerator.Goal(net.Map)))], net.Nothing));
        Assert.Throws<OperationCanceledException>(() => HandsSearch.Solve(problem, 1000, off.Token));
    }

    private static void AsGoodAsEveryMoment(Gen<HandsProblem> problems, int count) => problems.Sample(
        problem =>
        {
            var best = EveryMoment.Best(problem);
            if (HandsSearch.Solve(problem, Enough) is not { } plan)
            {
                Assert.Equal(long.MaxValue, best);
                return;
            }

            Assert.Equal((best, null), (plan.Makespan, plan.Unproven));
            Assert.Equal(plan.Makespan, plan.LowerBound);
        },
        iter: Tries.Of(count), print: RandomHands.Describe);

    private static Gen<HandsProblem> Solvable(Gen<HandsProblem> problems) => problems.Where(problem => TripSearch.Solve(problem.Trip, 1) is not null);
}
