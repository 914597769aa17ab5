using Lastoff.App.Device;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>The tray that fasteners of a job go into. What was tapped last on this device stays, over a reload too, until another is tapped or somebody goes back in; before that, what the record says.</summary>
public sealed class TrayInHand(Store store, Guid job)
{
    private const string Tapped = "tray";
    private const string Since = "since";

    /// <summary>The tray, and the going back in that it was tapped after.</summary>
    private Dictionary<string, string> _kept = [];

    private string Name => $"tray {job}";

    public async Task LoadAsync() => _kept = await store.TextsAsync(Name);

    /// <summary>"" for none, and null while nobody said.</summary>
    public string? Of(Job of) => _kept.GetValueOrDefault(Since) == BackIn(of) ? _kept.GetValueOrDefault(Tapped) : TrayTold.Last(of);

    /// <summary>The same for one joint: gone back in, its fasteners go where they lay before, until another tray is taken.</summary>
    public string? For(Job of, string joint) => Of(of) ?? TrayTold.Of(of, joint);

    public Task TakeAsync(Job of, string tray)
    {
        _kept = new() { [Tapped] = tray, [Since] = BackIn(of) };
        return store.KeepTextsAsync(Name, _kept);
    }

    private static string BackIn(Job of) => TrayTold.BackIn(of)?.ToString() ?? "";
}
