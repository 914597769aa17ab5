using Lastoff.App.Exchange;
using Lastoff.App.Words;

namespace Lastoff.App.Device;

public enum Hand { Right, Left }

/// <summary>The language a person reads and the hand whose thumb does the work. Kept on the device under the person's name.</summary>
public sealed class Preferences(Store store, Person person, Server server)
{
    /// <summary>Where what was chosen before anybody had said a name is kept; who has nothing of their own begins with it.</summary>
    private const string Anybody = "preferences ";
    private const string LanguageName = "language";
    private const string HandName = "hand";

    private Dictionary<string, string> _chosen = [];

    public Hand Hand => _chosen.GetValueOrDefault(HandName) == nameof(Hand.Left) ? Hand.Left : Hand.Right;

    /// <summary>What this person chose; until then, what the browser is set to.</summary>
    public async Task LoadAsync()
    {
        _chosen = await store.TextsAsync(Name);
        if (_chosen.Count == 0)
        {
            _chosen = await store.TextsAsync(Anybody);
        }

        await TakeAsync();
    }

    public Task SpeakAsync(string language) => KeepAsync(LanguageName, language);

    public Task HoldInAsync(Hand hand) => KeepAsync(HandName, hand.ToString());

    private string Name => Anybody + person.Name;

    private async Task KeepAsync(string name, string value)
    {
        _chosen[name] = value;
        await store.KeepTextsAsync(Name, _chosen);
        await TakeAsync();
    }

    private async Task TakeAsync()
    {
        await Speech.TakeAsync(_chosen.GetValueOrDefault(LanguageName) ?? PageModule.BrowserLanguage(), server);
        PageModule.Dress(Speech.Language, Hand == Hand.Left ? "left" : "right");
    }
}
