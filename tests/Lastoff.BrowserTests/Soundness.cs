using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>No fault that axe finds, nothing that is too wide, and nothing that the server's content security policy stopped. With LASTOFF_SCREENS naming a folder, a picture of each screen goes there, to be looked at.</summary>
internal static class Soundness
{
    public static async Task IsSound(Bay bay, string screen)
    {
        if (Environment.GetEnvironmentVariable("LASTOFF_SCREENS") is { Length: > 0 } folder)
        {
            await bay.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{screen.Replace(' ', '-')}-{bay.Page.ViewportSize!.Width}.png"), FullPage = true });
        }

        Assert.Empty(bay.Stopped);
        var options = new AxeRunOptions
        {
            RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
            // 7:1, which is more than the level above asks for.
            Rules = new Dictionary<string, RuleOptions> { ["color-contrast-enhanced"] = new() { Enabled = true } },
        };
        var result = await bay.Page.RunAxe(options);
        Assert.True(result.Violations.Length == 0, $"{screen}: " + string.Join("; ", result.Violations.Select(v => $"{v.Id} at {v.Nodes[0].Html}")));
        var overflow = await bay.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(overflow <= 0, $"{screen} is {overflow} px too wide.");
    }
}
