using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A cooling system that holds its vacuum, and is filled, by thumb and without a network.</summary>
public class FluidTests
{
    [Fact]
    public async Task A_vacuum_hold_is_proved_by_readings_and_the_mix_is_filled_offline_through_a_reload()
    {
        await using var bay = await Bay.Open(390, 844);
        await HalfWay.ComeTo(bay, StepKind.Prove, "coolant-vacuum");

        // One by one, with the time of the tap; what is half typed outlives a reload.
        await bay.At("gauge").FillAsync("25,5");
        await bay.At("read-now").ClickAsync();
        await Expect(bay.At("taken")).ToContainTextAsync("0:00");
        await Expect(bay.At("readings-fault")).ToContainTextAsync("there is one reading and a hold needs two or more");
        await bay.At("gauge").FillAsync("25.");
        await bay.UntilKept("25.");
        await bay.Page.ReloadAsync();
        await bay.Asked();
        await Expect(bay.At("gauge")).ToHaveValueAsync("25.");
        await Expect(bay.At("taken")).ToContainTextAsync("25.5");

        // Two minutes tell nothing yet, and twenty do.
        await bay.At("strike-all").ClickAsync();
        await bay.Unfold("paste");
        await Paste(bay, minutes: 2);
        await Expect(bay.At("finding")).ToHaveAttributeAsync("data-says", "unclear");
        await Expect(bay.At("finding")).ToContainTextAsync("longer");
        await Paste(bay, minutes: 20);
        await Expect(bay.At("finding")).ToHaveAttributeAsync("data-says", "good");
        await Expect(bay.At("in-drops")).ToContainTextAsync("drop");
        await bay.Page.ReloadAsync();
        await bay.Asked();
        await Expect(bay.At("finding")).ToHaveAttributeAsync("data-says", "good");
        await IsSound(bay, "vacuum hold");

        // Nobody says otherwise than the readings without saying why.
        await bay.At("verdict-bad").CheckAsync();
        await bay.At("prove").ClickAsync();
        await Expect(bay.At("prove-fault")).ToContainTextAsync("why you say otherwise");
        await bay.At("verdict-good").CheckAsync();
        await bay.At("prove").ClickAsync();
        // The step on the screen changes only once the proof is kept.
        await Expect(bay.At("step")).Not.ToHaveAttributeAsync("data-target", "coolant-vacuum");
        while (await bay.Asked() is var asked && asked != ("Restore", "coolant"))
        {
            await bay.DoIt(asked!.Value);
        }

        // A weak mix came out; the answer comes with what it reads.
        await Expect(bay.At("pour")).ToContainTextAsync("refractometer");
        await bay.At("freezing").FillAsync("-18");
        await Expect(bay.At("pour")).ToContainTextAsync("concentrate");
        await Expect(bay.At("mix")).ToContainTextAsync("50 ±");
        await bay.At("label").FillAsync("P-OAT");
        await Expect(bay.At("label-warning")).ToContainTextAsync("do not mix them");
        await bay.At("label").FillAsync("Si-OAT");
        await Expect(bay.At("label-warning")).ToHaveCountAsync(0);
        await bay.Unfold("vacuum-fill");
        await bay.At("engine").FillAsync("92");
        await Expect(bay.At("vacuum-refused")).ToContainTextAsync("Do not pull a vacuum on a hot engine");
        await bay.At("engine").FillAsync("20");
        await bay.At("reached").FillAsync("26");
        await Expect(bay.At("vacuum-reached")).ToContainTextAsync("Deep enough");
        await bay.At("as-shown").ClickAsync();
        await IsSound(bay, "fill");
        await bay.At("done").ClickAsync();
        await Expect(bay.At("step")).Not.ToHaveAttributeAsync("data-target", "coolant");

        await bay.At("tab-account").ClickAsync();
        var standing = await Standing(bay);
        var proof = standing["proofs"]!.AsArray().Single(p => (string)p!["proof"]! == "coolant-vacuum")!;
        Assert.Equal(("good", "good", "vacuum hold"), ((string)proof["verdict"]!, (string)proof["evidence"]!["says"]!, (string)proof["evidence"]!["method"]!));
        Assert.StartsWith("t_s,p_inHg_vacuum", (string)proof["evidence"]!["readings"]!);
        var filled = standing["filled"]!.AsArray().Single(f => (string)f!["supply"]! == "coolant")!;
        Assert.Equal(("Si-OAT", HalfWay.Drained_L), ((string)filled["poured"]!["fluid"]!, (double)filled["amount_L"]!));
        Assert.Equal(50, (double)filled["poured"]!["mix_percent"]!, 0.2);

        // What is added later is in it without a new draining; how strong that makes it nobody worked out.
        await bay.At("tab-now").ClickAsync();
        await bay.At("different").ClickAsync();
        await bay.At("in-now-litres").FillAsync("6.1");
        await Soundness.IsSound(bay, "more was poured in");
        await bay.At("in-now-keep").ClickAsync();
        await Expect(bay.At("different-sheet")).ToHaveCountAsync(0);
        await bay.At("tab-account").ClickAsync();
        filled = (await Standing(bay))["filled"]!.AsArray().Single(f => (string)f!["supply"]! == "coolant")!;
        Assert.Equal(("Si-OAT", 6.1, false), ((string)filled["poured"]!["fluid"]!, (double)filled["amount_L"]!, filled["poured"]!.AsObject().ContainsKey("mix_percent")));
    }

    /// <summary>A needle that stands at 25.5, read every half minute.</summary>
    private static async Task Paste(Bay bay, int minutes)
    {
        var readings = "t_s,p_inHg_vacuum,T_C\n" + string.Join('\n', Enumerable.Range(0, (2 * minutes) + 1).Select(i => string.Create(CultureInfo.InvariantCulture, $"{30 * i},25.5,20")));
        await bay.At("pasted").FillAsync(readings);
        await bay.At("pasted").BlurAsync();
    }

    private static async Task<JsonNode> Standing(Bay bay)
    {
        var download = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("export").First.ClickAsync());
        var ran = await LastoffProgram.Run("standing", LastoffProgram.Demo("light-van.map.yaml"), await download.PathAsync(), "--json");
        Assert.Equal("", ran.Error);
        return JsonNode.Parse(ran.Output)!;
    }
}
