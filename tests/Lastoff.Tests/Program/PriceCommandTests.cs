using System.Text.Json.Nodes;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Program;

public sealed class PriceCommandTests : IDisposable
{
    private static readonly string Map = LastoffProgram.Demo("orchard-sprayer-pump.map.yaml");
    private static readonly string[] Demo = [Map, "--off", "upper-diaphragm", "--terms", LastoffProgram.Demo("price-terms.json"), "--prices", LastoffProgram.Demo("price-list.json")];

    private readonly string _folder = Directory.CreateTempSubdirectory("lastoff-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task The_price_of_the_demo_adds_up_and_says_that_it_is_invented()
    {
        var ran = await LastoffProgram.Run(["price", .. Demo, "--extra", "pump", "--json"]);
        Assert.Equal(("", 0), (ran.Error, ran.ExitCode));
        var price = PriceJson.Read(ran.Output).Value!;
        Assert.True(price.Invented);
        Assert.True(price.Total > price.BeforeTax);
        Assert.NotEmpty(price.LinesOf(LineGroup.ExtraWork));
        Assert.Equal((0.9, "Washer of the pressure hose"), (price.Hours!.Chance, price.Unpriced.Single().Text));
    }

    [Fact]
    public async Task A_larger_chance_costs_more_hours()
    {
        var totals = new List<decimal>();
        foreach (var chance in new[] { "0.5", "0.75", "0.95" })
        {
            var ran = await LastoffProgram.Run(["price", .. Demo, "--chance", chance, "--json"]);
            totals.Add(PriceJson.Read(ran.Output).Value!.Hours!.AtChance);
        }

        Assert.Equal(totals.Order(), totals);
        Assert.Equal(3, totals.Distinct().Count());
    }

    [Fact]
    public async Task The_text_names_what_is_not_in_the_total()
    {
        var ran = await LastoffProgram.Run(["price", .. Demo]);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("figures invented", ran.Output);
        Assert.Contains("Without a price, and not in the total:\n  1  Washer of the pressure hose", ran.Output);
        Assert.Contains("May come on top", ran.Output);
        Assert.Contains("local law", ran.Output);
    }

    [Theory]
    [InlineData("\"hourly_rate\": 82.00", "\"hourly_rate\": -1", "hourly_rate is -1 EUR")]
    [InlineData("\"currency\": \"EUR\"", "\"currency\": \"CHF\"", "the terms are in CHF")]
    [InlineData("{\n", "", "goes wrong in line")]
    public async Task Terms_that_cannot_be_used_are_named_with_their_file(string sound, string wrong, string says)
    {
        var text = await File.ReadAllTextAsync(LastoffProgram.Demo("price-terms.json"), TestContext.Current.CancellationToken);
        Assert.Contains(sound, text);
        var path = Path.Combine(_folder, "terms.json");
        await File.WriteAllTextAsync(path, text.Replace(sound, wrong), TestContext.Current.CancellationToken);
        await IsRefused(says, "price", Map, "--off", "upper-diaphragm", "--terms", path, "--prices", LastoffProgram.Demo("price-list.json"));
    }

    [Fact]
    public async Task Options_that_cannot_be_used_are_named()
    {
        await IsRefused("--chance 0.99: give how often", ["price", .. Demo, "--chance", "0.99"]);
        await IsRefused("--extra upper-diaphragm: the job renews that part already", ["price", .. Demo, "--extra", "upper-diaphragm"]);
        await IsRefused("The map has no part “pmp”", ["price", .. Demo, "--extra", "pmp"]);
        await IsRefused("there is no such file", "price", Map, "--off", "pump", "--terms", "no.json", "--prices", "no.json");
        await IsRefused("--terms", "price", Map, "--off", "pump");
    }

    [Fact]
    public async Task The_standing_tells_what_was_agreed_and_paid()
    {
        var ledger = Path.Combine(AppContext.BaseDirectory, "data", "ledgers", "prices.ledger.jsonl");
        var ran = await LastoffProgram.Run("standing", Map, ledger);
        Assert.Contains("The owner agreed to 903.25 EUR (in writing): The pump too.", ran.Output);
        Assert.Contains("Paid for deposit: 60.00 EUR, by card.", ran.Output);
        Assert.Contains("beyond the agreed sum", ran.Output);
        var json = JsonNode.Parse((await LastoffProgram.Run("standing", Map, ledger, "--json")).Output)!;
        Assert.Equal("903.25", (string)json["agreed_price"]!["price"]!["total"]!);
        Assert.Equal(2, json["paid"]!.AsArray().Count);
    }

    [Theory]
    [InlineData("1M8GDM9AXKP042788", true, "X")]
    [InlineData("1M8GDM9A1KP042788", false, "X")]
    [InlineData("1g4ah59h4 5g118341", true, "4")]
    [InlineData("11111111111111111", true, "1")]
    public async Task A_vehicle_identification_number_is_judged_and_never_blocks(string vin, bool valid, string digit)
    {
        var ran = await LastoffProgram.Run("vin", vin, "--json");
        Assert.Equal(("", 0), (ran.Error, ran.ExitCode));
        var json = JsonNode.Parse(ran.Output)!;
        Assert.Equal((valid, digit), ((bool)json["valid"]!, (string)json["check_digit"]!));
        Assert.Equal(0, (await LastoffProgram.Run("vin", vin)).ExitCode);
    }

    [Fact]
    public async Task What_is_no_such_number_is_refused() => await IsRefused("did you mean 1M8GDM9AXKP042788?", "vin", "1M8GDM9AXKPO42788");

    private static async Task IsRefused(string says, params string[] arguments)
    {
        var ran = await LastoffProgram.Run(arguments);
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains(says, ran.Error);
        Assert.Single(ran.Error.TrimEnd().Split('\n'));
        Assert.Equal("", ran.Output);
    }
}
