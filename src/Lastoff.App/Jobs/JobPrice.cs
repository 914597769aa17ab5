using Lastoff.App.Device;
using Lastoff.Core;
using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;

namespace Lastoff.App.Jobs;

/// <summary>Makes the price of a job from its plan, the workshop's terms and prices, and the hours that jobs here took.</summary>
public sealed class JobPrice(PriceBook book, TimesHere times)
{
    /// <param name="also">Parts to renew besides, while it is open.</param>
    public async Task<Answer<Price>> MakeAsync(JobSession session, IReadOnlyList<Extra> also)
    {
        if (book.Terms is not { } terms || book.Prices is not { } prices)
        {
            return Answer.None<Price>("The workshop has set no rates yet; an owner does it under “Rates and taxes”.");
        }

        if (session.Plan is not { } plan)
        {
            return Answer.None<Price>(session.NoPlan ?? "The way is still being worked out.");
        }

        var goal = GoalOf(session.Standing);
        var extra = also.Count == 0 ? null : new ExtraWork(also, await WorkAsync(session, Together(session, goal, also) ?? plan, terms.Chance));
        return PriceOfPlan.Of(session.Net, goal, await WorkAsync(session, plan, terms.Chance), extra, terms, prices);
    }

    /// <summary>What else could be renewed while it is open, the largest saving first; only what is worth it.</summary>
    public static IReadOnlyList<Extra> Worthwhile(JobSession session) =>
        [.. (Extras.Of(session.Net, GoalOf(session.Standing), session.Standing.Done, PlanLimits.AtOnce).Extras ?? []).Where(extra => extra.MinutesSaved >= 1)];

    private static Goal GoalOf(Standing standing) => new([.. standing.GoalParts], [.. standing.GoalJoints]);

    private static Plan? Together(JobSession session, Goal goal, IReadOnlyList<Extra> also) =>
        Planner.Make(session.Standing, goal with { Off = [.. goal.Off.Union(also.Select(extra => extra.Part))] }, PlanLimits.AtOnce).Plan;

    /// <summary>By the times of jobs here, where enough was timed; otherwise by the map's.</summary>
    private async Task<PlannedWork> WorkAsync(JobSession session, Plan plan, double chance)
    {
        var usual = LabourMinutes.Of(session.Net, plan, chance);
        // What may give trouble is priced apart.
        var calm = plan with { Out = [.. plan.Out.Select(step => step with { Risk = null })] };
        return new PlannedWork(plan, await times.OfAsync(session.Id, session.Net, calm) is { } own
            ? new LabourMinutes(own.Minutes.P50, Math.Max(own.Minutes.P50, own.Minutes.At(chance)))
            : usual);
    }
}
