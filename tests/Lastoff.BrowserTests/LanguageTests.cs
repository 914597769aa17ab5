using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A person's language and hand, from the page where they are chosen to the floor.</summary>
public class LanguageTests
{
    // What a map says stays as its author wrote it; everything else that can be read in these places is the app's or the core's.
    private const string EnglishLeft = """
        () => [...document.querySelectorAll('.stage, .act-heading .verb, .caution b, .why, .facts dt, .act-bar button, .tabs, .open-strip .open-words, .pane-head, .layer-state, [data-test=open-list] li, .file-rows')]
          .map(e => e.innerText.replace(/[„“"][^”“"]*[”“"]/g, ' '))
          .filter(text => /\b(the|is|not|of|and|was|first|with|yet|undone|open)\b/i.test(text))
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
        await bay.At("tab-account").ClickAsync();
        var ledger = await WholeJobTests.Export(bay);
        Assert.Contains("\"kind\":\"joint-undone\"", ledger);
        Assert.DoesNotContain("gelöst", ledger);
    }
}
