using CsCheck;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Tests.Planning.TwoHands;

public class HandsSearchTests
{
    [Fact]
    public void Two_people_are_planned_as_well_as_trying_every_moment() => RandomHands.UpTo(7).Sample(
        problem =>
        {
            var best = EveryMoment.Best(problem);
            if (HandsSearch.Solve(problem, 200_000) is not { } plan)
            {
                Assert.Equal(long.MaxValue, best);
                return;
            }

            Assert.Equal((best, null), (plan.Makespan, plan.Unproven));
            Assert.Equal(plan.Makespan, plan.LowerBound);
        },
        iter: 2000, print: RandomHands.Describe);

    [Fact]
    public void A_bound_given_early_is_never_above_the_best() => RandomHands.UpTo(7).Where(problem => EveryMoment.Best(problem) < long.MaxValue).Sample(
        problem =>
        {
            var plan = HandsSearch.Solve(problem, 1)!;
            var best = EveryMoment.Best(problem);
            Assert.True(plan.LowerBound <= best && best <= plan.Makespan, $"bound {plan.LowerBound}, best {best}, plan {plan.Makespan}");
        },
        iter: 1000, print: RandomHands.Describe);
}
