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
        await Expect(bay.At("proof")).ToContainTextAsync("This is the first plan found; one up to ");
        var inHand = await bay.Asked();

        await bay.SetOffline(false);
        await Expect(bay.At("proof")).Not.ToContainTextAsync("first plan", new() { Timeout = 120_000 });
        Assert.Equal(inHand, await bay.Asked());

        await bay.DoIt(inHand!.Value);
        await Expect(bay.At("proof")).ToContainTextAsync("The search stopped at its limit of 200000 states; a plan up to ");
    }
}
