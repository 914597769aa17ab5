using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
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

    private static readonly AxeRunOptions s_byDay = new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
        // 7:1, which is more than the level above asks for.
        Rules = new Dictionary<string, RuleOptions> { ["color-contrast-enhanced"] = new() { Enabled = true } },
    };

    private static readonly AxeRunOptions s_inTheDark = new() { RunOnly = new RunOnlyOptions { Type = "rule", Values = ["color-contrast-enhanced"] } };

    public static async Task IsSound(Bay bay, string screen)
    {
        if (Environment.GetEnvironmentVariable("LASTOFF_SCREENS") is { Length: > 0 } folder)
        {
            await PictureAsync(bay.Page, Path.Combine(folder, screen.Replace(' ', '-')));
        }

        Assert.Empty(bay.Stopped);
        await HasNoFault(bay, screen, s_byDay);
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Dark });
        await HasNoFault(bay, $"{screen}, in the dark", s_inTheDark);
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
        var overflow = await bay.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(overflow <= 0, $"{screen} is {overflow} px too wide.");
        var small = await bay.Page.EvaluateAsync<string[]>(TooSmall);
        Assert.True(small.Length == 0, $"{screen}: too small to hit: {string.Join("; ", small)}");
    }

    private static async Task HasNoFault(Bay bay, string screen, AxeRunOptions options)
    {
        var result = await bay.Page.RunAxe(options);
        Assert.True(result.Violations.Length == 0, $"{screen}: " + string.Join("; ", result.Violations.Select(v => $"{v.Id} at {v.Nodes[0].Html}")));
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
