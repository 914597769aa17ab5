using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>What was typed at a step and is not recorded yet, kept on the device so that a reload or a flat battery loses nothing.</summary>
public sealed class Draft
{
    private readonly Store _store;
    private readonly string _name;
    private readonly Dictionary<string, string> _texts;

    private Draft(Store store, string name, Dictionary<string, string> texts) => (_store, _name, _texts) = (store, name, texts);

    public static async Task<Draft> OpenAsync(Store store, Guid job, string target)
    {
        var name = $"draft {job} {target}";
        return new Draft(store, name, await store.TextsAsync(name));
    }

    /// <summary>Empty when nothing was typed.</summary>
    public string this[string field] => _texts.GetValueOrDefault(field, "");

    public Task SetAsync(string field, string text)
    {
        _texts[field] = text;
        return KeepAsync();
    }

    /// <summary>It is recorded, or struck out.</summary>
    public Task ClearAsync()
    {
        _texts.Clear();
        return KeepAsync();
    }

    private async Task KeepAsync()
    {
        try
        {
            await _store.KeepTextsAsync(_name, _texts);
        }
        catch (JSException)
        {
            // Without room for it, it still stands on the screen until the page is left.
        }
    }
}
