using System.Text.Json.Nodes;
using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>The price list on a phone, and the lines of a price before it is offered. With LASTOFF_AT_THE_DESK set, on a large screen.</summary>
public class PricesTests
{
    [Fact]
    public async Task Prices_are_corrected_out_of_reach_and_two_devices_both_hold()
    {
        await using var bay = await Open();
        await bay.ComeIn();
        await bay.At("to-prices").ClickAsync();
        await Expect(Item(bay, "Pump")).ToContainTextAsync("480.00");
        await IsSound(bay, "prices");
        await bay.SetOffline(true);

        // What is wrong is said at the field, and what was typed stays.
        await bay.At("item-new").ClickAsync();
        await bay.At("item-name").FillAsync("Pump");
        await bay.At("item-price").FillAsync("1,250");
        await bay.At("item-keep").ClickAsync();
        await Expect(bay.At("item-name-told")).ToHaveTextAsync("“Pump” is on the list already; correct it there.");
        await Expect(bay.At("item-price-told")).ToContainTextAsync("such as 12.50 or 1250.00");
        await IsSound(bay, "prices wrong");
        await bay.At("item-name").FillAsync("Bay hose clamp");
        await bay.At("item-price").FillAsync("1,25");
        await bay.At("item-price").PressAsync("Enter");
        await Expect(bay.At("prices-told")).ToHaveTextAsync("“Bay hose clamp” is kept: 1.25.");

        await Item(bay, "Pump oil").Locator("[data-test=price-item]").ClickAsync();
        await bay.At("item-more").ClickAsync();
        await bay.At("item-size-2").FillAsync("20");
        await bay.At("item-price-2").FillAsync("120");
        await IsSound(bay, "prices containers");
        await bay.At("item-keep").ClickAsync();
        await Expect(Item(bay, "Pump oil")).ToContainTextAsync("120.00 for 20 L");
        // Its form has gone: what lies below has moved up and stands still.
        await Expect(bay.At("item-keep")).ToHaveCountAsync(0);
        await Item(bay, "Throttle body seal").Locator("[data-test=price-item]").ClickAsync();
        await bay.At("item-off").ClickAsync();
        await Expect(Item(bay, "Throttle body seal")).ToHaveCountAsync(0);
        await Expect(bay.At("sync")).ToContainTextAsync("3 to send");

        // What waits outlasts the page; meanwhile another device corrects another price.
        await bay.Page.ReloadAsync();
        await Expect(Item(bay, "Bay hose clamp")).ToContainTextAsync("1.25");
        await Expect(Item(bay, "Throttle body seal")).ToHaveCountAsync(0);
        await using var other = await bay.Beside(1440, 900);
        await other.ComeIn();
        await other.At("to-prices").ClickAsync();
        await other.At("prices-search").FillAsync("Pump");
        await Expect(other.Page.Locator("[data-test=prices] > li")).ToHaveCountAsync(3);
        await Item(other, "Pump").Locator("[data-test=price-item]").ClickAsync();
        await other.At("item-price").FillAsync("499");
        await other.At("item-core").FillAsync("75");
        await IsSound(other, "prices at the desk");
        await other.At("item-keep").ClickAsync();
        // What it shows as sent may be what was sent before.
        while (!(await bay.Server.Client.GetStringAsync("/api/settings/prices", TestContext.Current.CancellationToken)).Contains("499", StringComparison.Ordinal))
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        await bay.SetOffline(false);
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await Expect(Item(bay, "Pump")).ToContainTextAsync("499.00");
        var items = JsonNode.Parse(await bay.Server.Client.GetStringAsync("/api/settings/prices", TestContext.Current.CancellationToken))!["items"]!.AsArray().ToDictionary(item => (string)item!["item"]!);
        Assert.Equal(("1.25", "499", "75.00", 3), ((string)items["Bay hose clamp"]!["price"]!, (string)items["Pump"]!["price"]!, (string)items["Pump"]!["core_charge"]!, items["Pump oil"]!["containers"]!.AsArray().Count));
        Assert.DoesNotContain("Throttle body seal", items.Keys);
    }

