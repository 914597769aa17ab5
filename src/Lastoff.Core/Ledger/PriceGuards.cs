using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

/// <summary>What must be true before a price, a yes to one, a payment, and work beyond what was agreed.</summary>
internal static class PriceGuards
{
    public static Refusal? Check(Standing standing, Priced priced) =>
        priced.IsTooLong ? new Refusal(RefusalKind.Forbidden, $"A price of {priced.Price.Lines.Count} lines is too long for one entry of the ledger: put lines together.")
        : priced.Also.FirstOrDefault(part => !standing.Net.Parts.ContainsKey(part)) is { } unknown ? Guards.Unknown("part", unknown)
        : Foreign(standing, priced.Price.Currency)
        ?? (standing.Prices.Count > 0 && string.IsNullOrWhiteSpace(priced.Reason) ? new Refusal(RefusalKind.OutOfOrder, "This job has a price already: write down why there is another.") : null);

    public static Refusal? Check(Standing standing, Agreed agreed)
    {
        if (agreed.Price is not { } named)
        {
            return null;
        }

        return !standing.Offered.TryGetValue(named.Entry, out var price)
            ? new Refusal(RefusalKind.Unknown, $"The yes of {agreed.Who} is to a price that is not on record here ({named.Entry}): wait until it has come in, or read out the one that is.")
            : price.Priced.Sha256 != named.Sha256 || price.Price.Total != named.Total
                ? new Refusal(RefusalKind.Forbidden, $"The yes of {agreed.Who} is to {named.Total}, and the price on record under {named.Entry} says otherwise ({price.Price.Total}): read out the price again.")
            : price.IsTakenBack
                ? new Refusal(RefusalKind.OutOfOrder, $"{agreed.Who} said yes to the price of {price.Price.Total} by {price.By}, which is taken back.")
            : null;
    }

    public static Refusal? Check(Standing standing, Paid paid) =>
        paid.Amount.IsZero ? new Refusal(RefusalKind.Forbidden, "A payment of nothing is none; write what came in, or went back.")
        : Foreign(standing, paid.Amount.Currency)
        ?? (paid.Amount.IsNegative && -paid.Amount > Money.Sum(standing.Payments.Select(payment => payment.Amount), paid.Amount.Currency)
            ? new Refusal(RefusalKind.OutOfOrder, $"{-paid.Amount} is more than came in for this job; write down first what came in.")
            : null);

    /// <summary>Why work may not go beyond the agreed sum now; null when it may, or the act is no such work.</summary>
    public static Refusal? Beyond(Standing standing, Act act) =>
        standing.OverAgreed is { } over && IsMore(standing, act)
            ? new Refusal(RefusalKind.OutOfOrder, $"{over} Get a yes to it, or write down why the work goes on without one. {PriceTerms.LimitCaution}") { AsksForYes = true }
            : standing.Agreed is null && standing.AgreedPrice is { } yes && act is Moved or WorkDone && IsMore(standing, act)
            ? new Refusal(RefusalKind.OutOfOrder, $"This was taken in after {yes.Agreed.Who} said yes. Get a yes to it, or write down why the work goes on without one.") { AsksForYes = true }
            : null;

    /// <summary>More work taken in to go on without a yes, or the first hand on work that came in after the yes. What is only taken in goes into the next asking; what leads home is never held up, nor is what was agreed.</summary>
    private static bool IsMore(Standing standing, Act act) => act switch
    {
        GoalAdded added => !string.IsNullOrWhiteSpace(added.Despite),
        WorkDone done => standing.AgreedPrice is { Price: { } agreed } && !agreed.Goals.Contains(done.What),
        Moved { Move: Move.PartOff or Move.PartAside } moved => IsLater(standing, moved.Target),
        Moved { Move: Move.JointUndone } moved => IsLaterJoint(standing, moved.Target)
            || standing.Net.Joints.TryGetValue(moved.Target, out var joint) && joint.Holds.Count > 0 && joint.Holds.All(part => IsLater(standing, part)),
        _ => false,
    };

    private static bool IsLater(Standing standing, string part) =>
        standing.GoalParts.Contains(part) && standing.AgreedPrice is { } yes && !yes.GoalParts.Contains(part) && !standing.AnsweredFor.Contains(part);

    private static bool IsLaterJoint(Standing standing, string joint) =>
        standing.GoalJoints.Contains(joint) && standing.AgreedPrice is { } yes && !yes.GoalJoints.Contains(joint) && !standing.AnsweredFor.Contains(joint);

    private static Refusal? Foreign(Standing standing, Currency currency) => standing.Offered.Values.MinBy(price => price.Entry) is { } had && had.Price.Currency != currency
        ? new Refusal(RefusalKind.Forbidden, $"This is in {currency}, and the price of this job is in {had.Price.Currency}: a job is in one currency.")
        : null;
}
