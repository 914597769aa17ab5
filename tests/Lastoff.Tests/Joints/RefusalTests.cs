using System.Globalization;
using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>Whatever lies outside the range of a formula or a standard gets a sentence and no number.</summary>
public class RefusalTests
{
    private sealed record Row(string Kind, string Input, string Says, string Why);

    [Fact]
    public void What_is_out_of_range_gets_a_sentence() => Assert.Multiple([.. Checks.Read<Row>("refusals.json").Select(row => (Action)(() =>
    {
        var sentence = Sentence(row);
        Assert.True(sentence is not null, $"{row} was not refused");
        Assert.Contains(row.Says, sentence, StringComparison.Ordinal);
        Assert.EndsWith(".", sentence, StringComparison.Ordinal);
    }))]);

    private static string? Sentence(Row row)
    {
        var words = row.Input.Split(' ', 2);
        var numbers = row.Input.Split(' ', ',').Select(word => double.TryParse(word, CultureInfo.InvariantCulture, out var value) ? value : double.NaN).ToArray();
        return row.Kind switch
        {
            "thread" => ThreadReader.Read(row.Input).Sentence,
            "class" => BoltGrade.Of(words[1], Given.Thread(words[0])).Sentence,
            "friction" => Friction.Read(row.Input).Sentence,
            "nut factor" => NutFactor.Of(numbers[0]).Sentence,
            "engaged" => Stripping.Of(Given.Thread("M8"), numbers[0], 800, 240).Sentence,
            "fastener" => FastenerActions.WhyNot(Enum.Parse<FastenerAction>(row.Input)),
            "bearing" => BearingFace.Stated(Given.Thread("M8"), numbers[0], numbers[1]).Sentence,
            "wrench" => WrenchSetting.For(Torque.FromNewtonMetres(80), numbers[0], numbers[1], numbers[2]).Sentence,
            "holes" => HoleFile.ReadRow(row.Input).TryGet(out var holes, out var sentence) ? HolePattern.From(holes).Sentence : sentence,
            "interaction" => ElasticInteraction.Of(Given.Circle(4), numbers).Sentence,
            "shares" => TighteningPasses.For(Given.Circle(4), [.. numbers.Select(n => n / 100)], []).Sentence,
            "angles" => TighteningPasses.For(Given.Circle(4), [1], numbers).Sentence,
            _ => throw new InvalidDataException(row.Kind),
        };
    }

    [Theory]
    [InlineData("M8", "M8x1.25")]
    [InlineData("M8x1.25", "M8x1.25")]
    [InlineData("m 10 × 1.25-6g", "M10x1.25")]
    [InlineData("M14x1.5 LH", "M14x1.5")]
    [InlineData("3/8-16 UNC", "3/8-16 UNC")]
    [InlineData("3/8 UNF", "3/8-24 UNF")]
    [InlineData("1/4-20", "1/4-20 UNC")]
    [InlineData("#10-32", "#10-32 UNF")]
    [InlineData("10-24", "#10-24 UNC")]
    [InlineData("1-8", "1-8 UNC")]
    [InlineData("1-1/8-7 UNC-2A", "1 1/8-7 UNC")]
    public void Threads_are_read_as_they_are_written(string text, string designation) => Assert.Equal(designation, Given.Thread(text).Designation);

    [Fact]
    public void Every_thread_of_the_tables_reads_back_as_itself() =>
        Assert.All(ThreadTable.All, thread => Assert.Equal(thread, Given.Thread(thread.Designation)));
}