    [Fact]
    public async Task A_price_is_corrected_line_by_line_before_it_is_offered()
    {
        await using var bay = await Open();
        await bay.ComeIn();
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-total")).ToContainTextAsync("EUR");

        // The price of a thing of the list, with the workshop's 10 %.
        await Line(bay, "Upper diaphragm").ClickAsync();
        await bay.At("item-price").FillAsync("40");
        await IsSound(bay, "price line");
        await bay.At("item-keep").ClickAsync();
        await Expect(bay.At("price-lines")).ToContainTextAsync("44.00");
        await Expect(bay.At("item-price")).ToHaveCountAsync(0);

        await Line(bay, "Pump oil").ClickAsync();
        await bay.At("line-out").ClickAsync();
        await Expect(bay.At("line-why-told")).ToContainTextAsync("Write why it is left out");
        await bay.At("line-why").FillAsync("the owner has some");
        await bay.At("line-out").ClickAsync();
        await Expect(Line(bay, "Pump oil")).ToContainTextAsync("left out: the owner has some");

        await bay.At("hand-add").ClickAsync();
        await bay.At("hand-text").FillAsync("Way to the orchard");
        await bay.At("hand-price").FillAsync("-3");
        await bay.At("hand-keep").ClickAsync();
        await Expect(bay.At("hand-price-told")).ToContainTextAsync("The price is -3; give 0 or more");
        await IsSound(bay, "price hand wrong");
        await bay.At("hand-quantity").FillAsync("2");
        await bay.At("hand-price").FillAsync("12,50");
        await bay.At("hand-keep").ClickAsync();
        await Expect(Line(bay, "Way to the orchard")).ToContainTextAsync("2 h × 12.5");
        await IsSound(bay, "price by hand");
        var offered = (await bay.At("price-total").TextContentAsync())!;
        await bay.At("price-offer").ClickAsync();
        await Expect(bay.At("price-sheet")).ToHaveCountAsync(0);
        await Expect(bay.At("agree-price")).ToContainTextAsync(offered);

        // The next price begins with what was written into this one.
        await bay.Page.ReloadAsync();
        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-total")).ToHaveTextAsync(offered);
        await Line(bay, "Pump oil").ClickAsync();
        await bay.At("line-back").ClickAsync();
        await Expect(Line(bay, "Pump oil")).Not.ToContainTextAsync("left out");
        await Line(bay, "Way to the orchard").ClickAsync();
        await bay.At("own-out").ClickAsync();
        await Expect(Line(bay, "Way to the orchard")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Without_a_map_the_price_is_written_in_by_hand_and_agreed()
    {
        await using var bay = await Open();
        await bay.ComeIn();
        await bay.OpenJobWithoutMap();
        await bay.At("tab-account").ClickAsync();
        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-offer")).ToBeDisabledAsync();
        await bay.At("hand-add").ClickAsync();
        await bay.At("hand-text").FillAsync("The agreed work");
        await bay.At("hand-price").FillAsync("100");
        await bay.At("hand-keep").ClickAsync();
        await Expect(Line(bay, "The agreed work")).ToBeVisibleAsync();
        await IsSound(bay, "price without a map");
        var offered = (await bay.At("price-total").TextContentAsync())!;
        await bay.At("price-offer").ClickAsync();
        // A price that waits leads to its yes.
        await bay.At("tab-now").ClickAsync();
        await Expect(bay.At("agree-price")).ToContainTextAsync(offered);
    }

    private static Task<Bay> Open() => Environment.GetEnvironmentVariable("LASTOFF_AT_THE_DESK") is { Length: > 0 } ? Bay.Open(1440, 900) : Bay.Open(390, 844);

    private static ILocator Item(Bay bay, string name) => bay.Page.Locator($"[data-test=prices] > li[data-item='{name}']");

    private static ILocator Line(Bay bay, string key) => bay.Page.Locator($"[data-test=line][data-key='{key}']");
}
