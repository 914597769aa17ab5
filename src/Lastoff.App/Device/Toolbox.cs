using System.Text.Json;
using Lastoff.Core;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Device;

/// <summary>The torque wrenches at this device, which of them is in hand and how it is rigged, and for each person the unit that tightness is shown in. Kept on the device.</summary>
public sealed class Toolbox(Store store, Person person)
{
    private const string Setting = "toolbox";
    private const string Units = "tightness";

    private KeptToolbox _kept = KeptToolbox.Empty;
    /// <summary>The sign of each person's unit, by name.</summary>
    private Dictionary<string, string> _units = [];

    /// <summary>Who has none of their own sees the one that was chosen for everybody at the device.</summary>
    public TorqueUnit Unit => TorqueUnits.Signed(_units.GetValueOrDefault(person.Name, _kept.Unit)) ?? TorqueUnit.NewtonMetre;
    public IReadOnlyList<KeptWrench> Wrenches => _kept.Wrenches;
    /// <summary>The wrench last taken; null when none is.</summary>
    public KeptWrench? InHand => _kept.Wrenches.Find(wrench => wrench.Name == _kept.InHand);
    /// <summary>The crow's foot or extension on it, from the square to the middle of the fastener; zero when there is none.</summary>
    public double Extension_mm => _kept.Extension_mm;
    /// <summary>Between the lever's line and the extension.</summary>
    public double Angle_deg => _kept.Angle_deg;

    public async Task LoadAsync()
    {
        _units = await store.TextsAsync(Units);
        var text = await StoreModule.SettingAsync(Setting);
        _kept = text.Length == 0 ? KeptToolbox.Empty : JsonSerializer.Deserialize(text, AppJson.Default.KeptToolbox) ?? KeptToolbox.Empty;
    }

    public async Task ShowInAsync(TorqueUnit unit)
    {
        Dictionary<string, string> units = new(_units) { [person.Name] = unit.Sign() };
        await store.KeepTextsAsync(Units, units);
        _units = units;
    }

    /// <summary>Puts a wrench in, in place of the one of the same name; whoever does has it in hand.</summary>
    public Task PutInAsync(KeptWrench wrench) => KeepAsync(_kept with { Wrenches = [.. _kept.Wrenches.Where(w => w.Name != wrench.Name), wrench], InHand = wrench.Name, Extension_mm = 0, Angle_deg = 0 });

    public Task TakeOutAsync(string name) => KeepAsync(_kept with { Wrenches = [.. _kept.Wrenches.Where(w => w.Name != name)] });

    /// <param name="name">Null to take none.</param>
    public Task TakeAsync(string? name, double extension_mm, double angle_deg) => KeepAsync(_kept with { InHand = name, Extension_mm = extension_mm, Angle_deg = angle_deg });

    /// <summary>How the wrench in hand does a torque today; null when there is none.</summary>
    public Answer<WrenchFit>? Fit(Torque torque) => InHand?.AsWrench().For(torque, Extension_mm, Angle_deg, LocalTime.Today, Unit);

    /// <summary>The wrench in hand as the record names it.</summary>
    /// <param name="torque">What the fastener is to get; null for a turn, which is not set on it.</param>
    public WrenchUsed? Used(Torque? torque) => InHand is not { } wrench ? null
        : new WrenchUsed(wrench.Name, wrench.CalibrationDue, torque is { } wanted && Fit(wanted)?.Value is { IsInRange: true } fit ? fit.Mark.NewtonMetres : null);

    private async Task KeepAsync(KeptToolbox toolbox)
    {
        await StoreModule.KeepSettingAsync(Setting, JsonSerializer.Serialize(toolbox, AppJson.Default.KeptToolbox));
        _kept = toolbox;
    }
}
