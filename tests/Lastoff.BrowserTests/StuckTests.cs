using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

public class StuckTests
{
    [Fact]
    public async Task A_stuck_joint_is_recorded_by_thumb_and_the_change_of_plan_is_told_once()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.At("different").ClickAsync();
        await bay.At("stuck-joint").SelectOptionAsync("head-bolts");
        foreach (var hook in new[] { "stuck-20", "stuck-this-way", "stuck-closed" })
        {
            Assert.True((await bay.At(hook).BoundingBoxAsync())!.Height >= 60, hook);
        }

        await bay.At("stuck-text").FillAsync("rounded off");
        await bay.At("stuck-this-way").ClickAsync();
        await Expect(bay.At("plan-change")).ToContainTextAsync("“Upper head to the pump body” cannot be undone on the right with ");
        await Expect(bay.At("plan-change")).ToContainTextAsync("still to do becomes");

        await bay.At("plan-change-seen").ClickAsync();
        await Expect(bay.At("plan-change")).ToHaveCountAsync(0);
        await bay.DoIt((await bay.Asked())!.Value);
        await Expect(bay.At("plan-change")).ToHaveCountAsync(0);

        // With every way closed there is no plan; the screen says which joint it is.
        await bay.At("different").ClickAsync();
        await bay.At("stuck-joint").SelectOptionAsync("head-bolts");
        await bay.At("stuck-closed").ClickAsync();
        await Expect(bay.Page.Locator("main")).ToContainTextAsync("“Upper head to the pump body” cannot be undone, as was found, and no other way leads to “Upper diaphragm”");
        await bay.At("different").ClickAsync();
        await bay.At("stuck-joint").SelectOptionAsync("head-bolts");
        await bay.At("stuck-40").ClickAsync();
        await Expect(bay.At("step")).ToBeVisibleAsync();

        // One that came out in the end is told in one, with its tray, and the plan leads on as it did.
        var asked = await bay.ToFasteners();
        await bay.At("different").ClickAsync();
        await Expect(bay.At("stuck-joint")).ToHaveValueAsync(asked.Target);
        await bay.At("stuck-out").CheckAsync();
        await bay.At("different-sheet").Locator("[data-test=tray-2]").ClickAsync();
        await bay.At("stuck-20").ClickAsync();
        await bay.UntilPast(asked);
        await Expect(bay.At("plan-change")).ToHaveCountAsync(0);
        await bay.At("tab-account").ClickAsync();
        await Expect(bay.At("account").First).ToContainTextAsync("tray 2");
    }

    [Fact]
    public async Task What_came_out_in_the_time_that_was_guessed_takes_that_time_and_no_more()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        var asked = await bay.ToFasteners();
        await bay.At("different").ClickAsync();
        await Expect(bay.At("stuck-no-longer")).ToHaveCountAsync(0);
        await bay.At("stuck-20").ClickAsync();
        await bay.At("plan-change-seen").ClickAsync();
        await bay.At("different").ClickAsync();
        await bay.At("stuck-joint").SelectOptionAsync(asked.Target);
        await Expect(bay.At("stuck-had")).ToContainTextAsync("20 min more are on record");
        await bay.At("stuck-out").CheckAsync();
        await Soundness.IsSound(bay, "a joint that came out after all");
        // Where nobody said into which tray, nothing is recorded yet.
        if (await bay.At("different-sheet").Locator(Bay.NoTraySaid).CountAsync() > 0)
        {
            await bay.At("stuck-no-longer").ClickAsync();
            await Expect(bay.At("stuck-which-tray")).ToBeInViewportAsync();
        }

        await bay.At("different-sheet").Locator("[data-test=tray-2]").ClickAsync();
        await bay.At("stuck-no-longer").ClickAsync();
        await Expect(bay.At("different-sheet")).ToHaveCountAsync(0);
        await bay.At("tab-account").ClickAsync();
        await Expect(bay.At("account").First).ToContainTextAsync("tray 2");
        var ledger = await WholeJobTests.Export(bay);
        Assert.Contains("\"extra_minutes\":20", ledger, StringComparison.Ordinal);
        Assert.DoesNotContain("\"extra_minutes\":40", ledger, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_broke_is_on_the_list_and_stands_at_its_joint_on_the_way_home()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.At("different").ClickAsync();
        await bay.At("stuck-joint").SelectOptionAsync("diaphragm-screw");
        await bay.At("stuck-text").FillAsync("head sheared off");
        await bay.At("stuck-broke").CheckAsync();
        await Soundness.IsSound(bay, "a joint that broke");
        await bay.At("stuck-20").ClickAsync();
        await Expect(bay.At("plan-change")).ToContainTextAsync("“Diaphragm to its piston” broke, 20 min more (head sheared off).");
        await bay.At("plan-change-seen").ClickAsync();
        while ((await bay.Asked())!.Value is var asked && asked != ("Renew", "diaphragm-screw.new"))
        {
            await bay.DoIt(asked);
        }

        await Expect(bay.At("found-there")).ToContainTextAsync("head sheared off");
        await Expect(bay.At("new-piece")).ToContainTextAsync("does not go back in");
        await Soundness.IsSound(bay, "the new piece for what broke");
        await bay.At("done").ClickAsync();
        while ((await bay.Asked())!.Value is var asked && asked != ("Make", "diaphragm-screw"))
        {
            await bay.DoIt(asked);
        }

        await Expect(bay.At("found-there")).ToContainTextAsync("head sheared off");
        await Expect(bay.At("new-piece")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task What_fell_in_stands_first_until_it_is_found()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.At("different").ClickAsync();
        await bay.At("lost-what").FillAsync("M6 washer");
        await Soundness.IsSound(bay, "something is different");
        await bay.At("lost-record").ClickAsync();
        await Expect(bay.Page.Locator(".lost-form .fault")).ToHaveTextAsync("Write down what it fell into, or where to.");
        await bay.At("lost-where").FillAsync("crankcase");
        await bay.At("lost-record").ClickAsync();
        await Expect(bay.At("open-strip")).ToContainTextAsync("“M6 washer” is not found; it fell here: “crankcase”.");

        // Nothing closes over it unseen.
        while ((await bay.Asked())!.Value.Kind is var kind && kind is not ("Cover" or "Fit" or "BringHome" or "Make" or "Uncover"))
        {
            await Expect(bay.At("lost")).ToHaveCountAsync(0);
            await bay.DoIt((await bay.Asked())!.Value);
        }

        await Expect(bay.At("lost")).ToContainTextAsync("M6 washer");
        await Soundness.IsSound(bay, "now with something lost inside");
        // One tap has it, and where it was is said after.
        await bay.At("to-found").ClickAsync();
        await Expect(bay.At("lost")).ToHaveCountAsync(0);
        await Expect(bay.At("had")).ToContainTextAsync("“M6 washer” is found.");
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("lost")).ToContainTextAsync("M6 washer");
        await Expect(bay.At("had")).ToHaveCountAsync(0);
        await bay.At("open-strip").ClickAsync();
        await bay.At("found-how").FillAsync("By the drain, whole");
        await Soundness.IsSound(bay, "still open with something lost inside");
        await bay.At("found").ClickAsync();
        await Expect(bay.At("found-how")).ToHaveCountAsync(0);
        await bay.At("open-sheet-close").ClickAsync();
        await Expect(bay.At("lost")).ToHaveCountAsync(0);
    }
}
