using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Pricing;

/// <summary>The price of planned jobs on the invented sprayer pump.</summary>
public class PriceOfPlanTests
{
    private static readonly OperationNet Net = OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml")), "pump").Map!);
    private static readonly Goal Diaphragm = Goal.Renewing("upper-diaphragm");
    private static readonly PlannedWork Alone = Planned(Diaphragm, new LabourMinutes(60, 90));
    private static readonly Currency Euro = Currency.Of("EUR").Value!;
    private static readonly PriceTerms Terms = new(new Workshop("Invented Workshop", []), Euro, 80)
    {
        Taxes = [new Tax("vat", "VAT", 20), new Tax("green", "Levy on fluids", 5) { On = [LineGroup.Fluids] }],
        Sundries = Portion.OfPercent(5),
        Deposit = Portion.Fixed(Money.Of(50, Euro)),
        Limit = Portion.OfPercent(10),
    };

    private static readonly PriceList List = new(Euro,
    [
        new ListedItem("Upper diaphragm", 30, ""),
        new ListedItem("pump", 400, "") { CoreCharge = Money.Of(60, Euro) },
        new ListedItem("head-valve-seals", 3, ""),
        new ListedItem("suction-clamp", 2, "box"),
        new ListedItem("shaft-pin", 12, ""),
        new ListedItem("fresh-oil", null, "") { Containers = [new ContainerPrice(1, 9), new ContainerPrice(0.5, 6)] },
    ]);

