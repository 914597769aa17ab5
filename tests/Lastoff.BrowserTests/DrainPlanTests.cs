using System.Text.Json.Nodes;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A filling that takes several drains, a flush, an oil analysis and trouble codes, by thumb and without a network.</summary>
public class DrainPlanTests
{
    [Fact]
    public async Task What_one_drain_does_not_reach_is_planned_and_put_on_record_offline()
    {
        await using var bay = await Bay.Open(390, 844);
        await HalfWay.ComeTo(bay, StepKind.Restore, "coolant");

        // Nearly water came out of a system that gives only a third of its coolant: all concentrate is not enough.
        await bay.At("freezing").FillAsync("-3");
        await bay.Unfold("goes-by");
        await bay.At("drained").FillAsync("2.3");
        await Expect(bay.At("not-reached")).ToContainTextAsync("drains reach it");
        await Expect(bay.At("drains").Locator("tbody tr")).ToHaveCountAsync(2);
        await Expect(bay.At("drains")).ToContainTextAsync("done");
        await Expect(bay.At("mix")).ToContainTextAsync("50 ±");
        await Expect(bay.At("as-shown")).ToContainTextAsync("in 2 drains");
        await IsSound(bay, "several drains");

        // The flush wants more of them; a share of all there is cannot be had.
        await bay.Unfold("flush");
        await bay.At("new").FillAsync("100");
        await Expect(bay.At("flush-refused")).ToContainTextAsync("Some of the old fluid always stays");
        await bay.At("new").FillAsync("90");
        await Expect(bay.At("flush-refused")).ToContainTextAsync("at the last filling");
        await bay.At("drained").FillAsync("5.7");
        await Expect(bay.At("flush-steps").Locator("tbody tr")).ToHaveCountAsync(2);
        await IsSound(bay, "flush");
        await bay.At("drained").FillAsync("2.3");

        // What is half done outlives a reload, and the record has the whole of it.
        await bay.At("as-shown").ClickAsync();
        await Expect(bay.At("litres")).Not.ToHaveValueAsync("");
        var shown = await bay.At("litres").InputValueAsync();
        await bay.UntilKept(shown);
        await bay.Page.ReloadAsync();
        await bay.Asked();
        await Expect(bay.At("litres")).ToHaveValueAsync(shown);
        var litres = double.Parse(shown, System.Globalization.CultureInfo.InvariantCulture);
        Assert.InRange(litres, 2.4, 4.6);
        await bay.At("label").FillAsync("Si-OAT");
        await bay.At("done").ClickAsync();
        await Expect(bay.At("step")).Not.ToHaveAttributeAsync("data-target", "coolant");
        await bay.At("tab-account").ClickAsync();
        var filled = (await Standing(bay, "light-van"))["filled"]!.AsArray().Single(f => (string)f!["supply"]! == "coolant")!;
        Assert.Equal((litres, 50.0), ((double)filled["amount_L"]!, (double)filled["poured"]!["mix_percent"]!));
    }

    [Fact]
    public async Task Trouble_codes_are_told_by_their_structure_and_go_on_record()
    {
        await using var bay = await Bay.Open(390, 844);
        await HalfWay.ComeTo(bay, StepKind.Prove, "warm-up");

        await bay.Unfold("paste");
        await bay.At("pasted").FillAsync("t_s,engine_C,fan\n" + string.Join('\n', Enumerable.Range(0, 80).Select(i =>
            FormattableString.Invariant($"{i * 30},{Math.Min(20 + (3.0 * i), 88 + (0.4 * (i % 3))):0.0},{(i is > 60 and < 66 ? 1 : 0)}"))));
        await bay.At("pasted").BlurAsync();
        await Expect(bay.At("finding")).ToHaveAttributeAsync("data-says", "good");

        // What cannot be read is told, and nothing goes on record in its place.
        await bay.At("codes").FillAsync("C0035 P0G28");
        await Expect(bay.At("codes-told")).ToContainTextAsync("“P0G28” is not a trouble code");
        await bay.At("prove").ClickAsync();
        await Expect(bay.At("readings-fault")).ToContainTextAsync("“P0G28” is not a trouble code");
        await bay.At("codes").FillAsync("p0128, C0035");
        await bay.At("codes").BlurAsync();
        await Expect(bay.At("code-says").First).ToContainTextAsync("P0128 belongs to engine and gearbox");
        await Expect(bay.At("code-says").Last).ToContainTextAsync("C0035 belongs to chassis");
        await IsSound(bay, "trouble codes");
        await bay.At("prove").ClickAsync();
        await Expect(bay.Page.Locator("[data-test=step][data-target=warm-up]")).ToHaveCountAsync(0);
        await bay.At("tab-account").ClickAsync();
        var proof = (await Standing(bay, "light-van"))["proofs"]!.AsArray().Single(p => (string)p!["proof"]! == "warm-up")!;
        Assert.Contains("C0035 belongs to chassis", proof.ToJsonString());
    }

    [Fact]
    public async Task An_oil_analysis_is_told_as_a_band_and_never_as_a_pass()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.SetOffline(true);
        while (await bay.Asked() is var asked && asked != ("Restore", "pump-oil"))
        {
            Assert.NotNull(asked);
            await bay.DoIt(asked.Value);
        }

        await bay.Unfold("thinning");
        await bay.At("found").FillAsync("2");
        await Expect(bay.At("changes")).ToContainTextAsync("2 changes");
        await Expect(bay.At("changes-left")).ToContainTextAsync("changed once more");
        await bay.Unfold("analysis");
        await bay.At("lab-water").FillAsync("800");
        await Expect(bay.At("lab-water-band")).ToContainTextAsync("Water: between");
        await bay.At("lab-glycol").FillAsync("-5");
        await Expect(bay.At("lab-glycol-band")).ToContainTextAsync("between 0 and 1 000 000");
        await bay.At("lab-glycol").FillAsync("300");
        await Expect(bay.At("lab-glycol-band")).ToContainTextAsync("Glycol: found");
        await Expect(bay.At("analysis")).ToContainTextAsync("screening bands, not limits");
        await IsSound(bay, "oil analysis");
        await bay.At("done").ClickAsync();
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("open-sheet")).ToContainTextAsync("“Oil in the pump” is to be changed once more.");
    }

    private static async Task<JsonNode> Standing(Bay bay, string map)
    {
        var download = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("export").First.ClickAsync());
        var ran = await LastoffProgram.Run("standing", LastoffProgram.Demo($"{map}.map.yaml"), await download.PathAsync(), "--json");
        Assert.Equal("", ran.Error);
        return JsonNode.Parse(ran.Output)!;
    }
}
