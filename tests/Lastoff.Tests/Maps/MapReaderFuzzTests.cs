using CsCheck;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>Whatever happens to a map file, reading it ends in a map that works or in faults with lines, never in an exception.</summary>
public class MapReaderFuzzTests
{
    private static readonly string[] Texts = [Demo.Text("light-van"), Demo.Text("orchard-sprayer-pump"), .. BadMaps.Names.Select(BadMaps.Text)];

    // What YAML gives a meaning to, what it does not allow, and what a map does.
    private static readonly string[] Syntax =
    [
        "\t", "\n", "\r", "\r\n", " ", "  ", "-", "- ", ":", ": ", "{", "}", "[", "]", ",", "'", "\"", "\\", "\\x", "\\U00110000", "#", "&a ", "*a", "!", "!!int ", "%", "%YAML 9.9\n",
        "|", ">", "|9\n", "? ", "<<: ", "---\n", "...\n", "\0", "\u0085", "\u2028", "\uFEFF", "\uD800", "\U0001F527", "1e999", ".nan", "-1", "99999999999", "off", "either: ", "reach: ",
        "holds: [pump]", "rides_on: pump", "id: pump\n", new string('[', 40), new string('{', 2000),
    ];

    private static readonly Gen<string> Snippets = Gen.Int[0, Syntax.Length - 1].Select(i => Syntax[i]);

    private static readonly Gen<Func<string, string>> Mutations = Gen.OneOf(
        Gen.Select(Gen.Double[0, 1], Gen.Int[1, 40], (at, length) => (Func<string, string>)(s => Cut(s, at, length))),
        Gen.Select(Gen.Double[0, 1], Snippets, (at, snippet) => (Func<string, string>)(s => s.Insert(Place(s, at), snippet))),
        Gen.Select(Gen.Double[0, 1], Gen.Char, (at, character) => (Func<string, string>)(s => s.Insert(Place(s, at), character.ToString()))),
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Int[1, 200], (from, to, length) => (Func<string, string>)(s => s.Insert(Place(s, to), s.Substring(Place(s, from), Math.Min(length, s.Length - Place(s, from)))))),
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], (a, b) => (Func<string, string>)(s => SwapLines(s, a, b))),
        Gen.Double[0, 1].Select(at => (Func<string, string>)(s => s[..Place(s, at)])));

    internal static readonly Gen<string> Mutated = Gen.Select(Gen.Int[0, Texts.Length - 1], Mutations.Array[1, 6], (text, mutations) => mutations.Aggregate(Texts[text], (s, mutate) => mutate(s)));

    [Fact]
    public void A_mangled_map_never_throws_and_every_fault_has_a_line_of_the_file() => Mutated.Sample(HoldsUp, iter: 2000);

    [Fact]
    public void Neither_does_any_text() => Gen.String.Sample(HoldsUp, iter: 2000);

    [Fact]
    public void Nor_any_pile_of_syntax() => Snippets.Array[1, 30].Select(string.Concat).Sample(HoldsUp, iter: 2000);

    private static void HoldsUp(string text)
    {
        var reading = MapReader.Read(text, "mangled.map.yaml");
        var lines = text.ReplaceLineEndings("\n").Count(c => c == '\n') + 1;
        foreach (var fault in reading.Faults)
        {
            Assert.InRange(fault.Line, 1, lines);
            Assert.NotEqual("", fault.Field);
            Assert.DoesNotContain('\n', reading.Describe(fault));
            Assert.Matches("[.?]$", fault.Sentence);
        }

        Assert.Equal(reading.Faults.OrderBy(f => f.Line), reading.Faults);
        Assert.Equal(reading.Faults.Count == 0, reading.Map is not null);
        if (reading.Map is { } map)
        {
            var net = OperationNet.From(map);
            var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
            Assert.Equal(all, net.Supported(all));
            Assert.Equal([], MapCheck.Faults(map));
        }
    }

    private static int Place(string s, double at) => Math.Min(s.Length, (int)(at * s.Length));

    private static string Cut(string s, double at, int length) => s.Remove(Place(s, at), Math.Min(length, s.Length - Place(s, at)));

    private static string SwapLines(string s, double a, double b)
    {
        var lines = s.Split('\n');
        var (i, j) = (Math.Min(lines.Length - 1, (int)(a * lines.Length)), Math.Min(lines.Length - 1, (int)(b * lines.Length)));
        (lines[i], lines[j]) = (lines[j], lines[i]);
        return string.Join('\n', lines);
    }
}
