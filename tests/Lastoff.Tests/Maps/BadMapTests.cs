using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>Each file of data/bad-maps ends with what is wrong with it, one fault a line: "#! LINE, FIELD: SENTENCE".</summary>
public class BadMapTests
{
    public static TheoryData<string> Files => [.. BadMaps.Names];

    [Theory]
    [MemberData(nameof(Files))]
    public void Every_fault_is_named_with_its_line_and_a_sentence(string name)
    {
        var text = BadMaps.Text(name);
        var reading = MapReader.Read(text, name);
        Assert.Null(reading.Map);
        Assert.Equal(BadMaps.Marked(text, "#! "), reading.Faults.Select(f => $"{f.Line}, {f.Field}: {f.Sentence}"));
    }

    [Fact]
    public void A_fault_is_described_with_file_line_and_field()
    {
        var reading = MapReader.Read("format: 1\nname: bench\ntitle: Bench\nparts: none\n", "bench.map.yaml");
        Assert.StartsWith("bench.map.yaml, line 4, parts: ", Assert.Single(reading.Faults, f => f.Line == 4) is var fault ? reading.Describe(fault) : "");
    }

    [Fact]
    public void A_huge_file_is_refused_without_being_read()
    {
        var huge = new string('a', 50_000_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var reading = MapReader.Read(huge, "huge.map.yaml");
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1_000_000);
        var fault = Assert.Single(reading.Faults);
        Assert.Equal("The file holds 50.0 MB and a map at most 4 MB; is it the right file? If so, describe one area of the machine per map.", fault.Sentence);
    }

    [Fact]
    public void The_size_is_counted_in_bytes_not_in_characters()
    {
        Assert.Contains("at most 4 MB", Assert.Single(MapReader.Read("# " + new string('é', 2_500_000), "long.map.yaml").Faults).Sentence);
        Assert.Contains("is empty", Assert.Single(MapReader.Read("# " + new string('e', 2_500_000), "long.map.yaml").Faults).Sentence);
    }

    [Fact]
    public void A_flood_of_faults_is_cut_short_and_counted()
    {
        var faults = MapReader.Read(string.Concat(Enumerable.Range(0, 1500).Select(i => $"field-{i}: 1\n")), "flood.map.yaml").Faults;
        Assert.Equal(1001, faults.Count);
        // 1,500 unknown fields, and no format, name, title or parts.
        Assert.Equal("From here on there are 504 more faults; correct those above first.", faults[^1].Sentence);
    }

    [Fact]
    public void A_map_of_more_operations_than_a_machine_has_is_refused()
    {
        var parts = string.Concat(Enumerable.Range(0, 5001).Select(i => $"  - {{id: p{i}, name: P}}\n"));
        var fault = Assert.Single(MapReader.Read($"format: 1\nname: x\ntitle: X\nparts:\n{parts}", "x.map.yaml").Faults);
        Assert.Equal((4, "The map has 5001 operations and may have 5000; describe one area of the machine per map."), (fault.Line, fault.Sentence));
    }

    [Theory]
    [InlineData("", "The file is empty; a map starts with 'format: 1', a name and a title.")]
    [InlineData(" \n\n ", "The file is empty; a map starts with 'format: 1', a name and a title.")]
    [InlineData("---\n", "The file is empty; a map starts with 'format: 1', a name and a title.")]
    [InlineData("\0", "There is an invisible character (U+0000) on this line that no map needs; delete it.")]
    [InlineData("na\uFFFDme: x", "A character on this line could not be read; save the file as UTF-8 and write the character again.")]
    public void A_text_that_is_no_map_gets_one_sentence(string text, string sentence) =>
        Assert.Equal(sentence, Assert.Single(MapReader.Read(text, "x.map.yaml").Faults).Sentence);
}
