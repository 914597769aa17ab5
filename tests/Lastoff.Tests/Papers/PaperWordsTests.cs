using System.Text.Json;
using System.Text.RegularExpressions;
using Lastoff.Core.Languages;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Papers;

/// <summary>Every text that stands in the sources of the papers can be said in every language there is.</summary>
public partial class PaperWordsTests
{
    private static readonly string Sources = Path.Combine(LastoffProgram.Repository, "src", "Lastoff.Core", "Papers");

    /// <summary>What is for programs, or no words at all.</summary>
    private static readonly string[] Wordless = ["PaperHtml.cs", "PaperJson.cs", "PaperStyle.cs", "Calendar.cs", "Unbroken.cs", "ShownText.cs", "PaperTime.cs", "Diary.cs", "Said.cs", "ConsentForm.cs"];

    public static TheoryData<string> Languages() => [.. Language.All.Where(language => language != Language.English).Select(language => language.Code)];

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_has_all_that_papers_say(string code)
    {
        var (tongue, words) = (TongueOf(code), WordsOf(code));
        var said = Directory.GetFiles(Sources, "*.cs").Where(file => !Wordless.Contains(Path.GetFileName(file))).Order()
            .SelectMany(file => TextsIn(Comment().Replace(File.ReadAllText(file), ""))).SelectMany(text => text.Split('\n'))
            .Select(text => text.Trim(' ', ',', ';', '.')).Where(text => Word().IsMatch(Hole().Replace(text, "")) && (text.Contains(' ') || char.IsUpper(text[0]))).Distinct().ToList();
        var missing = said.Where(text => !words.ContainsKey(text) && Hole().Replace(text, "Xy$1") is var filled && tongue.Say(filled) == filled && tongue.Say(filled + ".") == filled + ".").ToList();
        Assert.True(missing.Count == 0, $"{code} lacks {missing.Count} of {said.Count}:\n{string.Join('\n', missing)}");
    }

    /// <summary>The few words that a page, its question and a PDF say themselves.</summary>
    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_has_what_the_looks_of_a_paper_say(string code)
    {
        var program = Path.Combine(LastoffProgram.Repository, "src", "Lastoff", "Papers");
        string[] files = [Path.Combine(Sources, "PaperHtml.cs"), Path.Combine(Sources, "ConsentForm.cs"), Path.Combine(program, "PaperPdf.cs"), Path.Combine(program, "PictureSheet.cs")];
        var said = files.SelectMany(file => OwnWords().Matches(File.ReadAllText(file)).Select(call => Expression().Replace(call.Groups[1].Value, "7"))).Where(text => Word().IsMatch(text)).Distinct().ToList();
        Assert.True(said.Count >= 12, string.Join('\n', said));
        var tongue = TongueOf(code);
        Assert.All(said, text => Assert.NotEqual(text, tongue.Say(text)));
    }

    internal static Tongue TongueOf(string code) => new(Language.Of(code)!, WordsOf(code));

    private static Dictionary<string, string> WordsOf(string code) =>
        JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(Path.Combine(LastoffProgram.Repository, "src", "Lastoff.App", "wwwroot", "words", $"{code}.core.json")))!;

    /// <summary>Every string of a source, and those in its holes; but no key of data, and no format.</summary>
    private static IEnumerable<string> TextsIn(string source)
    {
        for (var at = 0; at < source.Length;)
        {
            if (!SourceLiteral.BeginsAt(source, at))
            {
                at = SourceLiteral.EndOfWhole(source, at) ?? at + 1;
                continue;
            }

            var literal = SourceLiteral.Read(source, at);
            if (!Before().IsMatch(source[Math.Max(0, at - 40)..at]))
            {
                yield return literal.Text;
            }

            foreach (var inner in literal.Holes.SelectMany(TextsIn))
            {
                yield return inner;
            }

            at = literal.End;
        }
    }

    [GeneratedRegex(@"^[ \t]*//.*$", RegexOptions.Multiline)]
    private static partial Regex Comment();

    /// <summary>What stands before a key of data or a format.</summary>
    [GeneratedRegex(@"(Datum\.Of|Key|ToString|With|TrimEnd|TrimStart|GetProperty)\($")]
    private static partial Regex Before();

    [GeneratedRegex(@"\{(\d+)\}")]
    private static partial Regex Hole();

    [GeneratedRegex(@"(?:Own|Say|Text)\((?:tongue, )?\$?""([^""]+)""")]
    private static partial Regex OwnWords();

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Expression();

    [GeneratedRegex(@"\p{L}{2}")]
    private static partial Regex Word();
}
