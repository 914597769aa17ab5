namespace Lastoff.App.Device;

/// <summary>Time where the device is, by the browser's time zones: the app is fetched without any, and the browser's are newer.</summary>
public static class LocalTime
{
    public static DateTimeOffset Now => Of(DateTimeOffset.UtcNow);

    public static DateOnly Today => DayOf(Now);

    /// <summary>The same moment as the clock on the wall shows it.</summary>
    public static DateTimeOffset Of(DateTimeOffset at) => at.ToOffset(TimeSpan.FromMinutes(PageModule.OffsetAt_min(at.ToUnixTimeMilliseconds())));

    public static DateOnly DayOf(DateTimeOffset at) => DateOnly.FromDateTime(Of(at).DateTime);

    public static TimeOnly HourOf(DateTimeOffset at) => TimeOnly.FromDateTime(Of(at).DateTime);

    /// <summary>When the clock on the wall shows that; of an hour left out in spring, the one after.</summary>
    public static DateTimeOffset At(DateOnly day, TimeOnly hour) =>
        Of(DateTimeOffset.FromUnixTimeMilliseconds((long)PageModule.MomentOf_ms(day.Year, day.Month, day.Day, hour.Hour, hour.Minute)));
}