    [Fact]
    public void Labour_parts_renewals_fluids_and_sundries_each_have_their_lines()
    {
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, List).Value!;
        // 90 minutes at 80 an hour; 5 % of it; 1.2 L in whole bottles is one of 1 L and one of 0.5 L.
        Assert.Equal(
            [(LineGroup.Labour, 1.5m, 120m), (LineGroup.Parts, 1m, 30m), (LineGroup.Renewals, 2m, 6m), (LineGroup.Fluids, 1m, 9m), (LineGroup.Fluids, 1m, 6m), (LineGroup.Sundries, 1m, 6m)],
            price.Lines.OrderBy(line => line.Group).ThenByDescending(line => line.Amount.Amount).Select(line => (line.Group, line.Quantity, line.Amount.Amount)));
        Assert.Equal(177m, price.BeforeTax.Amount);
        Assert.Equal([35.40m, 0.75m], price.TaxAmounts.Select(tax => tax.Amount.Amount));
        Assert.Equal((213.15m, 50m, 1m, 1.5m), (price.Total.Amount, price.Deposit.Amount, price.Hours!.P50, price.Hours.AtChance));
        Assert.True(price.Invented);
    }

    [Fact]
    public void What_has_no_price_is_named_and_never_free()
    {
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, List).Value!;
        Assert.Equal(["Washer of the pressure hose", "Worm-drive clamp 45 mm (the price list has it per box)"], price.Unpriced.Select(unpriced => unpriced.Text).Order());
        Assert.Equal(Alone.Plan.Renewals.Count, price.Unpriced.Count + price.Lines.Count(line => line.Group is LineGroup.Parts or LineGroup.Renewals) + 1);
        var nothing = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, new PriceList(Euro, [])).Value!;
        Assert.Equal(Alone.Plan.Renewals.Count, nothing.Unpriced.Count);
    }

    [Fact]
    public void Extra_work_costs_what_it_adds_while_the_machine_is_open()
    {
        var extras = Extras.Of(Net, Diaphragm, Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Extras!;
        List<Extra> chosen = [.. extras.Where(extra => extra.Part is "pump" or "regulator")];
        var together = Planned(new Goal(["upper-diaphragm", "pump", "regulator"], []), new LabourMinutes(100, 151));
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, new ExtraWork(chosen, together), Terms, List).Value!;
        var labour = price.Lines.Where(line => line.Unit == "h").ToList();
        // The whole takes 151 minutes, 2.52 hours; the job alone 1.5.
        Assert.Equal((1.5m, 2.52m), (labour.Single(line => line.Group == LineGroup.Labour).Quantity, labour.Sum(line => line.Quantity)));
        Assert.Equal(2, labour.Count(line => line.Group == LineGroup.ExtraWork));
        Assert.Equal(2.52m, price.Hours!.AtChance);
        Assert.Single(price.Lines, line => line is { Text: "Pump", Group: LineGroup.ExtraWork });
        Assert.Single(price.Lines, line => line.Group == LineGroup.CoreCharges && line.Amount.Amount == 60);
        Assert.Contains(price.Unpriced, unpriced => unpriced.Text == Net.Parts["regulator"].Name);
        // Nothing that both need is there twice.
        Assert.Equal(price.Lines.Count, price.Lines.Select(line => (line.Group, line.Text)).Distinct().Count());
        // A plan found shorter by luck takes nothing off the job.
        var lucky = PriceOfPlan.Of(Net, Diaphragm, Alone, new ExtraWork(chosen, together with { Minutes = new LabourMinutes(50, 80) }), Terms, List).Value!;
        Assert.Equal(1.5m, lucky.Lines.Where(line => line.Unit == "h").Sum(line => line.Quantity));
    }

    [Fact]
    public void What_is_bought_by_the_container_is_bought_once_for_the_job_and_what_is_done_besides()
    {
        var oil = Alone.Plan.Renewals.Single(renewal => renewal.Kind == RenewalKind.Fluid);
        var pump = Extras.Of(Net, Diaphragm, Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Extras!.Single(extra => extra.Part == "pump");
        var list = new PriceList(Euro, [new ListedItem(oil.Name, null, "") { Containers = [new ContainerPrice(1, 9), new ContainerPrice(0.5, 6)] }]);
        var together = Alone with { Plan = Alone.Plan with { Renewals = [.. Alone.Plan.Renewals, oil with { Id = "more-oil", For = "pump", Count = 0.3 }] } };
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, new ExtraWork([pump], together), Terms, list).Value!;
        // 1.2 L and 0.3 L are one bottle of 1 L and one of 0.5 L; each alone they would be three bottles.
        Assert.Equal([(1m, 9m), (1m, 6m)], price.LinesOf(LineGroup.Fluids).Select(line => (line.Quantity, line.Amount.Amount)).OrderByDescending(line => line.Item2));
        Assert.DoesNotContain(price.LinesOf(LineGroup.ExtraWork), line => line.Unit != "h");
    }

    [Fact]
    public void Of_the_containers_that_are_enough_the_price_takes_those_that_cost_least_in_sum()
    {
        // 1.2 L: the least volume is 1 L and 0.5 L for 15; one can of 5 L costs 14, and with the mark-up 15.40.
        var list = new PriceList(Euro, [new ListedItem("fresh-oil", null, "") { Containers = [new ContainerPrice(1, 9), new ContainerPrice(0.5, 6), new ContainerPrice(5, 14)] }]);
        var line = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms with { MarkUpPercent = 10 }, list).Value!.LinesOf(LineGroup.Fluids).Single();
        Assert.EndsWith(", 5 L", line.Text);
        Assert.Equal((1m, 15.40m), (line.Quantity, line.Amount.Amount));
    }

    [Fact]
    public void An_item_whose_unit_fits_is_taken_before_one_whose_unit_does_not()
    {
        // What was typed at the price of a job stands under the name, beside an entry per box under the identifier.
        var list = new PriceList(Euro, [new ListedItem("suction-clamp", 2, "box"), new ListedItem("Worm-drive clamp 45 mm", 3, "")]);
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, list).Value!;
        Assert.Contains(price.Lines, line => line.Text == "Worm-drive clamp 45 mm" && line.UnitPrice == 3);
        Assert.DoesNotContain(price.Unpriced, unpriced => unpriced.Text.Contains("clamp", StringComparison.Ordinal));
    }

    [Fact]
    public void Trouble_is_shown_apart_and_is_in_no_line()
    {
        var price = PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, List).Value!;
        var risks = Alone.Plan.Out.Where(step => step.Risk is { Chance: > 0 }).Select(step => step.Risk!).ToList();
        Assert.NotEmpty(risks);
        Assert.Equal(risks.Sum(risk => Math.Round((decimal)risk.Minutes / 60, 2) * 80), price.Allowance!.Most.Amount);
        Assert.Equal(Math.Round(price.Allowance.Troubles.Sum(t => t.Cost.Amount * (decimal)t.Chance), 2, MidpointRounding.AwayFromZero), price.Allowance.Expected(HalfWay.Up).Amount);
        Assert.Equal(120m, price.SumOf(LineGroup.Labour).Amount);
        var read = PriceJson.Read(PriceJson.Write(price).ToJsonString()).Value!;
        Assert.Equal(price.Allowance.Most, read.Allowance!.Most);
        Assert.Equal(price.Ceiling, read.Ceiling);
    }

    [Fact]
    public void Trouble_that_nobody_timed_has_no_cost_and_no_figure()
    {
        var untimed = Alone with { Plan = Alone.Plan with { Out = [.. Alone.Plan.Out.Select(step => step with { Risk = step.Risk is { } risk ? risk with { Minutes = 0 } : null })] } };
        Assert.Null(PriceOfPlan.Of(Net, Diaphragm, untimed, null, Terms, List).Value!.Allowance);
    }

    [Fact]
    public void The_minutes_of_a_plan_leave_trouble_out_and_grow_with_the_chance()
    {
        var at = new[] { 0.5, 0.7, 0.9, 0.95 }.Select(chance => LabourMinutes.Of(Net, Alone.Plan, chance)).ToList();
        // Enough in half of the jobs is more than the sum of what each step takes as a rule.
        var calm = Alone.Plan.WithoutTrouble();
        Assert.Equal(Math.Max(at[0].P50, Spread.Of(Net, [.. calm.Out, .. calm.Back]).P50), at[0].AtChance);
        Assert.Equal(at.Select(minutes => minutes.AtChance).Order(), at.Select(minutes => minutes.AtChance));
        Assert.True(at[2].AtChance < Alone.Plan.MinutesP90);
        var riskless = Alone.Plan.Out.Concat(Alone.Plan.Back).Sum(step => step.Minutes + step.SetUpMinutes + step.WaitMinutes);
        Assert.InRange(at[0].P50, riskless, riskless * 1.15);
    }

    [Fact]
    public void A_mark_up_is_on_what_is_bought_and_not_on_a_core_charge()
    {
        var pump = Goal.Renewing("pump");
        var price = PriceOfPlan.Of(Net, pump, Planned(pump, new LabourMinutes(60, 60)), null, Terms with { MarkUpPercent = 12.5m }, List).Value!;
        Assert.Equal(450m, price.SumOf(LineGroup.Parts).Amount);
        Assert.Equal(60m, price.SumOf(LineGroup.CoreCharges).Amount);
        Assert.Equal(80m, price.SumOf(LineGroup.Labour).Amount);
    }

    [Fact]
    public void A_list_in_another_currency_is_refused() =>
        Assert.Contains("the terms are in EUR", PriceOfPlan.Of(Net, Diaphragm, Alone, null, Terms, new PriceList(Currency.Of("CHF").Value!, [])).Sentence);

    [Fact]
    public void An_item_listed_twice_is_a_mistake_of_the_program() =>
        Assert.Throws<ArgumentException>(() => new PriceList(Euro, [new ListedItem("pump", 1, ""), new ListedItem("Pump", 2, "")]));

    private static PlannedWork Planned(Goal goal, LabourMinutes minutes) =>
        new(Planner.Make(Net, goal, Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!, minutes);
}
