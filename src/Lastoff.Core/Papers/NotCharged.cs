using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>What somebody has to decide before a bill goes out, since nothing is charged by itself: trouble that came after the price was made, and a deposit that did not come in.</summary>
public static class NotCharged
{
    /// <summary>A sentence each; none while no price is agreed.</summary>
    public static IReadOnlyList<string> Of(Job job) => job.Standing is { AgreedPrice: not null, LatestPrice: { } price } standing ? [.. Troubles(job, price), .. Deposit(standing, price.Price)] : [];

    private static IEnumerable<string> Troubles(Job job, PriceOnRecord price) =>
        from stuck in CountedEntry.AllOf(job.Entries).Where(counted => !counted.IsTakenBack).SkipWhile(counted => counted.Entry.Id != price.Entry).Select(counted => counted.Act).OfType<JointStuck>()
        where !stuck.IsClosed && job.Net.Joints.ContainsKey(stuck.Joint)
        group stuck by stuck.Joint into joint
        // The last word on how long it takes.
        select $"Trouble met: {MinuteWords.Of(joint.Last().ExtraMinutes)} at “{job.Net.Joints[joint.Key].Name}”; not in the price of {price.Price.Total}.";

    private static IEnumerable<string> Deposit(Standing standing, Price price)
    {
        var paid = Money.Sum(standing.Payments.Select(payment => payment.Amount), price.Currency);
        if (paid < price.Deposit)
        {
            yield return paid.IsZero ? $"Deposit of {price.Deposit} asked for; nothing came in on record. It is written down under “Price”." : $"Deposit of {price.Deposit} asked for; {paid} came in on record.";
        }
    }
}
