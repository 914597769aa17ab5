using System.Security.Cryptography;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Device;

/// <summary>Who holds the device, and the device's own name. Both are kept on it.</summary>
public sealed class Person
{
    /// <summary>Longest name an entry can carry.</summary>
    public const int LongestName = 200;

    public string Device { get; private set; } = "";
    /// <summary>Empty until the person has said it.</summary>
    public string Name { get; private set; } = "";

    public event Action? Changed;

    public async Task LoadAsync()
    {
        Name = await StoreModule.SettingAsync("name");
        Device = await StoreModule.SettingAsync("device");
        if (Device.Length == 0)
        {
            Device = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(10));
            await StoreModule.KeepSettingAsync("device", Device);
        }
    }

    public async Task CallAsync(string name)
    {
        await StoreModule.KeepSettingAsync("name", name);
        Name = name;
        Changed?.Invoke();
    }

    public Pen Pen() => new(Device, Name, LocalTime.Now, RandomNumberGenerator.GetBytes(10));
}
