using Lastoff.Core.Maps;
using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>The sprayer's map, edited by its visible controls, on a phone and at the desk.</summary>
public class MapEditorTests
{
    [Fact]
    public async Task A_map_is_edited_saved_and_planned_by()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-maps").ClickAsync();
        await Expect(bay.At("map-orchard-sprayer-pump")).ToContainTextAsync("invented machine");
        await IsSound(bay, "maps");
        await bay.At("map-orchard-sprayer-pump").ClickAsync();
        await Expect(bay.At("map-state")).ToContainTextAsync("Everything can come off.");
        await IsSound(bay, "map");

        // A fault comes while it is typed, beside its field, and goes with it.
        await bay.At("map-find").FillAsync("upper head");
        await bay.At("item-head-bolts").ClickAsync();
        await Expect(bay.At("field-count")).ToHaveValueAsync("6");
        await bay.At("field-count").FillAsync("six");
        await Expect(bay.Page.Locator("#map-count-faults")).ToContainTextAsync("'count' is 'six'; it must be a number");
        await Expect(bay.At("map-faults")).ToContainTextAsync("'six'");
        await IsSound(bay, "map fault");
        await bay.At("map-save").ClickAsync();
        await Expect(bay.At("map-notice")).ToContainTextAsync("it stays on this device as a draft");
        await bay.At("field-count").FillAsync("6");
        await Expect(bay.At("fault")).ToHaveCountAsync(0);

        // A joint is added; it holds nothing yet, and says so.
        await ToList(bay);
        await bay.At("add-name").FillAsync("Earth strap: head to frame");
        await bay.At("add-joint").ClickAsync();
        await Expect(bay.At("field-fault").Filter(new LocatorFilterOptions { HasText = "holds nothing" })).ToHaveCountAsync(1);
        await bay.At("field-kind").SelectOptionAsync("connector");
        await Tick(bay, "holds", "upper-head");
        await Tick(bay, "reach.clear", "side-shield");
        await bay.At("field-undo_min").FillAsync("0,7");
        await bay.At("field-undo_min").BlurAsync();
        await Expect(bay.At("fault")).ToHaveCountAsync(0);
        await Expect(bay.At("field-undo_min")).ToHaveValueAsync("0.7");
        await IsSound(bay, "map joint");

        // The shield cannot go while the strap waits for it.
        await ToList(bay);
        await bay.At("map-find").FillAsync("side shield");
        await bay.At("item-side-shield").ClickAsync();
        await Expect(bay.At("waits")).ToContainTextAsync("Earth strap: head to frame waits until it is off or aside");
        await bay.At("item-remove").ClickAsync();
        await Expect(bay.At("map-notice")).ToContainTextAsync("“Side shield” stays, because");

        // A reach that goes round in a circle is spelled out, and undone.
        await Tick(bay, "reach.clear", "upper-head");
        await Expect(bay.At("map-faults")).ToContainTextAsync("Nothing in this circle can ever be first");
        await bay.At("map-undo").ClickAsync();
        await Expect(bay.At("fault")).ToHaveCountAsync(0);

        // As text it is the same map, comments and all; a reload loses nothing of it.
        await bay.At("view-text").ClickAsync();
        var text = await bay.At("map-text").InputValueAsync();
        Assert.Contains("  - id: earth-strap-head-to-frame\n    name: 'Earth strap: head to frame'\n    kind: connector\n    holds: [upper-head]\n    undo_min: 0.7\n    reach: [side-shield]\n", text);
        Assert.Contains("# Made so that the figure and the computed limit disagree", text);
        await IsSound(bay, "map text");
        await bay.UntilKept(text);
        await bay.Page.ReloadAsync();
        await bay.At("map-kept").WaitForAsync();
        await Expect(bay.At("map-kept")).ToContainTextAsync("stay on this device as a draft");
        await bay.At("map-save").ClickAsync();
        await Expect(bay.At("map-notice")).ToContainTextAsync("Saved. New jobs use it.");
        await Expect(bay.At("map-kept")).ToHaveTextAsync("Saved.");

        // A new job's plan has the joint in it.
        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "open").ToString());
        await bay.At("map-orchard-sprayer-pump").CheckAsync();
        await bay.At("goal-upper-diaphragm").CheckAsync();
        await bay.At("machine").FillAsync("Invented sprayer with a strap");
        await bay.At("cause").FillAsync("The upper diaphragm is torn, seen in the sight glass");
        await bay.At("open-submit").ClickAsync();
        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree").ClickAsync();
        for (var steps = 0; steps < 20; steps++)
        {
            var asked = (await bay.Asked())!.Value;
            if (asked.Target == "earth-strap-head-to-frame")
            {
                return;
            }

            await bay.DoIt(asked);
        }

        Assert.Fail("The strap was never asked for.");
    }

    /// <summary>Publishing leaves out how patterns are put together at run time, of which the YAML reader has two: what they are for is said all the same.</summary>
    [Fact]
    public async Task What_is_no_YAML_is_told_in_the_published_app_as_everywhere()
    {
        await using var bay = await Bay.Open(1440, 900);
        await bay.ComeIn();
        await bay.At("to-maps").ClickAsync();
        await bay.At("new-title").FillAsync("Invented barrow: the pump");
        await bay.At("new-map").ClickAsync();
        await bay.At("view-text").ClickAsync();
        foreach (var line in new[] { "title: &[a 1", "title: & 1", "title: *a{b", "title: &a,b 1", "title: &sound 1", "title: *nowhere", "%TAG bad x\n---\nformat: 1", "%TAG !a b! tag:x\n---\nformat: 1", "%TAG !e! tag:x\n---\nformat: 1", "title: !<x", "title: !none x" })
        {
            var wanted = MapReader.Read(line, "map").Faults[0].Sentence;
            await bay.At("map-text").FillAsync(line);
            await Expect(bay.At("map-faults")).ToContainTextAsync(wanted);
        }
    }

    [Fact]
    public async Task A_map_is_begun_from_nothing()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-maps").ClickAsync();
        await bay.At("new-title").FillAsync("Invented barrow: the pump");
        await bay.At("new-map").ClickAsync();
        await Expect(bay.At("map-faults")).ToContainTextAsync("The map has no parts");
        await bay.At("add-name").FillAsync("Belt guard");
        await bay.At("add-part").ClickAsync();
        await Expect(bay.At("map-state")).ToContainTextAsync("1 operation");
        await bay.At("map-save").ClickAsync();
        await Expect(bay.At("map-notice")).ToContainTextAsync("Saved.");
        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "maps").ToString());
        await bay.At("map-invented-barrow-the-pump").WaitForAsync();
        await Expect(bay.At("map-invented-barrow-the-pump")).ToHaveTextAsync("Invented barrow: the pump");
    }

    private static async Task ToList(Bay bay)
    {
        if (await bay.At("to-list").IsVisibleAsync())
        {
            await bay.At("to-list").ClickAsync();
        }
    }

    private static async Task Tick(Bay bay, string field, string id)
    {
        if (!await bay.At($"{field}-{id}").IsVisibleAsync())
        {
            await bay.At($"field-{field}").Locator("summary").ClickAsync();
        }

        await bay.At($"{field}-{id}").CheckAsync();
    }
}
