using Lastoff.Core.Planning;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>No screen of the floor leaves the hand without a way on.</summary>
public class WayOnTests
{
    [Fact]
    public async Task What_is_still_open_leads_to_where_it_is_settled()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await bay.At("tab-depth").ClickAsync();
        await Follow(bay, "Nobody's yes to this work is on record.");
        await Expect(bay.Page.Locator(".job")).ToHaveAttributeAsync("data-tab", "now");
        await Expect(bay.At("act-heading")).ToBeFocusedAsync();

        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree").ClickAsync();
        while (await bay.Asked() is { } asked && asked != ("TakeOff", "upper-head"))
        {
            if (asked == ("Undo", "regulator-bolts"))
            {
                await bay.At("tray-2").ClickAsync();
            }

            await bay.DoIt(asked);
        }

        // What has a row among all that left is marked there, and what lies in a tray stands in the tray map.
        await Follow(bay, "“Side shield” is off.");
        await Expect(bay.Page.Locator(".job")).ToHaveAttributeAsync("data-tab", "account");
        await Expect(bay.Page.Locator("#out-side-shield")).ToBeFocusedAsync();
        await Expect(bay.Page.Locator("tr.asked")).ToHaveCountAsync(1);
        await Follow(bay, "is not done up.", tray: true);
        await Expect(bay.Page.Locator(".tray.asked dt")).ToHaveTextAsync("Tray 2");
        await Expect(bay.Page.Locator("#trays-title")).ToBeFocusedAsync();
        await Soundness.IsSound(bay, "out and home with a tray asked for");

        await bay.At("open-strip").ClickAsync();
        await Soundness.IsSound(bay, "still open with its ways");
        // What nothing has been done about yet, and cannot be now, is told and leads nowhere.
        await Expect(bay.At("open-list").Locator("li", new LocatorLocatorOptions { HasText = "has not been proved" }).First.Locator("button")).ToHaveCountAsync(0);
        await bay.At("open-sheet-close").ClickAsync();

        // The part in hand leads to its step.
        await bay.At("tab-now").ClickAsync();
        await bay.DoIt(("TakeOff", "upper-head"));
        // While the yes to more work waits, what is agreed goes on.
        await bay.At("different").ClickAsync();
        await bay.At("own-work").FillAsync("New seal in the pump shaft");
        await bay.At("own-work-take").ClickAsync();
        await bay.At("make-price").WaitForAsync();
        await Soundness.IsSound(bay, "asked for more work half way");
        await bay.At("agree-later").ClickAsync();
        await Expect(bay.Page.Locator(".stage").First).ToHaveTextAsync("Strip, on the way out");
        // Also after a lock: a yes that nobody gave must not lie under the thumb.
        await bay.Page.ReloadAsync();
        await Expect(bay.Page.Locator(".stage").First).ToHaveTextAsync("Strip, on the way out");
        while (await bay.Asked() is { } asked && asked.Kind != "Renew")
        {
            await bay.DoIt(asked);
        }

