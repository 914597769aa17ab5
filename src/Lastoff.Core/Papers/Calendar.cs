using System.Globalization;
using System.Text;

namespace Lastoff.Core.Papers;

/// <summary>What stands in a workshop's diary.</summary>
public enum Occasion { Appointment, ReCheck, PartExpected }

/// <summary>One entry of a diary: a day, or an hour of one.</summary>
/// <param name="Uid">The same for the same occasion for good, so that a calendar which reads it twice has it once.</param>
/// <param name="Day">The day it falls on where no hours are given.</param>
public sealed record DiaryEntry(string Uid, Occasion Occasion, string Summary, DateOnly Day)
{
    /// <summary>The entry that set it; null for a part that is awaited.</summary>
    public Guid? Set { get; init; }
    /// <summary>When it begins; null for the whole day.</summary>
    public DateTimeOffset? From { get; init; }
    /// <summary>When it ends; null where that is open.</summary>
    public DateTimeOffset? To { get; init; }
    public string Description { get; init; } = "";
    /// <summary>A calendar that had it takes it out.</summary>
    public bool IsCalledOff { get; init; }
}

/// <summary>Writes a diary as iCalendar (RFC 5545), which every calendar reads.</summary>
public static class Calendar
{
    /// <summary>RFC 5545, section 3.1: lines of more than 75 octets, without the break, should be folded.</summary>
    private const int LineOctets = 75;

    /// <param name="stamp">When it is written.</param>
    public static string Write(IEnumerable<DiaryEntry> entries, DateTimeOffset stamp)
    {
        var text = new StringBuilder();
        Line(text, "BEGIN:VCALENDAR");
        Line(text, "VERSION:2.0");
        Line(text, "PRODID:-//Lastoff//Diary//EN");
        foreach (var entry in entries)
        {
            Line(text, "BEGIN:VEVENT");
            Line(text, $"UID:{Escaped(entry.Uid)}");
            Line(text, $"DTSTAMP:{Utc(stamp)}");
            Line(text, entry.From is { } from ? $"DTSTART:{Utc(from)}" : $"DTSTART;VALUE=DATE:{Day(entry.Day)}");
            // The end of a whole day is the day after it (section 3.6.1).
            Line(text, entry switch
            {
                { From: null } => $"DTEND;VALUE=DATE:{Day(entry.Day.AddDays(1))}",
                { To: { } to } when to > entry.From => $"DTEND:{Utc(to)}",
                _ => null,
            });
            Line(text, $"SUMMARY:{Escaped(entry.Summary)}");
            Line(text, entry.Description.Length > 0 ? $"DESCRIPTION:{Escaped(entry.Description)}" : null);
            // Sections 3.8.1.11 and 3.8.7.4: called off, and later than what a calendar had under this identifier.
            Line(text, entry.IsCalledOff ? "STATUS:CANCELLED" : null);
            Line(text, entry.IsCalledOff ? "SEQUENCE:1" : null);
            Line(text, $"CATEGORIES:{Category(entry.Occasion)}");
            Line(text, "END:VEVENT");
        }

        Line(text, "END:VCALENDAR");
        return text.ToString();
    }

    private static string Category(Occasion occasion) => occasion switch
    {
        Occasion.Appointment => "Appointment",
        Occasion.ReCheck => "Re-check",
        _ => "Part expected",
    };

    private static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) => day.ToString("yyyyMMdd", CultureInfo.InvariantCulture);

    /// <summary>Section 3.3.11. What no calendar may hold is left out.</summary>
    private static string Escaped(string text) => ShownText.Of(text)
        .Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace(";", "\\;", StringComparison.Ordinal)
        .Replace(",", "\\,", StringComparison.Ordinal)
        .Replace("\n", "\\n", StringComparison.Ordinal);

    /// <summary>Folded between characters, never inside one.</summary>
    private static void Line(StringBuilder text, string? line)
    {
        if (line is null)
        {
            return;
        }

        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LineOctets)
            {
                text.Append("\r\n ");
                // The space counts.
                octets = 1;
            }

            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
    }
}
