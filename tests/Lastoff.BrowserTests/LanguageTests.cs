using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A person's language and hand, from the page where they are chosen to the floor.</summary>
public class LanguageTests
{
    // Names of the map and of people are in their own language; between quotation marks they are left out, and where they stand bare only the core's own turns are looked for.
    private const string EnglishLeft = """
        () => [
          ...[...document.querySelectorAll('.stage, .act-heading .verb, .caution b, .facts dt, .act-bar button > span, .done, .tabs, .open-strip .open-words, .layer-state, [data-test=open-list] li')]
            .map(e => e.innerText.replace(/[„“"][^”“"]*[”“"]/g, ' '))
            .filter(text => /\b(the|is|not|of|and|was|first|with|yet|undone|open|covered|made)\b/i.test(text)),
          ...[...document.querySelectorAll('.why')].map(e => e.innerText).filter(text => /\b(to free|to get at|so that|is safe|which is|and so on|disturbed|before this)\b/i.test(text)),
        ]
        """;

    [Fact]
    public async Task In_german_the_floor_speaks_german_and_what_is_recorded_is_the_same()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-mine").ClickAsync();
        await bay.At("language-de").CheckAsync();
        await Expect(bay.Page.Locator("html")).ToHaveAttributeAsync("lang", "de");
        await Expect(bay.Page.Locator("h1")).ToHaveTextAsync("Sprache, Einheiten und Hand");
        await bay.At("hand-left").CheckAsync();
        await Soundness.IsSound(bay, "language in German");
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        // The list was shown and kept in English before; a line that was kept is not shown in another language, and not once more has been done.
        await Expect(Next(bay)).ToHaveTextAsync("Zusage einholen und aufschreiben");
        await bay.OpenWaitingJob("sprayer");
        await Soundness.IsSound(bay, "now in German for the left hand");
        var (undo, different) = ((await bay.At("undo").BoundingBoxAsync())!, (await bay.At("different").BoundingBoxAsync())!);
        Assert.True(undo.X < different.X, "The thumb of the left hand finds the other order.");
        for (var step = 0; step < 12; step++)
        {
            Assert.Empty(await bay.Page.EvaluateAsync<string[]>(EnglishLeft));
            await bay.DoIt((await bay.Asked())!.Value);
        }

        await bay.At("open-strip").ClickAsync();
        await bay.At("open-list").WaitForAsync();
        Assert.Empty(await bay.Page.EvaluateAsync<string[]>(EnglishLeft));
        await Soundness.IsSound(bay, "still open in German");
        await bay.At("open-sheet-close").ClickAsync();
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await Expect(Next(bay)).ToHaveTextAsync("Beim Zerlegen");
        await bay.Page.GoBackAsync();
        await bay.At("tab-account").ClickAsync();
        var ledger = await WholeJobTests.Export(bay);
        Assert.Contains("\"kind\":\"joint-undone\"", ledger);
        // What the yes is to is written by the app into the record, and is the same whoever's device wrote it.
        Assert.Contains("\"what\":\"Renew Upper diaphragm. Cause: Liquid", ledger);
    }

    [Fact]
    public async Task In_german_a_job_without_a_map_fits_a_small_screen()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-mine").ClickAsync();
        // The page is loaded anew in the other language, and nobody goes elsewhere before.
        await bay.Page.EvaluateAsync("document.documentElement.dataset.before = ''");
        await bay.At("language-de").CheckAsync();
        await Expect(bay.Page.Locator("html:not([data-before])")).ToHaveAttributeAsync("lang", "de");
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await bay.OpenJobWithoutMap("Erfundener Mäher", "Tropft vorne");
        // What runs out and burns is warned of while it is told.
        await bay.At("record-line").FillAsync("Benzin abgelassen, 1,5 L");
        await Expect(bay.At("record-caution")).ToContainTextAsync("Kraftstoff");
        await Soundness.IsSound(bay, "record in German");
        await bay.At("record-done").ClickAsync();
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(1);
        // A line that was never so is struck out where it stands.
        await bay.At("correct").ClickAsync();
        await Expect(bay.At("record-line")).ToHaveValueAsync("Benzin abgelassen, 1,5 L");
        await bay.At("record-line").FillAsync("");
        await Expect(bay.At("record-done")).ToHaveTextAsync("Streichen");
        await bay.At("record-done").ClickAsync();
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(0);
        // A line in German is read as one, typed or put together by taps.
        await bay.At("record-line").FillAsync("Riemenschutz ab, vier 10er Schrauben, Schale 1");
        await bay.At("record-done").ClickAsync();
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(1);
        await bay.At("taps").ClickAsync();
        await bay.At("count-2").ClickAsync();
        await bay.At("size-13mm").ClickAsync();
        await bay.At("kind-nuts").ClickAsync();
        await Expect(bay.At("record-lines").Locator("li")).ToHaveCountAsync(2);
        await Expect(bay.At("record-lines")).ToContainTextAsync("2 13 mm Muttern");
        await Soundness.IsSound(bay, "recorded in German");
    }

    private static ILocator Next(Bay bay) => bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).Locator(".job-next");
}
