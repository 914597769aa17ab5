using System.Text.Json;
using System.Text.RegularExpressions;

namespace Lastoff.Tests.Program;

/// <summary>Every word on the screen can be said in every language there is: the English is the key, and stands in the sources of the app.</summary>
public partial class SpeechTests
{
    private static readonly string App = Path.Combine(LastoffProgram.Repository, "src", "Lastoff.App");

    public static TheoryData<string> Files() => [.. Directory.GetFiles(Path.Combine(App, "wwwroot", "words"), "*.json").Select(file => Path.GetFileName(file)).Order()];

    /// <summary>What the core and its papers say is in files of its own, and is found by its pattern.</summary>
    public static TheoryData<string> Languages() => [.. Files().Select(file => (string)file).Where(file => file.Count(letter => letter == '.') == 1)];

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_has_all_that_is_said(string language)
    {
        var words = Words(language).Select(pair => pair.English).ToHashSet();
        var missing = Sources("*.cs", "*.razor").SelectMany(file => SaidWords.In(File.ReadAllText(file))).Distinct().Where(said => !words.Contains(said)).ToList();
        Assert.True(missing.Count == 0, $"{language} lacks {missing.Count}: {Listed(missing)}.");
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Nothing_with_a_hole_in_it_is_kept_that_the_app_does_not_say(string language)
    {
        // Put together elsewhere it would be looked for among what the core says.
        var said = Sources("*.cs", "*.razor").SelectMany(file => SaidWords.In(File.ReadAllText(file))).ToHashSet();
        var dead = Words(language).Select(pair => pair.English).Where(english => Holes(english).Any() && !said.Contains(english)).ToList();
        Assert.True(dead.Count == 0, $"{language} has for nobody: {Listed(dead)}.");
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void A_language_says_each_thing_once_with_all_that_is_put_into_it(string language)
    {
        var words = Words(language);
        var twice = words.CountBy(pair => pair.English).Where(count => count.Value > 1).Select(count => count.Key).ToList();
        Assert.True(twice.Count == 0, $"{language} has twice: {Listed(twice)}.");
        var empty = words.Where(pair => string.IsNullOrWhiteSpace(pair.Said)).Select(pair => pair.English).ToList();
        Assert.True(empty.Count == 0, $"{language} says nothing for: {Listed(empty)}.");
        var other = words.Where(pair => !Holes(pair.English).SetEquals(Holes(pair.Said))).Select(pair => pair.English).ToList();
        Assert.True(other.Count == 0, $"{language} puts something else into: {Listed(other)}.");
    }

    [Fact]
    public void All_that_is_said_stands_where_it_is_said()
    {
        var hidden = Sources("*.cs", "*.razor").SelectMany(file => SaidWords.HiddenIn(File.ReadAllText(file)).Select(call => $"{Name(file)}: {call}")).ToList();
        Assert.True(hidden.Count == 0, $"Say each text by itself, lest no language be asked for it: {Listed(hidden)}.");
    }

    [Fact]
    public void No_page_shows_words_without_saying_them()
    {
        var bare = Sources("*.razor").SelectMany(file => BareWords.In(File.ReadAllText(file)).Select(found => $"{Name(file)}, line {found.Line}: {found.Words}")).ToList();
        Assert.True(bare.Count == 0, $"{bare.Count} texts stay English in every language: {Listed(bare)}.");
    }

    [Theory]
    [InlineData("""x = Say("Came out");""", "Came out")]
    [InlineData("""Say($"{open} of {all} layers open.")""", "{0} of {1} layers open.")]
    [InlineData("""Say($"{(n == 1 ? "one" : $"{n} of { }")} left, {Names["a}"].Join(", ")}; {{x}}")""", "{0} left, {1}; {x}")]
    [InlineData("""Say("a \"b\" c\\")""", "a \"b\" c\\")]
    [InlineData("""Say(@"a ""b"" \c")""", "a \"b\" \\c")]
    [InlineData("""aria-label="@Say($"Take out {wrench.Name}")" data-test="x">""", "Take out {0}")]
    [InlineData("""Say($"{'"'} {Say("inner")}")""", "{0} {1}|inner")]
    [InlineData("""/// <c>Say("not this")</c>""", "")]
    [InlineData("""Unsay("not this"), Say(sentence), Say("not", "this")""", "")]
    public void What_is_said_is_found(string source, string keys) => Assert.Equal(keys, string.Join('|', SaidWords.In(source)));

    [Theory]
    [InlineData("""Say(isOut ? "Out" : "Home")""", true)]
    [InlineData("""Say("Out " + name)""", true)]
    [InlineData("""Say(text ?? "")""", false)]
    [InlineData("""Say(Plain("kind"))""", false)]
    [InlineData("""Say("kind", isRead ? null : "Write it.")""", false)]
    [InlineData("""Say("Out")""", false)]
    public void What_is_said_by_a_choice_is_found(string source, bool isHidden) => Assert.Equal(isHidden, SaidWords.HiddenIn(source).Any());

    [Theory]
    [InlineData("<p>Undo it</p>", "Undo it")]
    [InlineData("<p>@Say(\"Undo it\") <b>@name</b>, 5 mm</p>", "")]
    [InlineData("@page \"/some/where\"\n<p class=\"quiet words\">‹ @x.Y(\"a b\")!.Z</p>", "")]
    [InlineData("@if (a < b && c[0] is { } d)\n{\n    var e = \"in code\";\n    <p>one word</p>\n}\nelse if (e)\n{\n    <br>\n}\nelse\n{\n    <table><col><tr><td>other words</td></tr></table>\n}\nand more", "one word|other words|and more")]
    [InlineData("@foreach (var a in b)\n{\n    if (a)\n    {\n        <i>deep words</i>\n    }\n}", "deep words")]
    [InlineData("<p>Lastoff <code>lastoff invite NAME</code> then</p>", "then")]
    [InlineData("<input placeholder=\"Find one\" data-test=\"find-one\" @onclick='() => Do(\"two words\")'>", "Find one")]
    [InlineData("<Field Label=\"Came out\" Session=\"Session\" Hint=\"@Say(\"a hint\")\" />", "Came out")]
    [InlineData("<b aria-label=\"Unit of: @part\">@(isPart ? \"Renew\" : Say(\"Get at\"))</b>", "Unit of:|Renew")]
    [InlineData("<b>@(at.ToString(\"HH:mm\") + (tab == \"now\" ? $\"{n} parts off\" : \"\"))</b>", "{0} parts off")]
    [InlineData("@* a remark *@<!-- another --><p>&nbsp;</p>\n@code {\n    string a = \"<p>in code</p>\";\n}", "")]
    public void What_is_not_said_is_found(string source, string bare) => Assert.Equal(bare, string.Join('|', BareWords.In(source).Select(found => found.Words)));

    private static IEnumerable<string> Sources(params string[] patterns) => patterns
        .SelectMany(pattern => Directory.GetFiles(App, pattern, SearchOption.AllDirectories))
        .Where(file => !Name(file).StartsWith("bin/", StringComparison.Ordinal) && !Name(file).StartsWith("obj/", StringComparison.Ordinal))
        .Order();

    private static string Name(string file) => Path.GetRelativePath(App, file).Replace('\\', '/');

    private static List<(string English, string Said)> Words(string language)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(App, "wwwroot", "words", language)));
        return [.. json.RootElement.EnumerateObject().Select(pair => (pair.Name, pair.Value.GetString() ?? ""))];
    }

    private static HashSet<string> Holes(string text) => [.. Hole().Matches(text).Select(hole => hole.Value)];

    private static string Listed(IEnumerable<string> texts) => string.Join(", ", texts.Select(text => $"“{text}”"));

    /// <summary>As <c>{0}</c>, or as <c>{0=}</c> where nothing in it is said otherwise.</summary>
    [GeneratedRegex(@"\{\d+(?==?\})")]
    private static partial Regex Hole();
}
