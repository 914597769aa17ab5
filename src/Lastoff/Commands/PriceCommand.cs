using System.CommandLine;
using System.Globalization;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;

namespace Lastoff.Commands;

/// <summary><c>lastoff price MAP --off PART --terms FILE --prices FILE</c>: what a planned job will cost.</summary>
internal static class PriceCommand
{
    private static readonly Argument<string> MapFile = new("MAP") { Description = "A map file, NAME.map.yaml." };
    private static readonly Option<string[]> Off = new("--off") { Description = "A part to take off and renew; may be given several times." };
    private static readonly Option<string[]> Undo = new("--undo") { Description = "A joint to get at; may be given several times." };
    private static readonly Option<string[]> Extra = new("--extra") { Description = "Another part to renew while it is open, shown apart; may be given several times." };
    private static readonly Option<string> Terms = new("--terms") { Description = "A JSON file with the owner's terms: currency, hourly rate, taxes, limit.", Required = true };
    private static readonly Option<string> Prices = new("--prices") { Description = "A JSON file with what things cost.", Required = true };
    private static readonly Option<string?> Chance = new("--chance") { Description = "How often the hours are to be enough, 0.5 to 0.95, in the place of what the terms say." };

    public static Command Build()
    {
        var command = new Command("price", "Work out what a job will cost: labour, parts, renewals, fluids, taxes, and what may come on top.") { MapFile, Off, Undo, Extra, Terms, Prices, Chance, Output.Json };
        command.SetAction((parsed, stop) => Task.FromResult(Show(parsed, stop)));
        return command;
    }

    private static int Show(ParseResult parsed, CancellationToken stop)
    {
        var path = parsed.GetValue(MapFile)!;
        var net = InputFile.Map(path);
        var (termsPath, pricesPath) = (parsed.GetValue(Terms)!, parsed.GetValue(Prices)!);
        var terms = TermsJson.Read(InputFile.Prices(termsPath)).Or(sentence => throw new Failure($"{termsPath}: {sentence}"));
        var list = PriceListJson.Read(InputFile.Prices(pricesPath)).Or(sentence => throw new Failure($"{pricesPath}: {sentence}"));
        terms = parsed.GetValue(Chance) is { } text ? terms with { Chance = ChanceOf(text) } : terms;

        var goal = new Goal(parsed.GetValue(Off) ?? [], parsed.GetValue(Undo) ?? []);
        var job = Planned(goal);
        var extra = parsed.GetValue(Extra) is { Length: > 0 } parts ? Besides(parts) : null;
        var price = PriceOfPlan.Of(net, goal, job, extra, terms, list).Or(sentence => throw new Failure($"{pricesPath}: {sentence}"));
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(PriceJson.Write(price));
        }
        else
        {
            Print(net.Map, price, terms);
        }

        return 0;

        PlannedWork Planned(Goal of)
        {
            var result = Planner.Make(net, of, net.Nothing, PlanLimits.Usual, stop);
            var plan = result.Plan ?? throw new Failure($"{path}: {result.Refusal}");
            return new PlannedWork(plan, LabourMinutes.Of(net, plan, terms.Chance));
        }

        ExtraWork Besides(string[] parts)
        {
            var together = Planned(goal with { Off = [.. goal.Off.Union(parts)] });
            var known = Extras.Of(net, goal, net.Nothing, PlanLimits.Quick, stop).Extras!;
            return new ExtraWork(
                [.. parts.Distinct().Select(part => known.FirstOrDefault(extra => extra.Part == part)
                    ?? throw new Failure($"--extra {part}: the job renews that part already; leave one of the two out."))],
                together);
        }
    }

    private static double ChanceOf(string text) => Given.Number("--chance", text) is >= PriceTerms.LeastChance and <= PriceTerms.MostChance and var chance
        ? chance
        : throw new Failure($"--chance {text}: give how often the hours are to be enough, from 0.5 (as often as not) to 0.95.");

    private static void Print(Map map, Price price, PriceTerms terms)
    {
        PlanCommand.Heading(map);
        Console.WriteLine($"{terms.Workshop.Name}{(price.Invented ? " (figures invented)" : "")}");
        foreach (var group in Enum.GetValues<LineGroup>().Where(group => price.LinesOf(group).Count > 0))
        {
            Console.WriteLine();
            Console.WriteLine($"{Name(group),-60}{price.SumOf(group),20}");
            foreach (var line in price.LinesOf(group))
            {
                Console.WriteLine($"  {line.Text}");
                Console.WriteLine($"  {Line(line, price.Currency),-58}{line.Amount,20}");
            }
        }

        Console.WriteLine();
        Sum("Before tax", price.BeforeTax);
        foreach (var tax in price.TaxAmounts)
        {
            Sum(string.Create(CultureInfo.InvariantCulture, $"{tax.Tax.Name}, {tax.Tax.Percent:0.####} % of {tax.Base}"), tax.Amount);
        }

        Sum("Total", price.Total);
        if (price.TotalInCash != price.Total)
        {
            Sum("Total if paid in cash", price.TotalInCash);
        }

        if (!price.Deposit.IsZero)
        {
            Sum("Deposit before the work begins", price.Deposit);
        }

        Notes(price, terms);
    }

    private static void Notes(Price price, PriceTerms terms)
    {
        Console.WriteLine();
        if (price.Hours is { } hours)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Hours: {hours.P50:0.##} as a rule; {hours.AtChance:0.##} are enough {hours.Chance * 100:0.#} times in 100, and are what is charged. {hours.Basis}").TrimEnd());
        }

        if (price.Allowance is { } allowance)
        {
            Console.WriteLine($"May come on top, before tax, and is charged only as far as it happens: {allowance.Expected(price.Rounding.Half)} on average, {allowance.Most} at most.");
            foreach (var trouble in allowance.Troubles)
            {
                Console.WriteLine($"  {trouble.Cost,14}  {new Risk(trouble.Chance, trouble.Minutes, trouble.Text).Odds}: {trouble.Text}");
            }
        }

        if (price.Unpriced.Count > 0)
        {
            Console.WriteLine("Without a price, and not in the total:");
            foreach (var unpriced in price.Unpriced)
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {unpriced.Quantity:0.##} {unpriced.Unit}").TrimEnd() + $"  {unpriced.Text}");
            }
        }

        if (price.Limit is { } limit)
        {
            Console.WriteLine($"Once agreed, no more than {limit} on top ({price.Ceiling} in all) without another yes. {PriceTerms.LimitCaution}");
        }

        if (terms.Payment.Length > 0)
        {
            Console.WriteLine(terms.Payment);
        }
    }

    private static string Line(PriceLine line, Currency currency) => string.Create(CultureInfo.InvariantCulture,
        $"  {line.Quantity:0.######}{(line.Unit.Length > 0 ? $" {line.Unit}" : "")} × {Money.UnitDigits(line.UnitPrice, currency)} {currency}{(line.DiscountPercent > 0 ? $" less {line.DiscountPercent:0.##} %" : "")}");

    private static string Name(LineGroup group) => group switch
    {
        LineGroup.ExtraWork => "Besides, while it is open",
        LineGroup.CoreCharges => "Core charges",
        _ => group.ToString(),
    };

    private static void Sum(string name, Money amount) => Console.WriteLine($"{name,-60}{amount,20}");
}
