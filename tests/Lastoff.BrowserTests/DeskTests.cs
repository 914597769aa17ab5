using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>What the owner reads at the desk: what each job waits for, a job's plan with all that can be asked of it, and the backups. On a large screen and on a phone.</summary>
public class DeskTests
{
    [Theory]
    [InlineData(1440, 900)]
    [InlineData(390, 844)]
    public async Task The_plan_says_its_reasons_its_other_ways_what_else_and_what_two_make_of_it(int width, int height)
    {
        await using var bay = await Bay.Open(width, height);
        await bay.ComeIn();
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "van" }).First.ClickAsync();
        if (width < 600)
        {
            await bay.At("tab-depth").ClickAsync();
        }

        await bay.At("to-plan").ClickAsync();
        await Expect(bay.At("plan-takes")).ToContainTextAsync("Nine times in ten");
        await Expect(bay.At("way-out").Locator("li").First).ToContainTextAsync(".");
        await Expect(bay.At("two-hands")).ToContainTextAsync("Two people", new LocatorAssertionsToContainTextOptions { Timeout = 180_000 });

        // Of each place where the map offers several ways one is taken, and each other has its minutes, or none goes that way.
        var forks = bay.At("fork");
        Assert.True(await forks.CountAsync() > 0);
        foreach (var fork in await forks.AllAsync())
        {
            await Expect(fork.Locator(".fork-more").Filter(new LocatorFilterOptions { HasText = "taken in this plan" })).ToHaveCountAsync(1);
            foreach (var other in await fork.Locator("li:not(.taken) .fork-more").AllInnerTextsAsync())
            {
                Assert.Matches("more|less|no plan", other);
            }
        }

        var saved = (await bay.At("extras").Locator("tbody tr td:last-child").AllInnerTextsAsync()).Select(int.Parse).ToList();
        Assert.Equal(saved.OrderDescending(), saved);
        await Expect(bay.At("hands-bars").Locator("rect.work").First).ToBeVisibleAsync();
        await IsSound(bay, "plan");
        await bay.Unfold("who-when");
        await Expect(bay.At("who-when").Locator("tbody tr").First).ToBeVisibleAsync();
        await IsSound(bay, "plan who when");
        // The keyboard comes to everything: the way on from the heading leads to the parts of the page.
        await bay.Page.Locator(".on-page a").Last.FocusAsync();
        await bay.Page.Keyboard.PressAsync("Enter");
        await Expect(bay.Page.Locator("#two")).ToBeInViewportAsync();
    }
}
