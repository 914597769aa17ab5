using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Papers;

/// <summary>What went in new, on paper.</summary>
internal static class NewThings
{
    /// <summary>Everything that was used up, also what had to come out again.</summary>
    public static Table Table(Job job) => new(
        "", [new("What", 7), new("How much", 2), new("For", 5)],
        [
            .. from id in job.Standing.PutIn.Keys.Order(StringComparer.Ordinal)
               let renewal = job.Net.RenewalNamed(id)
               select renewal is null
                   ? new Row([new Said(id, Datum.Of("renewal", id)), Said.Nothing, Said.Nothing])
                   : new Row([new Said(NamesOf.Thing(job.Net, id), Datum.Of("renewal", id)), HowMuch(job.Standing, renewal), renewal.For != Renewal.Alone && IsForTold(job, renewal) ? NamesOf.Thing(job.Net, renewal.For) : Said.Nothing]),
        ]);

    /// <summary>For the customer: what is in now. What was poured says more than what was to be.</summary>
    public static IEnumerable<Said> Lines(Standing standing) =>
        from id in standing.Renewed.Order(StringComparer.Ordinal)
        let renewal = standing.Net.RenewalNamed(id)
        where renewal is not null && !standing.Restored.Any(filled => filled.Target == renewal.For && filled.Amount_L is not null)
        let much = HowMuch(standing, renewal)
        select renewal.Kind == RenewalKind.Fluid && standing.Net.Supplies.ContainsKey(renewal.For)
            ? new Said($"{NamesOf.Thing(standing.Net, id)}: how much went in was not measured", Datum.Of("renewal", id))
            : new Said($"{NamesOf.Thing(standing.Net, id)} ({much.Text})", [Datum.Of("renewal", id), .. much.Data]);

    /// <summary>“2”, “1.2 L”.</summary>
    public static string Amount(double count, string unit) => count.ToString("0.##", CultureInfo.InvariantCulture) + (unit.Length > 0 ? $" {unit}" : "");

    private static Said HowMuch(Standing standing, Renewal renewal)
    {
        var count = Used(standing, renewal);
        return new(Amount(count, renewal.Unit), Datum.Of("count", count), Datum.Of("unit", renewal.Unit));
    }

    /// <summary>How much of it was used up: of a fluid what was measured, where it was.</summary>
    public static double Used(Standing standing, Renewal renewal)
    {
        var times = standing.PutIn.GetValueOrDefault(renewal.Id, 1);
        var poured = standing.Restored.Where(filled => filled.Target == renewal.For).Select(filled => filled.Amount_L).ToList();
        return renewal is { Kind: RenewalKind.Fluid, Unit: "L" } && poured.Count > 0 && !poured.Contains(null) && standing.Net.RenewalsFor[renewal.For].Count(other => other.Kind == RenewalKind.Fluid) == 1
            ? Math.Round(poured.Sum()!.Value + (Math.Max(0, times - poured.Count) * renewal.Count), 3)
            : times * renewal.Count;
    }

    /// <summary>Without a map, what somebody wanted is taken to be for what came off last, unless they said what for.</summary>
    private static bool IsForTold(Job job, Renewal renewal) => !job.IsRecorded || renewal.Kind != RenewalKind.Sundry
        || CountedEntry.AllOf(job.Entries).Where(counted => !counted.IsTakenBack).Select(counted => counted.Act).OfType<LineRecorded>().SelectMany(line => line.Readings)
            .Any(reading => reading is { Deed: Deed.Wanted, Part: { } part, Of: not null } && part.Equals(renewal.Name, StringComparison.OrdinalIgnoreCase));
}
