using System.Globalization;

namespace Lastoff.Core.Papers;

/// <summary>Times as a paper says them: by the clock of the device that wrote the entry.</summary>
internal static class PaperTime
{
    // No line ends within a date.
    private const string DayForm = "d'\u00A0'MMMM'\u00A0'yyyy";

    public static string Day(DateTimeOffset at) => at.ToString(DayForm, CultureInfo.InvariantCulture);

    public static string Hour(DateTimeOffset at) => at.ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Of(DateTimeOffset at) => $"{Day(at)}, {Hour(at)}";

    public static string Of(DateOnly day) => day.ToString(DayForm, CultureInfo.InvariantCulture);
}