        await bay.At("tab-depth").ClickAsync();
        await Follow(bay, "is not in yet.", here: true);
        await Expect(bay.Page.Locator(".job")).ToHaveAttributeAsync("data-tab", "now");
        await Expect(bay.At("act-heading")).ToBeFocusedAsync();
        await Expect(bay.At("step")).ToHaveAttributeAsync("data-step", "Renew");
    }

    [Fact]
    public async Task Without_a_map_what_is_open_leads_to_the_line_it_is_about_and_to_the_yes()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenJobWithoutMap();
        foreach (var (line, count) in new[] { ("air box off", 1), ("rag out of the inlet", 2) })
        {
            await bay.At("record-line").FillAsync(line);
            await bay.At("record-done").ClickAsync();
            await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(count);
        }

        await bay.At("tab-account").ClickAsync();
        await bay.At("open-strip").ClickAsync();
        await Soundness.IsSound(bay, "still open with a line in question");
        await bay.At("to-line").PressAsync("Enter");
        await Expect(bay.At("record-lines").Locator("li:focus")).ToContainTextAsync("rag out of the inlet");
        await bay.At("tab-account").ClickAsync();
        await Follow(bay, "Nobody's yes to this work is on record.");
        await Expect(bay.At("to-agree")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task A_proof_that_failed_leads_back_in_and_is_asked_for_again()
    {
        await using var bay = await Bay.Open(390, 844);
        await HalfWay.ComeTo(bay, StepKind.Prove, "coolant-vacuum");
        await Expect(bay.At("what-now")).ToHaveCountAsync(0);
        await bay.At("reading").FillAsync("It falls as fast as it is pumped");
        await bay.At("verdict-bad").CheckAsync();
        await bay.At("prove").ClickAsync();
        await Expect(bay.At("what-now")).ToContainTextAsync("go back in there, or measure again below");
        await Expect(bay.At("what-now")).ToBeInViewportAsync();
        await Expect(bay.At("what-now")).ToBeFocusedAsync();
        await Soundness.IsSound(bay, "a proof that failed");
        await bay.At("back-in").ClickAsync();
        await Soundness.IsSound(bay, "going back in");
        // A joint that was only tightened further is no way back in: the proof comes again.
        await bay.At("nipped").ClickAsync();
        await Expect(bay.At("back-in-sheet")).ToContainTextAsync("Say which joint it was.");
        // What holds the fluid in need be no joint of the map: its drain plug is not.
        foreach (var which in new[] { new SelectOptionValue { Value = "coolant" }, new SelectOptionValue { Index = 2 } })
        {
            await bay.At("nipped-which").SelectOptionAsync(which);
            await bay.At("nipped-to").FillAsync("60 ft·lb");
            await bay.At("nipped").ClickAsync();
            await Expect(bay.At("back-in-sheet")).ToHaveCountAsync(0);
            Assert.Equal(("Prove", "coolant-vacuum"), await bay.Asked());
            await bay.At("back-in").ClickAsync();
        }

        var place = (await bay.At("back-in-place").First.TextContentAsync())!;
        await bay.At("back-in-place").First.ClickAsync();
        await Expect(bay.At("back-in-sheet")).ToHaveCountAsync(0);

        // The way there is asked for step by step, then the way home, and at its end the proof that failed.
        await Expect(bay.At("undo")).ToContainTextAsync(place);
        await Expect(bay.At("step")).Not.ToHaveAttributeAsync("data-step", "Prove");
        while (await bay.Asked() is { } asked && asked != ("Prove", "coolant-vacuum"))
        {
            await bay.DoIt(asked);
        }

        await Expect(bay.At("reading")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task What_was_off_already_or_lacks_something_is_recorded_as_found()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.At("different").ClickAsync();
        await bay.At("found-off").SelectOptionAsync("regulator-bolts");
        await bay.At("found-off-missing").ClickAsync();
        await Expect(bay.At("different-sheet")).ToContainTextAsync("Write down what is missing.");
        await bay.At("found-off-text").FillAsync("one of the two bolts");
        await bay.At("found-off-missing").ClickAsync();
        await Expect(bay.At("different-sheet")).ToHaveCountAsync(0);

        await bay.At("different").ClickAsync();
        await bay.At("found-off").SelectOptionAsync("side-shield");
        await bay.At("found-off-all").ClickAsync();
        await Expect(bay.At("different-sheet")).ToHaveCountAsync(0);
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("open-list")).ToContainTextAsync("“Side shield” is off.");
        await Expect(bay.At("open-list")).ToContainTextAsync("lacks this: one of the two bolts.");
        await Expect(bay.At("against-the-map")).ToContainTextAsync("it was off already when it was got to");
        await bay.At("open-sheet-close").ClickAsync();
        await bay.At("tab-account").ClickAsync();
        var ledger = await WholeJobTests.Export(bay);
        Assert.Contains("\"missing\":true", ledger, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_the_fasteners_go_is_asked_once_and_kept_over_a_reload()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        var asked = await bay.ToFasteners();
        await bay.At("done").ClickAsync();
        await Expect(bay.At("which-tray")).ToBeInViewportAsync();
        Assert.Equal(asked, await bay.Asked());
        await Soundness.IsSound(bay, "which tray");
        await bay.At("tray-2").ClickAsync();
        await Expect(bay.At("which-tray")).ToHaveCountAsync(0);
        // Tapped and not recorded yet, it is the same one after a reload.
        await bay.UntilKept("2");
        await bay.Page.ReloadAsync();
        await Expect(bay.At("tray-2")).ToHaveAttributeAsync("aria-pressed", "true");
        await bay.DoIt(asked);
        await bay.Page.ReloadAsync();
        // The next set is marked for the next tray: in the last one another lies.
        await bay.ToFasteners();
        await Expect(bay.At("tray-3")).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Theory]
    [InlineData("sprayer")]
    [InlineData("van")]
    public async Task Through_a_long_caution_the_act_and_how_it_is_done_are_seen_without_scrolling(string job)
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob(job);
        for (var step = 0; step < 12 && await bay.Asked() is { Kind: not "Prove" } asked; step++)
        {
            if (asked.Kind == "MakeSafe")
            {
                await IsSeen(bay, asked.Target);
            }

            await bay.DoIt(asked);
        }
    }

    [Fact]
    public async Task How_much_came_out_is_asked_above_the_button()
    {
        await using var bay = await Bay.Open(390, 844);
        await HalfWay.ComeTo(bay, StepKind.MakeSafe, "coolant");
        await Expect(bay.At("litres")).ToBeVisibleAsync();
        await IsSeen(bay, "coolant");
    }

    private static async Task IsSeen(Bay bay, string target)
    {
        await Soundness.IsSound(bay, $"how {target} is made safe");
        // A better way that a slow server finds meanwhile is told once, above the step, and pushes it down until it is read.
        var change = bay.At("plan-change-seen");
        await Expect(bay.At("caution").First).ToBeInViewportAsync();
        string? hidden;
        do
        {
            if (await change.CountAsync() > 0)
            {
                await change.ClickAsync();
            }

            hidden = await HiddenAsync(bay);
        }
        while (hidden is not null && await change.CountAsync() > 0);

        Assert.True(hidden is null, $"{target}: {hidden}");
    }

    /// <summary>What lies under the bar and should not; null when all is in sight.</summary>
    private static async Task<string?> HiddenAsync(Bay bay)
    {
        var bar = (await bay.Page.Locator(".act-bar").BoundingBoxAsync())!;
        (string What, ILocator Seen)[] all =
        [
            ("how", bay.Page.Locator(".facts > div", new PageLocatorOptions { HasText = "How" }).First),
            ("the litres", bay.At("litres")),
            ("the caution", bay.At("caution").First),
            ("the end of the caution", bay.At("caution-rest").First),
        ];
        foreach (var (what, seen) in all)
        {
            // The line under a row may lie on the edge.
            if (await seen.CountAsync() > 0 && (await seen.BoundingBoxAsync())! is var box && (box.Y < 0 || box.Y + box.Height > bar.Y + 1))
            {
                return $"{what} lies from {box.Y} to {box.Y + box.Height}, and the bar begins at {bar.Y}";
            }
        }

        return null;
    }

    /// <summary>Takes the way of one thing that is open, by the keyboard as whoever sees no screen does.</summary>
    private static async Task Follow(Bay bay, string words, bool tray = false, bool here = false)
    {
        await bay.At("open-strip").ClickAsync();
        var way = bay.At("open-way").Filter(new LocatorFilterOptions { HasText = words });
        way = tray ? way.Filter(new LocatorFilterOptions { HasText = "Trays" }) : here ? way.Filter(new LocatorFilterOptions { HasText = "Now" }) : way;
        Assert.True((await way.First.BoundingBoxAsync())!.Height >= 44);
        await way.First.PressAsync("Enter");
        await Expect(bay.At("open-sheet")).ToHaveCountAsync(0);
    }
}
