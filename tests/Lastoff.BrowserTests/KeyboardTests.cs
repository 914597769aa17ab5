using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A whole job without a pointer: Tab to go on, Enter and Space to act, and nothing else.</summary>
public class KeyboardTests
{
    private const int MostTabs = 120;

    [Fact]
    public async Task A_demo_job_goes_from_the_list_to_the_handover_by_keys_alone()
    {
        await using var bay = await Bay.Open(1440, 900);
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await TabTo(bay, "person-name");
        await bay.Page.Keyboard.TypeAsync("Bay Tester");
        await bay.Page.Keyboard.PressAsync("Enter");
        await bay.At("job-line").First.WaitForAsync();
        await TabTo(bay, "job-line", "sprayer");
        await bay.Page.Keyboard.PressAsync("Enter");
        await TabTo(bay, "agree-who");
        await bay.Page.Keyboard.TypeAsync("The invented owner");
        await bay.Page.Keyboard.PressAsync("Enter");

        var (steps, tabs) = (0, 0);
        while (await bay.Asked() is var (kind, target))
        {
            if (kind == "Prove")
            {
                tabs += await TabTo(bay, "reading");
                await bay.Page.Keyboard.TypeAsync("As it should be");
                // The first of a row of choices; its neighbours are reached with the arrows.
                tabs += await TabTo(bay, "verdict-good");
                await bay.Page.Keyboard.PressAsync("Space");
                tabs += await TabTo(bay, "prove");
            }
            else
            {
                if (await bay.Page.Locator(Bay.NoTraySaid).CountAsync() > 0)
                {
                    tabs += await TabTo(bay, "tray-none");
                    await bay.Page.Keyboard.PressAsync("Space");
                }

                tabs += await TabTo(bay, kind != "Tighten" ? "done" : await bay.At("whole-pass").CountAsync() > 0 ? "whole-pass" : "next-bolt");
            }

            await bay.Page.Keyboard.PressAsync("Enter");
            await bay.Page.WaitForFunctionAsync(
                "asked => { const s = document.querySelector('[data-test=step]'); return !s || s.dataset.step + ' ' + s.dataset.target !== asked; }", $"{kind} {target}");
            // Where a step was, the next one begins: nobody is sent back to the top of the page.
            await Expect(bay.At("act-heading")).ToBeFocusedAsync();
            steps++;
        }

        await TabTo(bay, "hand-over-to");
        await bay.Page.Keyboard.TypeAsync("The invented owner");
        await bay.Page.Keyboard.PressAsync("Enter");
        await Expect(bay.At("act-heading")).ToContainTextAsync("Handed over to");
        Assert.True(steps > 20 && tabs < 8 * steps, $"{tabs} times Tab for {steps} steps.");
    }

    /// <summary>Presses Tab until the control with this hook has the focus, and says how often.</summary>
    private static async Task<int> TabTo(Bay bay, string hook, string words = "")
    {
        // It wakes a moment after its step is there, and Tab goes past what sleeps.
        await Expect(bay.At(hook).First).ToBeEnabledAsync();
        for (var tabs = 0; tabs < MostTabs; tabs++)
        {
            if (await bay.Page.EvaluateAsync<bool>("([hook, words]) => document.activeElement?.dataset.test === hook && document.activeElement.textContent.includes(words) && !document.activeElement.disabled", new[] { hook, words }))
            {
                return tabs;
            }

            await bay.Page.Keyboard.PressAsync("Tab");
        }

        throw new InvalidOperationException($"{hook} is not reached with {MostTabs} times Tab.");
    }
}
