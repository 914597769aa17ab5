using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>An invented machine without a map, recorded as it comes off, out of reach of the server.</summary>
public class RecordingTests
{
    /// <summary>The first operations, each said in one line; {taps} is three taps.</summary>
    private static readonly string[] Lines =
    [
        "battery disconnected", "seat off, two 13 mil nuts", "silencer off", "earth lead nut 10 mil", "bonnet off, four 10 mil bolts, tray 1", "air duct clamp", "air duct off", "coolant drained, 4 litres",
        "top hose off the radiator", "bottom hose off the radiator", "fan plug unplugged", "six 8 mil screws off the fan shroud, tray 2", "fan shroud off",
        "radiator off", "{taps}", "belt guard off", "belt off", "two 13 mil nuts off the pulley, tray 4",
        "pulley off", "five 10 mil bolts off the water pump, one snapped", "water pump off",
    ];

    /// <summary>No map has a proof of it, so whoever hands over is asked.</summary>
    [Fact]
    public async Task What_became_of_the_complaint_is_asked_at_the_handover_and_kept_over_a_reload()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenJobWithoutMap();
        await bay.At("to-agree").ClickAsync();
        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree").ClickAsync();
        await RecordAsync(bay, "belt guard off, four 10 mil bolts, tray 1");
        await bay.At("tab-back").ClickAsync();
        while (await bay.Asked() is { } asked)
        {
            await bay.DoIt(asked);
        }

