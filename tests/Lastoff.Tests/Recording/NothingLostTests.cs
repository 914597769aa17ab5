using CsCheck;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>No line is lost, whatever it says: every sign of it is understood or stands in a note, and reading it takes time in proportion to its length.</summary>
public class NothingLostTests
{
    private static readonly string[] Spellings =
    [
        "three", "3", "12", "13 mm", "13", "M8", "m8x1.25", "3/8", "3/8-16", "half inch", "T30", "torx", "bolts", "bolt", "nut", "hose", "plug", "clip", "clamp", "off", "out", "the", "a",
        "pump", "alternator", "bracket", "tray 2", "tray", "bag C", ",", ".", "and", "then", "with", "seized", "snapped", "captive", "left hand", "left", "one", "x", "40", "Nm", "litres",
        "gallon", "coolant", "battery", "tied", "up", "unplugged", "drained", "took", "still", "check", "needs", "of", "from", "on", "in", "washers", "about", "key", "long", "+", ";", "\\",
        "no", "knife", "bar", "'s", "²", "½", "😀", "-", "driver's side", "12 point", "0", "in the way of", "not", "it", "rag", "capped", "ends", "by", "longer", "99999999999", "1/0",
    ];

    private static readonly string[] German = [.. RecordedExample.Of("german-lines.txt", "de").Concat(RecordedExample.Of("german-unseen-lines.txt", "de")).SelectMany(example => example.Line.Split(' ')).Distinct(), "1,5", ",", "½", "er", "-"];

    private static readonly Gen<string> Words = Gen.Int[0, Spellings.Length - 1].Select(at => Spellings[at]);

    private static readonly Gen<string> Spoken = Words.Array[0, 14].Select(words => string.Join(' ', words));

    [Fact]
    public void Of_words_a_mechanic_may_say() => Spoken.Sample(HoldsUp, iter: 20_000);

    [Fact]
    public void Of_words_of_another_language() => Gen.Int[0, German.Length - 1].Select(at => German[at]).Array[0, 14].Select(words => string.Join(' ', words))
        .Sample(line => HoldsUp(line, LineReader.In("de")), iter: 5_000);

    [Fact]
    public void Of_words_run_together() => Words.Array[0, 8].Select(string.Concat).Sample(HoldsUp, iter: 5_000);

    [Fact]
    public void Of_any_text() => Gen.String.Sample(HoldsUp, iter: 5_000);

    [Fact]
    public void A_reading_written_and_read_again_is_the_same() => Spoken.Sample(line =>
    {
        var readings = LineReader.English.Read(line).Readings;
        if (readings.Count > 0)
        {
            Assert.Equal(readings, ReadingText.Read(ReadingText.Write(readings)).Or(sentence => throw new FormatException(sentence)));
        }
    }, iter: 20_000);

    [Fact]
    public void Every_example_keeps_its_text() =>
        Assert.All(RecordedExample.Of("lines.txt").Concat(RecordedExample.Of("fresh-lines.txt")).Concat(RecordedExample.Of("later-lines.txt"))
            .Concat(RecordedExample.Of("wider-lines.txt")).Concat(RecordedExample.Of("second-wider-lines.txt")).Concat(RecordedExample.Of("third-wider-lines.txt")).Concat(RecordedExample.Of("fourth-wider-lines.txt"))
            .Concat(RecordedExample.Of("fifth-wider-lines.txt")).Concat(RecordedExample.Of("sixth-wider-lines.txt")), example => HoldsUp(example.Line));

    // Which of them it would be is not said: whoever knows would make the reader fit it.
    [Fact]
    public void Every_unseen_line_keeps_its_text() => Assert.True(RecordedExample.Of("unseen-lines.txt").All(example => Record.Exception(() => HoldsUp(example.Line)) is null));

    [Theory]
    [InlineData("bolts off the pump ")]
    [InlineData("alternator off tray 1, ")]
    [InlineData("two 13 mil nuts, seized, ")]
    [InlineData("1 1/")]
    [InlineData("fan and ")]
    [InlineData("x")]
    [InlineData("tied the with 3 ")]
    public void A_long_line_takes_no_more_memory_than_its_length_asks_for(string piece)
    {
        var (once, tenfold) = (Repeated(piece, 20_000), Repeated(piece, 200_000));
        LineReader.English.Read(once);
        // Ten times the length: a reader that kept something of each pair of words would need a hundred times as much.
        Assert.InRange(Allocated(tenfold), 0, 25 * Allocated(once));
    }

    private static void HoldsUp(string line) => HoldsUp(line, LineReader.English);

    private static void HoldsUp(string line, LineReader reader)
    {
        var read = reader.Read(line);
        Assert.Equal(line, read.Text);
        var notes = string.Join('\n', read.Readings.Select(reading => reading.Note));
        var at = 0;
        foreach (var stretch in read.Stretches)
        {
            Assert.True(string.IsNullOrWhiteSpace(line[at..stretch.Start].Replace("-", "", StringComparison.Ordinal)), "Only blanks stand between the stretches.");
            at = stretch.Start + stretch.Length;
            if (!stretch.IsUnderstood)
            {
                Assert.Contains(line[stretch.Start..at], notes, StringComparison.Ordinal);
            }
        }

        Assert.True(string.IsNullOrWhiteSpace(line[at..].Replace("-", "", StringComparison.Ordinal)), "Only blanks stand at the end.");
        Assert.Equal(string.IsNullOrWhiteSpace(line), read.Stretches.Count == 0);
    }

    private static string Repeated(string piece, int length) => string.Concat(Enumerable.Repeat(piece, length / piece.Length));

    private static long Allocated(string line)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        LineReader.English.Read(line);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
