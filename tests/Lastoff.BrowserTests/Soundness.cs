using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>
/// No fault that axe finds by day or in the dark, nothing that is too wide or too small to hit, and nothing that the server's content security policy stopped. With LASTOFF_SCREENS naming a folder,
/// four pictures of each screen go there, to be looked at: of a phone and of a desk, by day and in the dark.
/// </summary>
internal static class Soundness
{
    // 20 mm and 44 px, as the floor and every other place ask for; browsers count 96 px to the inch.
    private const string TooSmall = """
        () => {
          const glove = 20 / 25.4 * 96;
          const isPhone = innerWidth < 600;
          const stage = document.querySelector('dialog[open]') ?? document;
          const faults = [];
          for (const e of stage.querySelectorAll('button, a[href], input, select, textarea, summary')) {
            const hit = e.matches('[type=radio], [type=checkbox], [type=file]') ? e.closest('label') ?? e : e;
            const box = hit.getBoundingClientRect();
            // A link within a line of text is as high as the line.
            if (box.width <= 1 || !e.checkVisibility() || getComputedStyle(hit).display === 'inline' || e.closest('.vh, #blazor-error-ui')) continue;
            const least = isPhone && e.matches('button, [type=file]') && e.closest('.act-bar') && !e.closest('.refusal') ? glove : 44;
            if (box.height < least - 0.5 || box.width < least - 0.5) faults.push(`${Math.round(box.width)} x ${Math.round(box.height)}: ${hit.outerHTML.slice(0, 120)}`);
          }
          return faults;
        }
        """;

    // 7:1 is more than the levels above ask for.
    private const string ByDay = """
        { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: { 'color-contrast-enhanced': { enabled: true } }, resultTypes: ['violations'] }
        """;

    private const string InTheDark = "{ runOnly: { type: 'rule', values: ['color-contrast-enhanced'] }, resultTypes: ['violations'] }";

    private static readonly string s_axe = new BundledAxeScriptProvider().GetScript();

    public static async Task IsSound(Bay bay, string screen)
    {
        if (Environment.GetEnvironmentVariable("LASTOFF_SCREENS") is { Length: > 0 } folder)
        {
            await PictureAsync(bay.Page, Path.Combine(folder, screen.Replace(' ', '-')));
        }

        Assert.Empty(bay.Stopped);
        await HasNoFault(bay, screen, ByDay);
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Dark });
        await HasNoFault(bay, $"{screen}, in the dark", InTheDark);
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
        var overflow = await bay.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(overflow <= 0, $"{screen} is {overflow} px too wide.");
        var small = await bay.Page.EvaluateAsync<string[]>(TooSmall);
        Assert.True(small.Length == 0, $"{screen}: too small to hit: {string.Join("; ", small)}");
    }

    /// <summary>Run in the page that is looked at and there only: none of ours has frames, and a page of its own for each answer costs a third of the time.</summary>
    private static async Task HasNoFault(Bay bay, string screen, string options)
    {
        if (await bay.Page.EvaluateAsync<bool>("typeof axe === 'undefined'"))
        {
            await bay.Page.EvaluateAsync(s_axe);
        }

        var faults = await bay.Page.EvaluateAsync<string[]>($"async () => (await axe.run(document, {options})).violations.map(v => `${{v.id}} at ${{v.nodes[0].html}}`)");
        Assert.True(faults.Length == 0, $"{screen}: {string.Join("; ", faults)}");
    }

    private static async Task PictureAsync(IPage page, string path)
    {
        var was = page.ViewportSize!;
        foreach (var (width, height) in new[] { (390, 844), (1440, 900) })
        {
            await page.SetViewportSizeAsync(width, height);
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = scheme });
                await page.ScreenshotAsync(new PageScreenshotOptions { Path = $"{path}-{width}-{(scheme == ColorScheme.Dark ? "dark" : "day")}.png" });
            }
        }

        await page.SetViewportSizeAsync(was.Width, was.Height);
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
    }
}
