using System.Text.Json.Nodes;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A joint on a circle, tightened by thumb without a network, with a reload half way.</summary>
public class TightenTests
{
    // 20 mm at the 96 CSS pixels to the inch that browsers count in.
    private const double GlovePixels = 20 / 25.4 * 96;

    [Fact]
    public async Task A_joint_is_tightened_pass_by_pass_offline_and_a_reload_half_way_loses_nothing()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await PutAWrenchIn(bay);
        await bay.OpenWaitingJob("sprayer");
        while (await bay.Asked() is { } asked && asked != ("Tighten", "head-bolts/1"))
        {
            if (asked == ("Undo", "head-bolts"))
            {
                await bay.At("tray-2").ClickAsync();
            }
            else if (asked == ("Make", "diaphragm-screw"))
            {
                // Whoever put a wrench in has it in hand.
                await Expect(bay.At("wrench-setting")).ToHaveTextAsync("Set 10 N·m");
                await Soundness.IsSound(bay, "done up in one go");
            }

            await bay.DoIt(asked);
        }

        await bay.SetOffline(true);
        await Expect(bay.At("target")).ToHaveTextAsync("Snug");
        await Expect(bay.At("from-tray")).ToHaveTextAsync("From tray 2 6 came out.");
        foreach (var hook in new[] { "next-bolt", "whole-pass" })
        {
            var box = (await bay.At(hook).BoundingBoxAsync())!;
            Assert.True(box.Height >= GlovePixels && box.Width >= GlovePixels, $"{hook}: {box.Width} x {box.Height}");
        }

        Assert.True((await bay.At("joint-picture").BoundingBoxAsync())!.Width > 280);
        await Soundness.IsSound(bay, "a joint being tightened");
        await bay.At("tab-depth").ClickAsync();
        await Expect(bay.At("gate").First).ToContainTextAsync("before this closes");
        await Soundness.IsSound(bay, "depth with its gates");
        await bay.At("tab-now").ClickAsync();
        await bay.At("whole-pass").ClickAsync();
        await Expect(bay.At("step")).ToHaveAttributeAsync("data-target", "head-bolts/2");

        // 20 N·m is half of the map's 40; on the wrench with a crow's foot 50 mm longer than its 400 it is 17.78, and 18 is the nearest mark.
        await Expect(bay.At("target")).ToHaveTextAsync("20 N·m");
        await bay.At("choose-wrench").ClickAsync();
        await bay.At("wrench-choice").Last.ClickAsync();
        await bay.At("extension").FillAsync("50");
        await bay.At("extension").PressAsync("Enter");
        await Expect(bay.At("wrench-result")).ToContainTextAsync("for 20 N·m at the bolt; it gets 19.4 to 21.1 N·m.");
        // 18 N·m with the 4 % of class II-A either way, times 450/400.
        await Soundness.IsSound(bay, "which wrench");
        await bay.At("wrench-sheet-close").ClickAsync();
        await Expect(bay.At("wrench-setting")).ToHaveTextAsync("Set 18 N·m");
        await Expect(bay.At("wrench-reason")).ToHaveTextAsync("The calibration of Bay wrench ran out on 2020-02-29.");
        await Expect(bay.At("step")).ToContainTextAsync("Calibration overdue.");

        // The enter key in a field of a sheet does not record a bolt.
        await bay.At("different").ClickAsync();
        await bay.At("other-find").FillAsync("hose");
        await bay.At("other-find").PressAsync("Enter");
        await bay.At("different-sheet-close").ClickAsync();
        // The bolts have the numbers of their holes, on the picture, in the order beside it and in what can be taken back.
        await Expect(bay.At("bolt-order").Locator("li > span:first-child")).ToHaveTextAsync(["1", "4", "2", "5", "3", "6"]);
        await Next(bay, 1, 4);
        await Expect(bay.At("undo")).ToContainTextAsync("pass 2 of 4, bolt 1");
        await Next(bay, 4, 2);
        await Expect(bay.At("undo")).ToContainTextAsync("pass 2 of 4, bolt 4");

        await bay.Page.ReloadAsync();
        Assert.Equal(("Tighten", "head-bolts/2"), await bay.Asked());
        await Lit(bay, 2);
        await Expect(bay.At("step")).ToContainTextAsync("Bolt 2 (3 of 6).");
        await Expect(bay.At("target")).ToHaveTextAsync("20 N·m");
        await bay.At("undo").ClickAsync();
        await Lit(bay, 4);
        await Next(bay, 4, 2);
        while (await bay.Asked() is ("Tighten", _) and { } asked)
        {
            await bay.DoIt(asked);
        }

