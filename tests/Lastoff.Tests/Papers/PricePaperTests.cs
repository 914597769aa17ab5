using System.Text.Json.Nodes;
using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Papers;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Pricing;

namespace Lastoff.Tests.Papers;

/// <summary>Every amount on an estimate and an invoice is that of the price in the ledger, and they add up on paper by themselves.</summary>
public class PricePaperTests
{
    [Fact]
    public void A_second_yes_takes_back_nothing_that_was_said_with_the_first()
    {
        var bench = Changed();
        bench.Do(new Agreed("The invented owner", "in person", "Bolt sheared off") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!) });
        var said = string.Join('\n', Read.Texts(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover))));
        Assert.Contains("The price (The invented owner, in person)", said, StringComparison.Ordinal);
        Assert.Contains("Bolt sheared off (The invented owner, in person)", said, StringComparison.Ordinal);
        Assert.Contains("Old parts: go back to the customer.", said, StringComparison.Ordinal);
        Assert.Contains("Advised, and not wanted now: The lower diaphragm.", said, StringComparison.Ordinal);
    }

    public static TheoryData<string, HalfWay> Currencies => new() { { "EUR", HalfWay.Up }, { "JPY", HalfWay.Up }, { "KWD", HalfWay.Even } };

    [Theory]
    [MemberData(nameof(Currencies))]
    public void Lines_taxes_and_totals_are_the_ledgers_and_add_up(string code, HalfWay half)
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price(code, half, 3.25m)));
        var price = bench.Job.Standing.LatestPrice!.Price;
        foreach (var (kind, heading) in new[] { (PaperKind.Estimate, "What it will cost"), (PaperKind.Invoice, "What it costs") })
        {
            var paper = Read.Json(new PaperSource(bench.Job).Make(kind));
            var lines = Read.Rows(paper, heading).Where(cells => cells[0]!["line"] is not null).ToList();
            Assert.Equal(
                price.Lines.Select(line => (line.Text, line.Quantity, line.Unit, line.UnitPrice, line.DiscountPercent, line.Amount.Amount)),
                lines.Select(cells => ((string)cells[0]!["line"]!, (decimal)cells[1]!["quantity"]!, (string)cells[1]!["unit"]!, (decimal)cells[2]![$"unit_price_{code}"]!, (decimal)cells[0]!["discount_percent"]!, (decimal)cells[3]![$"amount_{code}"]!)));

            var sums = Sums(paper, "", code);
            var before = lines.Sum(cells => (decimal)cells[3]![$"amount_{code}"]!) + sums.Single(sum => sum.Name == "discount").Amount;
            Assert.Equal(before, sums.Single(sum => sum.Name == "before_tax").Amount);
            Assert.Equal(before + sums.Where(sum => sum.Name == "tax").Sum(sum => sum.Amount), sums.Single(sum => sum.Name == "total").Amount);
            Assert.Equal(price.TaxAmounts.Select(tax => tax.Amount.Amount), sums.Where(sum => sum.Name == "tax").Select(sum => sum.Amount));
            Assert.Equal(price.Total.Amount, sums.Single(sum => sum.Name == "total").Amount);
            // What is printed is the same number, with the decimals the currency has (ISO 4217: EUR 2, JPY 0, KWD 3).
            Assert.All(price.Lines, line => Assert.Contains(lines, cells => (string)cells[3]!["text"]! == line.Amount.With("").TrimEnd()));
            Assert.Contains("of the job is not priced", string.Join(' ', Read.Texts(paper)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Any_price_adds_up_on_paper() => RandomPrices.Any.Sample(draft =>
    {
        if (!Core.Pricing.Price.Of(draft).TryGet(out var price, out _))
        {
            return;
        }

        var bench = Bench.Opened();
        bench.Do(Priced.Of(price));
        var code = price.Currency.Code;
        var paper = Read.Json(new PaperSource(bench.Job).Make(PaperKind.Invoice));
        var sums = Sums(paper, "", code);
        var lines = Read.Rows(paper, "What it costs").Where(cells => cells[0]!["line"] is not null).Sum(cells => (decimal)cells[3]![$"amount_{code}"]!);
        var before = lines + sums.Where(sum => sum.Name == "discount").Sum(sum => sum.Amount);
        Assert.Equal(before, sums.Single(sum => sum.Name == "before_tax").Amount);
        Assert.Equal(before + sums.Where(sum => sum.Name == "tax").Sum(sum => sum.Amount), sums.Single(sum => sum.Name == "total").Amount);
        Assert.Equal(price.Total.Amount, sums.Single(sum => sum.Name == "total").Amount);
        Assert.NotNull(Read.Html(new PaperSource(bench.Job).Make(PaperKind.Estimate)));
    }, iter: 300);

    [Fact]
    public void The_estimate_says_the_hours_what_may_come_on_top_the_deposit_and_how_far_it_may_rise()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m)));
        var price = bench.Job.Standing.LatestPrice!.Price;
        var paper = Read.Json(new PaperSource(bench.Job).Make(PaperKind.Estimate));
        var on = Assert.Single(Read.Rows(paper, "What may come on top"));
        Assert.Equal((0.1, 27.33m), ((double)on[1]!["chance"]!, (decimal)on[2]!["amount_EUR"]!));
        var most = Read.Blocks(paper, "What may come on top").Single(block => block["paragraph"] is not null)["paragraph"]!;
        Assert.Equal((price.Allowance!.Expected(HalfWay.Up).Amount, price.Allowance.Most.Amount), ((decimal)most["expected_EUR"]!, (decimal)most["most_EUR"]!));
        var items = Read.List(paper, "");
        Assert.Equal((3.25m, 2.9m, 0.9), ((decimal)items[0]["hours"]!, (decimal)items[0]["hours_p50"]!, (double)items[0]["chance"]!));
        Assert.Equal(price.Deposit.Amount, (decimal)items[1]["deposit_EUR"]!);
        var consent = Read.Blocks(paper, "Consent").First()["paragraph"]!;
        Assert.Equal((price.Total.Amount, price.Ceiling.Amount), ((decimal)consent["total_EUR"]!, (decimal)consent["ceiling_EUR"]!));
        Assert.Contains(Read.Blocks(paper, "Consent"), block => (string?)block["caution"]?["text"] == PriceTerms.LimitCaution);
    }

    [Fact]
    public void A_price_that_changed_stands_beside_the_one_that_was_agreed_to()
    {
        var bench = Changed();
        var (agreed, latest) = (bench.Job.Standing.AgreedPrice!.Price!.Price, bench.Job.Standing.LatestPrice!.Price);
        Assert.NotEqual(agreed.Total, latest.Total);
        foreach (var kind in new[] { PaperKind.Estimate, PaperKind.Invoice })
        {
            var paper = Read.Json(new PaperSource(bench.Job).Make(kind));
            var change = Sums(paper, "Against what was agreed", "EUR");
            Assert.Equal([agreed.Total.Amount, latest.Total.Amount, (latest.Total - agreed.Total).Amount], change.Select(sum => sum.Amount));
            var texts = string.Join('\n', Read.Texts(paper));
            Assert.Contains("Why: The regulator is worn too", texts, StringComparison.Ordinal);
            Assert.Contains(bench.Job.Standing.OverAgreed!, texts, StringComparison.Ordinal);
        }

        var record = Read.Json(new PaperSource(bench.Job).Make(PaperKind.Record));
        Assert.Equal(agreed.Total.Amount, (decimal)Read.Rows(record, "Price, and the yes to it")[1][3]!["total_EUR"]!);
    }

    [Fact]
    public void The_record_says_what_was_worked_beside_what_was_charged_and_what_was_learned()
    {
        var bench = Changed();
        foreach (var (move, target) in new[] { (Move.SupplySafe, "line-pressure"), (Move.JointUndone, "shield-knobs"), (Move.PartOff, "side-shield"), (Move.JointUndone, "suction-hose") })
        {
            bench.Do(new Moved(move, target));
        }

        bench.Do(new Learned("Take the long socket", "head-bolts"));
        var record = Read.Json(new PaperSource(bench.Job).Make(PaperKind.Record));
        // Two minutes lie between any two entries of the bench.
        Assert.Equal(6m, (decimal)Read.Fact(record, "Worked")["worked_min"]!, 1);
        Assert.Equal(bench.Job.Standing.AgreedPrice!.Price!.Price.Hours!.AtChance, (decimal)Read.Fact(record, "Charged")["charged_h"]!);
        Assert.Equal("Upper head to the pump body: Take the long socket", (string)Read.List(record, "For the next time").Single()["text"]!);
        Assert.Contains("Take the long socket", string.Join('\n', Read.Texts(record)), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_paid_and_what_is_left_are_the_payments()
    {
        var bench = Changed();
        bench.Do(new Paid(Money.Of(100m, Currency.Of("EUR").Value!), PaidWay.Card, "deposit"));
        bench.Do(new Paid(Money.Of(50.5m, Currency.Of("EUR").Value!), PaidWay.Cash, "the rest in part"));
        // The latest price lies over what was agreed: until somebody says yes to it, what was agreed is owed.
        var standing = bench.Job.Standing;
        Assert.NotNull(standing.OverAgreed);
        var rows = Rows();
        Assert.Equal([-100m, -50.5m], rows.Where(row => row.Name == "paid").Select(row => row.Amount));
        Assert.Equal(standing.AgreedPrice!.Price!.Price.Total.Amount - 150.5m, rows.Single(row => row.Name == "left").Amount);
        bench.Do(new Agreed("The invented owner", "by telephone", "That too") { Price = AgreedPrice.To(standing.LatestPrice!) });
        Assert.Equal(standing.LatestPrice!.Price.Total.Amount - 150.5m, Rows().Single(row => row.Name == "left").Amount);

        List<(string Name, decimal Amount)> Rows() => [.. Sums(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Invoice)), "Paid, and left to pay", "EUR")];
    }

    [Fact]
    public void More_paid_than_asked_is_to_be_paid_back()
    {
        var bench = Changed();
        bench.Do(new Paid(Money.Of(100_000m, Currency.Of("EUR").Value!), PaidWay.Transfer, "the invoice"));
        var text = PaperHtml.Write(new PaperSource(bench.Job).Make(PaperKind.Invoice));
        Assert.Contains("To be paid back", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Left to pay", text.Replace("Paid, and left to pay", ""), StringComparison.Ordinal);
    }

    [Fact]
    public void An_agreed_price_asks_for_no_second_signature_and_a_new_one_does()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m)));
        Assert.Contains("Signature", PaperHtml.Write(new PaperSource(bench.Job).Make(PaperKind.Estimate)), StringComparison.Ordinal);
        bench.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!) });
        var page = PaperHtml.Write(new PaperSource(bench.Job).Make(PaperKind.Estimate));
        Assert.DoesNotContain("Signature", page, StringComparison.Ordinal);
        Assert.Contains("The invented owner said yes to this, in person.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_price_the_papers_say_so() => Assert.All(
        [PaperKind.Estimate, PaperKind.Invoice],
        kind => Assert.Contains("No price is on record for this job.", PaperHtml.Write(new PaperSource(Bench.Opened().Job).Make(kind)), StringComparison.Ordinal));

    [Fact]
    public void A_yes_is_asked_for_only_to_a_price_that_all_of_the_work_is_in()
    {
        var bench = Bench.Opened();
        Assert.Null(ConsentForm.For(bench.Job.Standing));
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m)));
        Assert.NotNull(ConsentForm.For(bench.Job.Standing));
        bench.Do(new GoalAdded(["pump"], []));
        Assert.Null(ConsentForm.For(bench.Job.Standing));
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 7.75m), "The pump is worn too"));
        Assert.NotNull(ConsentForm.For(bench.Job.Standing));
    }

    [Fact]
    public void The_workshop_stands_on_top_as_its_terms_have_it()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m).With(draft => draft with { Payment = "In cash or by card." }).Value!));
        var terms = new PriceTerms(new Workshop("Invented Workshop <&>", ["Nowhere Lane 1", "0000 Notown"]), Currency.Of("EUR").Value!, 82) { Payment = "Said since: by transfer." };
        // The estimate says it as it was then; paid is by what holds today.
        var estimate = new PaperSource(bench.Job) { Terms = terms }.Make(PaperKind.Estimate);
        Assert.Contains("In cash or by card.", Read.Html(estimate).Value, StringComparison.Ordinal);
        Assert.DoesNotContain(terms.Payment, Read.Html(estimate).Value, StringComparison.Ordinal);
        var paper = new PaperSource(bench.Job) { Terms = terms }.Make(PaperKind.Invoice);
        Assert.Equal("Invented Workshop <&>\nNowhere Lane 1\n0000 Notown", (string)Read.Fact(Read.Json(paper), "From")["text"]!);
        Assert.Contains(terms.Payment, Read.Html(paper).Value, StringComparison.Ordinal);
    }

    /// <summary>Rates may be made up for trying out while the machine is not: then only what has a price is.</summary>
    [Fact]
    public void Invented_rates_make_no_other_paper_invented()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m)));
        var own = Job.From(OperationNet.From(bench.Job.Standing.Net.Map with { Invented = false }), bench.Job.Entries);
        var terms = new PriceTerms(new Workshop("Invented Workshop", []), Currency.Of("EUR").Value!, 82) { Invented = true };
        Assert.All(Enum.GetValues<PaperKind>(), kind =>
            Assert.Equal(kind is PaperKind.Estimate or PaperKind.Invoice ? "Invented: the rates and prices on this paper." : null, new PaperSource(own) { Terms = terms }.Make(kind).Invented));
    }

    /// <summary>Agreed to, and then made again, beyond what may come on top.</summary>
    public static Bench Changed()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 3.25m)));
        bench.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!), OldPartsBack = true, Declined = ["The lower diaphragm"] });
        bench.Do(Priced.Of(Price("EUR", HalfWay.Up, 7.75m), "The regulator is worn too"));
        return bench;
    }

    internal static Price Price(string code, HalfWay half, decimal hours)
    {
        var currency = Currency.Of(code).Value!;
        var unit = currency.Smallest;
        PriceLine Line(LineGroup group, string text, decimal quantity, string unitName, decimal each, string[] taxes, decimal off = 0) =>
            PriceLine.Of(currency, half, group, text, quantity, unitName, each, taxes, off).Value!;
        return Core.Pricing.Price.Of(new PriceDraft(currency, Rounding.Usual with { Half = half },
        [
            Line(LineGroup.Labour, "Labour: Upper diaphragm", hours, "h", 82, ["vat", "county"]),
            Line(LineGroup.Parts, "Upper diaphragm", 1, "", 3795 * unit, ["vat"], 7.5m),
            Line(LineGroup.Renewals, "Valve seals <of the upper head>", 2, "", 333 * unit, ["vat"]),
            Line(LineGroup.Fluids, "Pump oil, 1 L", 2, "", 1079 * unit, ["vat"]),
            Line(LineGroup.Sundries, "Sundries, 3 % of labour", 1, "", 799 * unit, []),
        ])
        {
            Taxes = [new Tax("vat", "Value added tax", 19), new Tax("county", "County tax", 1.25m)],
            Discount = new Discount("For the long wait", Money.Of(1001 * unit, currency)),
            Allowance = new Allowance([new Trouble("Diaphragm to its piston: its head rounds off", 0.1, 20, Money.Rounded(27.333m, currency, half))], ["vat"]),
            Hours = new Hours(hours - 0.35m, 0.9, hours),
            Unpriced = [new Unpriced("Worm-drive clamp, which for the rest of the job is not priced", 1, "")],
            Deposit = Money.Of(5000 * unit, currency),
            Limit = Portion.OfPercent(10),
        }).Value!;
    }

    private static List<(string Name, decimal Amount)> Sums(JsonNode paper, string heading, string code) =>
        [.. from cells in Read.Rows(paper, heading)
            where cells[0]!["sum"] is not null
            select ((string)cells[0]!["sum"]!, (decimal)cells[1]![$"amount_{code}"]!)];
}
