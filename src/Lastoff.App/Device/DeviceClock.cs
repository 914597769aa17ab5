namespace Lastoff.App.Device;

public static class DeviceClock
{
    /// <summary>The device's clock in the device's own zone, which summer time may change while the app is open.</summary>
    public static DateTimeOffset Now => DateTimeOffset.UtcNow.ToOffset(TimeSpan.FromMinutes(PageModule.MinutesAhead()));

    /// <summary>A time of day the way the person reads it: only the time when it is today's.</summary>
    public static string Words(DateTimeOffset at)
    {
        var now = Now;
        var local = at.ToOffset(now.Offset);
        return local.Date == now.Date
            ? local.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture)
            : local.ToString("d MMM HH:mm", System.Globalization.CultureInfo.InvariantCulture);
    }
}
