using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Pricing;

/// <summary>Minutes of work, what may give trouble left out: that is priced apart.</summary>
/// <param name="P50">As a rule.</param>
/// <param name="AtChance">At the chance the terms quote hours at; no less than <paramref name="P50"/>.</param>
public sealed record LabourMinutes(double P50, double AtChance)
{
    /// <summary>How many earlier jobs they were learned from; zero when they are the map's.</summary>
    public int FromJobs { get; init; }

    /// <summary>As a rule what the plan says it takes, which is the figure the customer is told, and at the chance what its own spread says is enough.</summary>
    /// <param name="chance">0.5 to 0.95.</param>
    public static LabourMinutes Of(OperationNet net, Plan plan, double chance)
    {
        var calm = plan.WithoutTrouble();
        List<PlanStep> steps = [.. calm.Out, .. calm.Back];
        var asARule = steps.Sum(step => step.Minutes + step.SetUpMinutes + step.WaitMinutes);
        return new LabourMinutes(asARule, Math.Max(asARule, Spread.Of(net, steps).At(chance)));
    }
}

/// <summary>A plan and its minutes.</summary>
public sealed record PlannedWork(Plan Plan, LabourMinutes Minutes);

/// <summary>Other parts renewed while the machine is open.</summary>
/// <param name="Parts">At least one: the parts, with the minutes each adds, by which the labour is shared among them.</param>
/// <param name="Together">The plan for the job and these parts at once: what both need is done, and charged, once.</param>
public sealed record ExtraWork(IReadOnlyList<Extra> Parts, PlannedWork Together);

/// <summary>The price of a planned job, or of one that goes without a plan.</summary>
public static class PriceOfPlan
{
    private const string Work = "Labour: ";

    /// <summary>The price, or the one sentence that says why there is none. What the list has no price for is in <see cref="Price.Unpriced"/>.</summary>
    /// <param name="goal">What the job is for, without the extra work.</param>
    /// <param name="byHand">What a person wrote in, and left out; null for nothing.</param>
    public static Answer<Price> Of(OperationNet net, Goal goal, PlannedWork job, ExtraWork? extra, PriceTerms terms, PriceList list, LinesByHand? byHand = null)
    {
        if (OtherCurrency(terms, list) is { } other)
        {
            return Answer.None<Price>(other);
        }

        var lines = new PriceLines(net, terms, list, byHand ?? LinesByHand.None);
        var hours = InHundredths(job.Minutes.AtChance);
        lines.Labour(LineGroup.Labour, $"{Work}{Names(net, goal)}", hours);
        List<Renewal> besides = [.. (extra?.Together.Plan.Renewals ?? []).Where(renewal => job.Plan.Renewals.All(had => had.Id != renewal.Id))];
        List<Renewal> all = [.. job.Plan.Renewals, .. besides];
        lines.Things(job.Plan.Renewals, renewal => renewal.Kind switch
        {
            RenewalKind.Part when goal.Off.Contains(renewal.For) => LineGroup.Parts,
            RenewalKind.Fluid => LineGroup.Fluids,
            _ => LineGroup.Renewals,
        }, all);
        if (extra is not null)
        {
            // The two plans are found apart, so the larger one may by luck of the search come out the shorter.
            var more = Math.Max(0, InHundredths(extra.Together.Minutes.AtChance) - hours);
            foreach (var (part, share) in extra.Parts.Zip(Split.Of(more, Weights(extra.Parts))))
            {
                lines.Labour(LineGroup.ExtraWork, $"{Work}{part.Name}, while it is open", share, part.Part);
            }

            lines.Things(besides, _ => LineGroup.ExtraWork, all);
            hours += more;
        }

        lines.ByHand();
        lines.Sundries();
        return lines.Fault is { } fault ? Answer.None<Price>(fault) : Whole(lines, hours, extra?.Together ?? job, net, terms, list);
    }

