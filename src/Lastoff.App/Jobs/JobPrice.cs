using Lastoff.App.Device;
using Lastoff.Core;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Jobs;

/// <summary>A price, the parts that are renewed besides in it, and what a person wrote into it and left out.</summary>
public sealed record MadePrice(Price Price, IReadOnlyList<string> Also, LinesByHand ByHand);

/// <summary>Makes the price of a job from the plan of all of it, the workshop's terms and prices, and the hours that jobs here took; without a map from what is written in by hand.</summary>
public sealed class JobPrice(PriceBook book, TimesHere times)
{
    /// <param name="also">Parts to renew besides, while it is open.</param>
    /// <param name="byHand">What a person wrote in, and left out.</param>
    /// <param name="off">What is taken off the price; null for nothing.</param>
    public async Task<Answer<MadePrice>> MakeAsync(JobSession session, IReadOnlyList<Extra> also, LinesByHand byHand, (string Text, decimal Amount)? off)
    {
        if (book.Terms is not { } terms || book.Prices is not { } prices)
        {
            return Answer.None<MadePrice>(Say("The workshop has set no rates yet; an owner does it under “Rates and taxes”. Without them, write the agreed sum in beside the yes."));
        }

        if (session.Job.IsRecorded)
        {
            // Nothing is worked out without a map.
            return Made(PriceOfPlan.ByHand(session.Net, terms, prices, byHand), []);
        }

        var goal = GoalOf(session.Standing);
        // Half way through, a price is still of the whole job.
        if (Planned(session, goal).TryGet(out var plan, out var why)
            && Planned(session, goal with { Off = [.. goal.Off.Union(also.Select(extra => extra.Part))] }).TryGet(out var together, out why))
        {
            var extra = also.Count == 0 ? null : new ExtraWork(also, await WorkAsync(session, together, terms.Chance));
            return Made(PriceOfPlan.Of(session.Net, goal, await WorkAsync(session, plan, terms.Chance), extra, terms, prices, byHand), [.. also.Select(one => one.Part)]);
        }

        return Answer.None<MadePrice>(why);

        Answer<MadePrice> Made(Answer<Price> made, IReadOnlyList<string> parts)
        {
            if (made.TryGet(out var price, out var fault) && off is var (text, amount))
            {
                made = PriceOfPlan.Less(price, new Discount(text, Money.Rounded(amount, price.Currency, price.Rounding.Half)), terms);
            }

            return made.TryGet(out price, out fault) ? new MadePrice(price, parts, byHand) : Answer.None<MadePrice>(fault);
        }
    }

    /// <summary>What else could be renewed while it is open, the largest saving first; only what is worth it.</summary>
    public static IReadOnlyList<Extra> Worthwhile(JobSession session) =>
        [.. (Extras.Of(session.Net, GoalOf(session.Standing), session.Net.Nothing, PlanLimits.AtOnce).Extras ?? []).Where(extra => extra.MinutesSaved >= 1)];

    private static Goal GoalOf(Standing standing) => new([.. standing.GoalParts], [.. standing.GoalJoints]);

    private static Answer<Plan> Planned(JobSession session, Goal goal)
    {
        if (session.Standing.Disturbed.Count == 0 && session.Plan is { } shown && goal.Off.Count == session.Standing.GoalParts.Count)
        {
            return shown;
        }

        var made = Planner.Make(session.Net, goal, session.Net.Nothing, PlanLimits.AtOnce);
        return made.Plan is { } plan ? plan : Answer.None<Plan>(made.Refusal!);
    }

    /// <summary>By the times of jobs here, where enough was timed; otherwise by the map's.</summary>
    private async Task<PlannedWork> WorkAsync(JobSession session, Plan plan, double chance)
    {
        // What may give trouble is priced apart, but not what is undone by now; what broke goes in new.
        var ahead = plan with
        {
            Out = [.. plan.Out.Select(step => step.Kind == StepKind.Undo && session.Standing.WasDisturbed(OperationKind.Undo, step.Target) ? step with { Risk = null } : step)],
            Renewals = [.. plan.Renewals.UnionBy(session.Standing.NewPieces, renewal => renewal.Id)],
        };
        return new PlannedWork(ahead, await times.OfAsync(session.Id, session.Net, plan.WithoutTrouble()) is { } own
            ? new LabourMinutes(own.Minutes.P50, Math.Max(own.Minutes.P50, own.Minutes.At(chance))) { FromJobs = own.Jobs }
            : LabourMinutes.Of(session.Net, plan, chance));
    }
}
