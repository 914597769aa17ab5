namespace Lastoff.App.Device;

public enum Quantity { Volume, Temperature, VacuumGauge, PressureGauge, Dial, Height, Percent, Gravity }

/// <summary>The units this person reads and measures in, and how high the bay lies: asked once, kept on the device under the person's name.</summary>
public sealed class Measures(Store store, Person person)
{
    /// <summary>Where they were kept for everybody at the device; who has none of their own begins with these.</summary>
    private const string Everybody = "measures";

    private Dictionary<string, string> _chosen = [];

    public async Task LoadAsync()
    {
        _chosen = await store.TextsAsync(Name);
        if (_chosen.Count == 0)
        {
            _chosen = await store.TextsAsync(Everybody);
        }
    }

    /// <summary>What can be chosen; the first is taken until a person chooses.</summary>
    public static IReadOnlyList<string> Units(Quantity quantity) => quantity switch
    {
        Quantity.Volume => ["L", "US qt"],
        Quantity.Temperature => ["°C", "°F"],
        Quantity.VacuumGauge => ["inHg vacuum", "kPa vacuum", "psi vacuum", "kPa abs", "mbar abs"],
        Quantity.PressureGauge => ["kPa gauge", "psi gauge", "bar gauge", "kPa abs"],
        Quantity.Dial => ["kPa", "inHg", "psi", "mbar"],
        Quantity.Height => ["m", "ft"],
        Quantity.Percent => ["%"],
        _ => [""],
    };

    public string Unit(Quantity quantity) =>
        _chosen.TryGetValue(quantity.ToString(), out var unit) && Units(quantity).Contains(unit) ? unit : Units(quantity)[0];

    public Task ChooseAsync(Quantity quantity, string unit) => KeepAsync(quantity.ToString(), unit);

    /// <summary>How high the bay lies, as it was typed; empty for sea level.</summary>
    public string Height => _chosen.GetValueOrDefault("height", "");

    public Task KeepHeightAsync(string text) => KeepAsync("height", text);

    private string Name => $"{Everybody} {person.Name}";

    private Task KeepAsync(string name, string text)
    {
        _chosen[name] = text;
        return store.KeepTextsAsync(Name, _chosen);
    }
}
