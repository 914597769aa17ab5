using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>Trouble at joints that came after a price, and whether the price of now has it.</summary>
internal static class TroubleToCharge
{
    /// <summary>Each trouble that no price has in it, with the line that would charge it.</summary>
    public static IEnumerable<Uncharged> NotIn(Job job, Price price)
    {
        var troubles = Met(job).ToList();
        List<string> names = [.. troubles.Select(trouble => trouble.Name)];
        return
            from trouble in troubles
            let minutes = trouble.Minutes - ChargedMinutes(job.Standing, trouble, names)
            where Hours(minutes) > 0
            select new Uncharged(
                $"Trouble met: {MinuteWords.Of(minutes)} at “{trouble.Name}”; not in the price of {price.Total}.",
                new HandLine(LineGroup.Labour, $"Trouble met: {trouble.Name}", Hours(minutes), 0));
    }

    /// <summary>What was met after the first price, joint by joint: the last word on how long it takes, and how many prices there were by then.</summary>
    private static IEnumerable<Trouble> Met(Job job) =>
        from told in Told(job)
        where !told.Stuck.IsClosed && told.Stuck.ExtraMinutes > 0 && job.Net.Joints.ContainsKey(told.Stuck.Joint) && IsMet(job.Standing, told.Stuck.Joint)
        group told by told.Stuck.Joint into joint
        let last = joint.Last()
        where last.Prices > 0
        select new Trouble(job.Net.Joints[joint.Key].Name, last.Stuck.ExtraMinutes, last.Prices);

    private static IEnumerable<(JointStuck Stuck, int Prices)> Told(Job job)
    {
        var prices = job.Standing.Prices.Select(price => price.Entry).ToHashSet();
        var made = 0;
        foreach (var counted in CountedEntry.AllOf(job.Entries).Where(counted => !counted.IsTakenBack))
        {
            made += prices.Contains(counted.Entry.Id) ? 1 : 0;
            if (counted.Act is JointStuck stuck)
            {
                yield return (stuck, made);
            }
        }
    }

    /// <summary>Where the way went round it in the end, it took no longer.</summary>
    private static bool IsMet(Standing standing, string joint) =>
        standing.WasDisturbed(OperationKind.Undo, joint) || !NotCharged.IsDone(standing);

    /// <summary>
    /// What the latest price has of it: all, where a price made since names it; as much as its line has, where it got worse after that; and all, where more work by the hour,
    /// for no more than the job was for, came into the price since and names no trouble at all.
    /// </summary>
    private static double ChargedMinutes(Standing standing, Trouble trouble, IReadOnlyList<string> names)
    {
        var (before, latest) = (standing.Prices[trouble.Prices - 1], standing.Prices[^1]);
        var isNewer = trouble.Prices < standing.Prices.Count;
        var named = latest.Price.Lines.Where(line => Named(line, names) == trouble.Name).ToList();
        return named.Count > 0 ? isNewer ? trouble.Minutes : (double)named.Sum(line => line.Quantity) * 60
            : isNewer && latest.Goals.SetEquals(before.Goals) && Nameless(latest, names) > Nameless(before, names) ? trouble.Minutes
            : 0;
    }

    /// <summary>The hours of a price that are there for no trouble by its name.</summary>
    private static decimal Nameless(PriceOnRecord price, IReadOnlyList<string> names) =>
        price.Price.Lines.Where(line => line.Group == LineGroup.Labour && Named(line, names) is null).Sum(line => line.Quantity);

    /// <summary>The trouble that a line of work names; null where it is the work itself.</summary>
    private static string? Named(PriceLine line, IReadOnlyList<string> names) => line.Group != LineGroup.Labour || PriceOfPlan.IsOfPlan(line) ? null
        : names.Where(name => line.Text.Contains(name, StringComparison.OrdinalIgnoreCase)).MaxBy(name => name.Length);

    private static decimal Hours(double minutes) => Math.Round((decimal)minutes / 60, 2);

    private sealed record Trouble(string Name, double Minutes, int Prices);
}
