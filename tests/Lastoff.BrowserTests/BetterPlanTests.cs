using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>The first plan is the phone's; the server's longer search comes in after it, and never under the mechanic's hands.</summary>
public class BetterPlanTests
{
    [Fact]
    public async Task The_first_plan_says_what_it_may_lack_and_the_server_s_plan_takes_its_place_but_not_under_the_hands()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.SetOffline(true);
        await bay.OpenWaitingJob("light van");
        await Expect(bay.At("proof")).ToContainTextAsync("could still be saved.");
        var (first, inHand) = (await bay.At("proof").InnerTextAsync(), await bay.Asked());

        await bay.SetOffline(false);
        await Expect(bay.At("proof")).ToContainTextAsync("A shorter way was found; it comes in after this step.", new() { Timeout = 120_000 });
        Assert.Equal(inHand, await bay.Asked());

        await bay.DoIt(inHand!.Value);
        await Expect(bay.At("proof")).ToContainTextAsync("could still be saved.");
        Assert.NotEqual(first, await bay.At("proof").InnerTextAsync());
    }
}
