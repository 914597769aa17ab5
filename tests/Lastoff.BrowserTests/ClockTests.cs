using System.Text.Json.Nodes;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>The app is fetched without time zones and asks the browser for them; the machine's tz database says what they must be.</summary>
public class ClockTests
{
    /// <summary>Half an hour of summer time in the south, summer time on the half hour in the north, and a quarter of an hour without any.</summary>
    [Theory]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("America/St_Johns")]
    [InlineData("Asia/Kathmandu")]
    public async Task An_hour_that_is_agreed_is_that_of_the_wall_in_summer_and_in_winter(string zone)
    {
        var there = TimeZoneInfo.FindSystemTimeZoneById(zone);
        await using var bay = await Bay.Open(390, 844, zone);
        await bay.ComeIn();
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await bay.At("file-days").ClickAsync();
        List<DateTime> agreed = [new(2031, 1, 15, 9, 30, 0), new(2031, 7, 15, 0, 10, 0)];
        foreach (var day in agreed)
        {
            await bay.At("day-what").FillAsync("It comes in");
            await bay.At("day-on").FillAsync($"{day:yyyy-MM-dd}");
            await bay.At("day-at").FillAsync($"{day:HH:mm}");
            await bay.At("day-set").ClickAsync();
            await Expect(bay.At("days")).ToContainTextAsync($"15 {day:MMM} 2031, {day:HH:mm} It comes in");
        }

        await bay.At("days-sheet-close").ClickAsync();
        await bay.At("tab-account").ClickAsync();
        var entries = (await WholeJobTests.Export(bay)).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!).ToList();
        Assert.Equal(
            agreed.Select(day => new DateTimeOffset(day, there.GetUtcOffset(day)).ToString("O")),
            entries.Select(entry => entry["data"]?["on"]).OfType<JsonNode>().Select(on => DateTimeOffset.Parse((string)on!).ToString("O")));
        var written = DateTimeOffset.Parse((string)entries[^1]["at"]!);
        Assert.Equal(there.GetUtcOffset(written), written.Offset);
    }
}
