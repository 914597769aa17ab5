using System.Globalization;

namespace Lastoff.Core.Papers;

/// <summary>Times as a paper says them: by the clock of the device that wrote the entry.</summary>
internal static class PaperTime
{
    public static string Day(DateTimeOffset at) => at.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Hour(DateTimeOffset at) => at.ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Of(DateTimeOffset at) => $"{Day(at)}, {Hour(at)}";

    public static string Of(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
