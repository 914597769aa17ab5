using System.Runtime.InteropServices.JavaScript;
using Lastoff.App.Device;

namespace Lastoff.App.MapEditing;

/// <summary>A map's text that was changed and is not saved yet.</summary>
/// <param name="EditedFrom">The fingerprint of the text it was edited from; null for a new map.</param>
public sealed record MapDraft(string Text, string? EditedFrom);

/// <summary>The maps that are changed and not saved, kept on the device so that leaving the page loses nothing.</summary>
public sealed class MapDrafts(Store store)
{
    private const string List = "map drafts";

    /// <summary>The titles of the maps with a draft, by their names.</summary>
    public async Task<IReadOnlyDictionary<string, string>> TitlesAsync() => await store.TextsAsync(List);

    public async Task<MapDraft?> FindAsync(string name)
    {
        var kept = await store.TextsAsync(Name(name));
        return kept.TryGetValue("text", out var text) ? new MapDraft(text, kept.GetValueOrDefault("edited_from")) : null;
    }

    /// <summary>Keeps a draft; false when the device has no room for it.</summary>
    public async Task<bool> KeepAsync(string name, string title, MapDraft draft)
    {
        Dictionary<string, string> texts = new() { ["text"] = draft.Text };
        if (draft.EditedFrom is { } from)
        {
            texts["edited_from"] = from;
        }

        try
        {
            await store.KeepTextsAsync(Name(name), texts);
            var titles = await store.TextsAsync(List);
            if (titles.GetValueOrDefault(name) != title)
            {
                titles[name] = title;
                await store.KeepTextsAsync(List, titles);
            }

            return true;
        }
        catch (JSException)
        {
            return false;
        }
    }

    /// <summary>It is saved, or thrown away.</summary>
    public async Task ForgetAsync(string name)
    {
        await store.KeepTextsAsync(Name(name), []);
        var titles = await store.TextsAsync(List);
        if (titles.Remove(name))
        {
            await store.KeepTextsAsync(List, titles);
        }
    }

    private static string Name(string map) => $"draft map {map}";
}
