using Lastoff.App.Device;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>The tray that fasteners of a job go into. What was tapped last on this device stays, over a reload too, until another is tapped or somebody goes back in; before that, what the record says. What was tapped for one joint is of that joint: no other set lands among its fasteners by itself.</summary>
public sealed class TrayInHand(Store store, Guid job)
{
    private const string Tapped = "tray";
    private const string Since = "since";
    private const string Joint = "joint";

    /// <summary>The tray, and the going back in that it was tapped after.</summary>
    private Dictionary<string, string> _kept = [];

    private string Name => $"tray {job}";

    public async Task LoadAsync() => _kept = await store.TextsAsync(Name);

    /// <summary>"" for none, and null while nobody said.</summary>
    public string? Of(Job of) => _kept.GetValueOrDefault(Since) == BackIn(of) ? _kept.GetValueOrDefault(Tapped) : TrayTold.Last(of);

    /// <summary>The same for one joint: the tray that was tapped for it, or else the one that none but its own fasteners lie in.</summary>
    public string? For(Job of, string joint) => _kept.GetValueOrDefault(Since) == BackIn(of) && _kept.GetValueOrDefault(Joint) == joint ? _kept.GetValueOrDefault(Tapped) : TrayTold.For(of, joint, Of(of));

    /// <param name="joint">The joint that it was tapped for; null for all that follows.</param>
    public Task TakeAsync(Job of, string tray, string? joint = null)
    {
        _kept = new() { [Tapped] = tray, [Since] = BackIn(of), [Joint] = joint ?? "" };
        return store.KeepTextsAsync(Name, _kept);
    }

    private static string BackIn(Job of) => TrayTold.BackIn(of)?.ToString() ?? "";
}