        await bay.At("complaint-now").FillAsync("Dry after ten minutes");
        await bay.UntilKept("Dry after ten minutes");
        await bay.Page.ReloadAsync();
        await Expect(bay.At("complaint-now")).ToHaveValueAsync("Dry after ten minutes");
        await IsSound(bay, "hand over without a map");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.Page.Locator("main")).ToContainTextAsync("The complaint now");
        await Expect(bay.Page.Locator("main")).ToContainTextAsync("Dry after ten minutes");
        await IsSound(bay, "gone home without a map");
    }

    /// <summary>What is planned then is only the way home.</summary>
    [Fact]
    public async Task The_yes_to_a_job_without_a_map_promises_no_minutes()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenJobWithoutMap();
        await RecordAsync(bay, "belt guard off, four 10 mil bolts, tray 1");
        await bay.At("to-agree").ClickAsync();
        await bay.At("agree-who").WaitForAsync();
        await Expect(bay.Page.Locator("main")).Not.ToContainTextAsync("Out and back");
    }

    [Fact]
    public async Task A_strip_of_27_operations_is_recorded_offline_and_becomes_a_map_that_plans()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        await bay.SetOffline(true);
        await bay.OpenJobWithoutMap();
        await IsSound(bay, "record, nothing yet");

        // What was found may be agreed on in the middle of it.
        await bay.At("to-agree").ClickAsync();
        await IsSound(bay, "record, the yes");
        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree").ClickAsync();
        await Expect(bay.At("to-agree")).ToHaveCountAsync(0);

        foreach (var line in Lines)
        {
            await RecordAsync(bay, line);
        }

        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(Lines.Length);
        // Whether something fell in, only the person knows.
        await bay.At("record-line").FillAsync("dropped a washer into the water pump housing");
        await Expect(bay.At("record-fallen")).ToHaveTextAsync("Is “washer” still to be found, at “water pump housing”?");
        await IsSound(bay, "record, did it fall in");
        await bay.At("fallen-yes").ClickAsync();
        await Expect(bay.At("open-strip")).ToContainTextAsync("“washer” is not found; it fell here: “water pump housing”");
        // Nor does a line say whether it is that one which is out again.
        await bay.At("record-line").FillAsync("fished the washer out with a magnet");
        await Expect(bay.At("record-found")).ToHaveTextAsync("Is this the “washer” that fell here: “water pump housing”?");
        await IsSound(bay, "record, is it found");
        await bay.At("found-yes").ClickAsync();
        await Expect(bay.At("open-strip")).Not.ToContainTextAsync("washer");
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(Lines.Length);
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("open-strip")).ToContainTextAsync("“washer” is not found");
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("open-strip")).Not.ToContainTextAsync("washer");
        // A doubt is one short question, and its answer records the line.
        await bay.At("record-line").FillAsync("left-hand bolt off the tensioner");
        await Expect(bay.At("record-question")).ToContainTextAsync("left-hand thread");
        await IsSound(bay, "record, a question");
        await bay.At("answer").First.ClickAsync();
        await Expect(bay.At("record-lines").Locator("li").First).ToContainTextAsync("left-hand thread");
        await RecordAsync(bay, "two 13 mil nuts off the tensioner, tray 5, marked with paint");
        await IsSound(bay, "record");
        // The same once more is another one or a slip, and only the person knows.
        var before = await bay.At("record-lines").Locator("li").CountAsync();
        await bay.At("record-line").FillAsync("Two 13 mil nuts off the tensioner, tray 5, marked with paint");
        await bay.At("record-done").ClickAsync();
        await bay.At("record-again").WaitForAsync();
        await IsSound(bay, "record, the same again");
        await bay.At("again-no").ClickAsync();
        await Expect(bay.At("record-line")).ToHaveValueAsync("");
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(before);
        await bay.At("taps").ClickAsync();
        await IsSound(bay, "record by taps");

        await bay.At("taps").ClickAsync();

        // A word by taps: the thing that came off first was not in the way of another. What came off last was in the way of nothing, and is not asked about.
        await Expect(bay.At("record-lines").Locator("li").First.Locator("[data-test=in-the-way]")).ToHaveCountAsync(0);
        await bay.At("in-the-way").Last.ClickAsync();
        await bay.At("way-of").SelectOptionAsync("Water pump");
        await IsSound(bay, "record, in the way");
        await bay.At("way-no").ClickAsync();
        await Expect(bay.At("record-lines").Locator("li").First).ToContainTextAsync("was not in the way of Water pump");
        await RecordAsync(bay, "plugged the pump inlet with a rag");
        await Expect(bay.At("record-lines").Locator("li").First).ToContainTextAsync("Covered: rag, pump inlet");
        await RecordAsync(bay, "three M8x40 bolts off the pump bracket, one longer, tray 6");
        await IsSound(bay, "record, a rag and a length");

        // A line warns of what it opens, and a note that names clips says that it is only a note.
        await bay.At("record-line").FillAsync("hydraulic hose off at the feed motor");
        await Expect(bay.At("record-caution").First).ToContainTextAsync("A fine jet goes through skin");
        await IsSound(bay, "record, a caution");
        await bay.At("record-line").FillAsync("two clips tagged");
        await Expect(bay.At("only-note")).ToBeVisibleAsync();

        // A slip is put right where it stands, and said so.
        var wrong = bay.At("record-lines").Locator("li").First;
        await bay.At("record-line").FillAsync("what is being written");
        await wrong.Locator("[data-test=correct]").ClickAsync();
        await Expect(bay.At("record-line")).ToHaveValueAsync("three M8x40 bolts off the pump bracket, one longer, tray 6");
        // The others rest meanwhile: a touch on one would lose what is typed.
        await Expect(bay.At("correct")).ToHaveCountAsync(0);
        await bay.At("record-line").FillAsync("four M8x40 bolts off the pump bracket, one longer, tray 6");
        await IsSound(bay, "record, put right");
        await bay.At("record-done").ClickAsync();
        await Expect(wrong).ToContainTextAsync("Undone: 4 bolts");
        await Expect(wrong).ToContainTextAsync("put right");
        // What stood in the field meanwhile comes back into it.
        await Expect(bay.At("record-line")).ToHaveValueAsync("what is being written");
        await bay.At("undo").ClickAsync();
        await Expect(wrong).ToContainTextAsync("Undone: 3 bolts");

        // What was typed and not recorded is still there after a reload; so is all that was recorded.
        await bay.At("record-line").FillAsync("half a line");
        await bay.UntilKept("half a line");
        await bay.Page.ReloadAsync();
        await Expect(bay.At("record-line")).ToHaveValueAsync("half a line");
        await bay.At("record-line").FillAsync("");
        await bay.At("tab-account").ClickAsync();
        await Expect(bay.At("balance")).ToContainTextAsync("27 went out");
        await Expect(bay.At("trays")).ToContainTextAsync("Tray 2");
        await Expect(bay.At("trays")).ToContainTextAsync("Pump bracket bolts, M8, 40 mm long");
        await IsSound(bay, "recorded, out and home");

        // The way back begins with what came off last.
        await bay.At("tab-back").ClickAsync();
        await Expect(bay.At("step")).ToHaveAttributeAsync("data-step", "Make");
        // What was said beside it is there again when it goes home.
        await Expect(bay.At("as-told")).ToContainTextAsync("marked with paint");
        await IsSound(bay, "recorded, way back");
        // All of it can be looked through before the first of it.
        await bay.Unfold("way-back-all");
        Assert.True(await bay.At("way-back-all").Locator("li").CountAsync() > 20);
        await IsSound(bay, "recorded, the whole way back");
        if (await bay.At("went-in").CountAsync() == 0)
        {
            await bay.At("done").ClickAsync();
        }

        // One less than came out is left over, and stays open.
        await Expect(bay.At("went-in-count")).ToHaveTextAsync("2");
        await bay.At("one-less").ClickAsync();
        await bay.At("tight").FillAsync("tight");
        await bay.At("done").ClickAsync();
        await Expect(bay.At("step")).ToContainTextAsync("Write the torque as a number");
        await bay.At("tight").FillAsync("25");
        await IsSound(bay, "recorded, one less");
        await bay.At("done").ClickAsync();
        await bay.At("tab-account").ClickAsync();
        await Expect(bay.At("trays")).ToContainTextAsync("left over");

        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "learn").ToString());
        await bay.At("recording").First.CheckAsync();
        await Expect(bay.At("learned")).ToContainTextAsync("in doubt");
        await IsSound(bay, "learn");
        await bay.At("learn-save").ClickAsync();
        await Expect(bay.At("map-state")).ToContainTextAsync("Everything can come off.");
        await bay.At("open-on-map").ClickAsync();
        await Expect(bay.At("map-invented-mower")).ToBeCheckedAsync();
        await bay.At("goal-water-pump").CheckAsync();
        await bay.At("machine").FillAsync("Invented mower, the second");
        await bay.At("cause").FillAsync("The pump drips, seen");
        await bay.At("open-submit").ClickAsync();
        await Expect(bay.At("plan-minutes")).ToContainTextAsync("as a rule", new() { Timeout = 60_000 });

        await bay.SetOffline(false);
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
    }

    private static async Task RecordAsync(Bay bay, string line)
    {
        var before = await bay.At("record-lines").Locator("li").CountAsync();
        if (line == "{taps}")
        {
            await bay.At("taps").ClickAsync();
            await bay.At("tray-3").ClickAsync();
            await bay.At("count-3").ClickAsync();
            await bay.At("size-10mm").ClickAsync();
            await bay.At("kind-bolts").ClickAsync();
        }
        else
        {
            await bay.At("record-line").FillAsync(line);
            await bay.At("record-done").ClickAsync();
        }

        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(before + 1);
        if (line == "{taps}")
        {
            await bay.At("taps").ClickAsync();
        }
    }
}