        Assert.Equal(("Make", "head-bolts"), await bay.Asked());
        await Expect(bay.At("went-in")).ToContainTextAsync("6 came out. How many went in?");
        await Expect(bay.At("went-in-count")).ToHaveTextAsync("6");
        await bay.DoIt(("Make", "head-bolts"));
        await bay.At("tab-account").ClickAsync();
        var ledger = await WholeJobTests.Export(bay);
        Assert.Contains("\"count\":6", Assert.Single(ledger.Split('\n'), line => line.Contains("joint-made") && line.Contains("head-bolts")), StringComparison.Ordinal);
        Assert.Contains("\"wrench\":\"Bay wrench\"", Assert.Single(ledger.Split('\n'), line => line.Contains("joint-made") && line.Contains("diaphragm-screw")), StringComparison.Ordinal);
        var passes = ledger.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!)
            .Where(entry => (string)entry["kind"]! == "joint-tightened").Select(entry => entry["data"]!).ToList();
        Assert.All(passes, pass => Assert.Equal("head-bolts", (string)pass["joint"]!));
        // Snug at once; the second pass one by one, the second bolt twice for it was taken back once, and the rest at once; then two whole passes.
        Assert.Equal([1, 2, 2, 2, 2, 3, 4], passes.Select(pass => (int)pass["pass"]!));
        Assert.Equal([null, "1", "4", "4", null, null, null], passes.Select(pass => (string?)pass["bolt"]));
        var second = passes[1];
        Assert.Equal((20, 18, "N·m"), ((double)second["torque_Nm"]!, Math.Round((double)second["setting_Nm"]!, 9), (string)second["unit"]!));
        Assert.Equal(("Bay wrench", "2020-02-29"), ((string)second["wrench"]!, (string)second["calibration_due"]!));
        Assert.Null(passes[0]["wrench"]);
    }

    [Fact]
    public async Task The_unit_chosen_is_the_unit_shown_and_the_page_of_wrenches_is_sound()
    {
        await using var bay = await Bay.Open(1440, 900);
        await bay.ComeIn();
        await PutAWrenchIn(bay);
        await bay.At("to-mine").ClickAsync();
        await bay.At("unit-FootPound").CheckAsync();
        await bay.Page.ReloadAsync();
        await Expect(bay.At("unit-FootPound")).ToBeCheckedAsync();
        await Soundness.IsSound(bay, "language, units and hand");
        await bay.Page.GoBackAsync();
        await bay.At("to-wrenches").ClickAsync();
        await Expect(bay.At("wrenches")).ToContainTextAsync("Bay wrench 7.38 ft·lb to 73.8 ft·lb, II\u2011A. Calibration ran out on 2020-02-29.");
        await Soundness.IsSound(bay, "wrenches");
        await bay.At("wrench-keep").ClickAsync();
        await Expect(bay.Page.GetByRole(Microsoft.Playwright.AriaRole.Alert)).ToContainTextAsync("Give it a name");
    }

    private static async Task PutAWrenchIn(Bay bay)
    {
        await bay.At("to-wrenches").ClickAsync();
        await bay.At("wrench-name").FillAsync("Bay wrench");
        await bay.At("wrench-lowest").FillAsync("10");
        await bay.At("wrench-highest").FillAsync("100");
        await bay.At("wrench-step").FillAsync("1");
        await bay.At("wrench-lever").FillAsync("400");
        await bay.At("wrench-due").FillAsync("2020-02-29");
        await bay.At("wrench-keep").ClickAsync();
        await Expect(bay.At("wrenches")).ToContainTextAsync("Bay wrench");
        await bay.Page.GetByText("‹ Back").ClickAsync();
        await bay.At("job-line").First.WaitForAsync();
    }

    /// <summary>The hole of the bolt that is lit.</summary>
    private static Task Lit(Bay bay, int hole) => Expect(bay.At("joint-picture").Locator(".next text")).ToHaveTextAsync($"{hole}");

    private static async Task Next(Bay bay, int hole, int then)
    {
        await Lit(bay, hole);
        await bay.At("next-bolt").ClickAsync();
        await Lit(bay, then);
    }
}
