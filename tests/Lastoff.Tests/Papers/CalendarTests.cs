using System.Text;
using Lastoff.Core.Papers;

namespace Lastoff.Tests.Papers;

/// <summary>A diary read back by another program's reader: Ical.Net 5.2.4 (RFC 5545).</summary>
public class CalendarTests
{
    private static readonly DateTimeOffset Stamp = new(2026, 3, 1, 9, 30, 0, TimeSpan.FromHours(2));

    public static TheoryData<string> Texts =>
    [
        "Re-check the coolant",
        "Semicolons; commas, back\\slashes and \"quotes\": all of it",
        "Two\nlines",
        new string('x', 500),
        string.Concat(Enumerable.Repeat("Öl\U0001F6E2 und 冷却液, ", 40)),
        "Family \U0001F468\u200D\U0001F469\u200D\U0001F467 and מים",
        string.Concat(Enumerable.Range(0, 80).Select(n => new string('é', n % 3) + "\U0001F527")),
    ];

    [Theory]
    [MemberData(nameof(Texts))]
    public void A_text_reads_back_as_it_was_written(string text)
    {
        var written = Core.Papers.Calendar.Write([new DiaryEntry("one@lastoff", Occasion.ReCheck, text, new DateOnly(2026, 4, 5)) { Description = text }], Stamp);
        var read = Ical.Net.Calendar.Load(written)!.Events.Single();
        Assert.Equal(text, read.Summary);
        Assert.Equal(text, read.Description);
        Assert.Equal("one@lastoff", read.Uid);
        Assert.Equal("Re-check", Assert.Single(read.Categories));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void No_line_is_longer_than_75_octets_and_none_is_cut_within_a_character(string text)
    {
        var written = Core.Papers.Calendar.Write([new DiaryEntry("one@lastoff", Occasion.ReCheck, text, new DateOnly(2026, 4, 5))], Stamp);
        Assert.EndsWith("END:VCALENDAR\r\n", written, StringComparison.Ordinal);
        foreach (var line in written.Split("\r\n"))
        {
            Assert.True(Encoding.UTF8.GetByteCount(line) <= 75, line);
            Assert.DoesNotContain('\uFFFD', Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(line)));
            Assert.DoesNotContain('\n', line);
        }
    }

    [Fact]
    public void A_whole_day_an_hour_and_an_open_end_read_back()
    {
        var from = new DateTimeOffset(2026, 10, 25, 1, 30, 0, TimeSpan.FromHours(2));
        var written = Core.Papers.Calendar.Write(
        [
            new DiaryEntry("day", Occasion.PartExpected, "Valve seals", new DateOnly(2026, 12, 31)),
            new DiaryEntry("hour", Occasion.Appointment, "Brings the sprayer", new DateOnly(2026, 10, 25)) { From = from, To = from.AddHours(1.5) },
            new DiaryEntry("open", Occasion.Appointment, "Fetches it", new DateOnly(2026, 10, 25)) { From = from },
        ], Stamp);
        var events = Ical.Net.Calendar.Load(written)!.Events.ToDictionary(item => item.Uid!);
        Assert.True(events["day"].IsAllDay);
        Assert.Equal((new DateOnly(2026, 12, 31), new DateOnly(2027, 1, 1)), (events["day"].Start!.Date, events["day"].End!.Date));
        Assert.Equal((from.UtcDateTime, from.UtcDateTime.AddHours(1.5)), (events["hour"].Start!.AsUtc, events["hour"].End!.AsUtc));
        Assert.Equal(from.UtcDateTime, events["open"].Start!.AsUtc);
        Assert.All(events.Values, item => Assert.Equal(Stamp.UtcDateTime, item.DtStamp!.AsUtc));
        Assert.All(events.Values, item => Assert.Empty(item.Alarms));
    }

    [Fact]
    public void What_hides_or_turns_text_round_is_left_out_and_adds_no_line()
    {
        var written = Core.Papers.Calendar.Write([new DiaryEntry("one", Occasion.ReCheck, "A\u202Eb\u0000\r\nBEGIN:VALARM", new DateOnly(2026, 4, 5))], Stamp);
        Assert.Equal("Ab\nBEGIN:VALARM", Ical.Net.Calendar.Load(written)!.Events.Single().Summary);
    }
}
