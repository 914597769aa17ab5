using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>What every screen owes a person with gloves, poor light, or a screen reader.</summary>
public class ScreenTests
{
    // 20 mm at the 96 CSS pixels to the inch that browsers count in.
    private const double GlovePixels = 20 / 25.4 * 96;

    [Theory]
    [InlineData(390, 844)]
    [InlineData(1440, 900)]
    public async Task Screens_have_no_faults_that_axe_finds_and_do_not_scroll_sideways(int width, int height)
    {
        await using var bay = await Bay.Open(width, height);
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await bay.At("person-name").WaitForAsync();
        await IsSound(bay, "who writes");
        await bay.ComeInFirst();
        await IsSound(bay, "jobs");
        await bay.At("open-job").ClickAsync();
        await bay.At("map-light-van").WaitForAsync();
        await IsSound(bay, "open a job");
        await bay.Page.GoBackAsync();
        await bay.OpenWaitingJob("sprayer");
        await IsSound(bay, "now");
        await bay.At("open-strip").ClickAsync();
        await IsSound(bay, "still open");
        await bay.At("open-sheet-close").ClickAsync();
        // At the desk all three stand side by side.
        if (await bay.At("tab-depth").IsVisibleAsync())
        {
            await bay.At("tab-depth").ClickAsync();
            await IsSound(bay, "depth");
            await bay.At("tab-account").ClickAsync();
            await IsSound(bay, "out and home");
        }
    }

    [Fact]
    public async Task The_act_of_the_floor_is_big_enough_for_gloves()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("light van");
        var done = (await bay.At("done").BoundingBoxAsync())!;
        Assert.True(done.Height >= GlovePixels && done.Width >= GlovePixels, $"{done.Width} x {done.Height}");
        foreach (var hook in new[] { "undo", "different", "open-strip", "tab-now", "tab-depth", "tab-account" })
        {
            var box = (await bay.At(hook).BoundingBoxAsync())!;
            Assert.True(box.Height >= 44 && box.Width >= 44, $"{hook}: {box.Width} x {box.Height}");
        }
    }

    [Fact]
    public async Task A_handover_with_something_open_is_refused_until_somebody_answers_for_it()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.DoIt((await bay.Asked())!.Value);
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("open-list")).ToContainTextAsync("“Pressure in the spray line” is not back on.");
        await bay.At("hand-over-to").FillAsync("The invented owner");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.At("hand-over-fault")).ToContainTextAsync("Not ready to hand over");

        await bay.At("override").ClickAsync();
        await bay.At("override-by").FillAsync("The invented foreman");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.At("hand-over-fault")).ToContainTextAsync("say why");
        await bay.At("override-reason").FillAsync("Towed to its maker as it is");
        await bay.At("hand-over").ClickAsync();
        // It took, and the sheet closes by itself.
        await Expect(bay.At("open-sheet")).ToHaveCountAsync(0);
        await Expect(bay.Page.Locator("main")).ToContainTextAsync("The invented foreman answers for it: Towed to its maker as it is");
    }
}