    /// <summary>The price of a job that no plan is made for: what a person wrote in, and the sundries of it.</summary>
    public static Answer<Price> ByHand(OperationNet net, PriceTerms terms, PriceList list, LinesByHand byHand)
    {
        if (OtherCurrency(terms, list) is { } other)
        {
            return Answer.None<Price>(other);
        }

        var lines = new PriceLines(net, terms, list, byHand);
        lines.ByHand();
        lines.Sundries();
        return lines.Fault is { } fault ? Answer.None<Price>(fault)
            : Price.Of(new PriceDraft(terms.Currency, terms.Rounding, lines.Written) { Taxes = terms.Taxes, Limit = terms.Limit, Payment = terms.Payment, Invented = terms.Invented }).TryGet(out var price, out var why) ? WithDeposit(price, terms)
            : Answer.None<Price>(why);
    }

    /// <summary>Whether a line is for the work that was worked out from a plan.</summary>
    internal static bool IsOfPlan(PriceLine line) => line.Text.StartsWith(Work, StringComparison.Ordinal);

    private static string? OtherCurrency(PriceTerms terms, PriceList list) => list.Currency == terms.Currency ? null
        : $"The price list is in {list.Currency}, and the terms are in {terms.Currency}: a price is in one currency.";

    private static Answer<Price> Whole(PriceLines lines, long hours, PlannedWork work, OperationNet net, PriceTerms terms, PriceList list)
    {
        var atChance = hours / 100m;
        var draft = new PriceDraft(terms.Currency, terms.Rounding, lines.Written)
        {
            Taxes = terms.Taxes,
            Hours = !lines.IsLabourWhole ? null : new Hours(Math.Min(atChance, InHundredths(work.Minutes.P50) / 100m), terms.Chance, atChance) { FromJobs = work.Minutes.FromJobs },
            Allowance = AllowanceOf(work.Plan, terms),
            Unpriced = lines.Unpriced,
            Limit = terms.Limit,
            Payment = terms.Payment,
            Invented = terms.Invented || net.Map.Invented || (list.Invented && lines.Written.Any(line => line.Origin?.IsListed == true)),
        };
        if (!Price.Of(draft).TryGet(out var price, out var sentence))
        {
            return Answer.None<Price>(sentence);
        }

        return WithDeposit(price, terms);
    }

    /// <summary>The price with something taken off; the deposit is of what is left.</summary>
    public static Answer<Price> Less(Price price, Discount discount, PriceTerms terms) =>
        price.With(draft => draft with { Discount = discount, Deposit = null }).TryGet(out var less, out var sentence) ? WithDeposit(less, terms) : Answer.None<Price>(sentence);

    private static Answer<Price> WithDeposit(Price price, PriceTerms terms)
    {
        var deposit = terms.Deposit?.Of(price.Total, terms.Rounding.Half);
        return price.With(draft => draft with { Deposit = deposit is null ? null : deposit > price.Total ? price.Total : deposit });
    }

    private static Allowance? AllowanceOf(Plan plan, PriceTerms terms)
    {
        List<Trouble> troubles =
        [
            // What it costs when it happens is not known where nobody told how long it takes. By hundredths of an hour, as the line will be that charges it.
            .. plan.Out.Where(step => step.Risk is { Chance: > 0, Minutes: > 0 }).Select(step => new Trouble(
                $"{step.Name}: {step.Risk!.What}", step.Risk.Chance, step.Risk.Minutes,
                Money.Rounded(InHundredths(step.Risk.Minutes) / 100m * terms.HourlyRate, terms.Currency, terms.Rounding.Half))),
        ];
        return troubles.Count == 0 ? null : new Allowance(troubles, PriceLines.TaxesOn(terms, LineGroup.Labour));
    }

    private static long InHundredths(double minutes) => (long)Math.Round(minutes / 60 * 100, MidpointRounding.AwayFromZero);

    /// <summary>By the seconds each adds; alike where none adds any.</summary>
    private static long[] Weights(IReadOnlyList<Extra> parts)
    {
        long[] seconds = [.. parts.Select(part => (long)Math.Round(Math.Max(0, part.MinutesInStrip) * 60))];
        return seconds.All(s => s == 0) ? [.. seconds.Select(_ => 1L)] : seconds;
    }

    private static string Names(OperationNet net, Goal goal) =>
        string.Join(", ", goal.Off.Select(part => net.Parts[part].Name).Concat(goal.Undo.Select(joint => net.Joints[joint].Name)));
}
