using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;

namespace Lastoff.Tests.Papers;

/// <summary>A page is well-formed, needs nothing from outside, and shows what people wrote as text, whatever they wrote.</summary>
public class PaperHtmlTests
{
    // A script, an entity, quotes, an override of the direction (Unicode Standard Annex #9, section 2.2), a control character, half a surrogate pair, emoji.
    private const string Hostile = "<script>alert(1)</script>&amp;\"'><img src=x onerror=alert(2)>\u202Egnihton\u2066\u0007\uD83D\u2028\U0001F527 مضخة משאבה\uFFFE";

    [Fact]
    public void What_people_wrote_is_text_on_every_paper()
    {
        var bench = Bench.Opened(Hostile, Hostile);
        bench.Do(new Agreed(Hostile, Hostile, Hostile));
        bench.Do(new Noted(Hostile, "upper-diaphragm"));
        foreach (var kind in Enum.GetValues<PaperKind>())
        {
            var paper = new PaperSource(bench.Job).Make(kind);
            var html = PaperHtml.Write(paper);
            var root = XDocument.Parse(html).Root!;
            Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName is "script" or "img" or "a" or "iframe" or "object" or "form" or "base");
            Assert.Contains("<script>alert(1)</script>&amp;", root.Value, StringComparison.Ordinal);
            Assert.DoesNotMatch("[\u202A-\u202E\u2066-\u2069\u0007\uFFFE]", html);
            Assert.Contains("\U0001F527 مضخة משאבה", root.Value, StringComparison.Ordinal);
            Assert.Equal(Hostile.Replace("\uD83D\u2028", "\uFFFD\u2028"), (string)Read.Json(paper)["machine"]!);
        }
    }

    [Fact]
    public void A_page_loads_and_runs_nothing()
    {
        foreach (var kind in Enum.GetValues<PaperKind>())
        {
            var root = Read.Html(new PaperSource(Bench.HandedOver().Job) { Origin = "https://bay.example", Modules = _ => new bool[21, 21], Photo = _ => [0xFF, 0xD8] }.Make(kind));
            foreach (var attribute in root.DescendantsAndSelf().Attributes())
            {
                Assert.DoesNotMatch("^(on|style$|href$|srcdoc$)", attribute.Name.LocalName);
                Assert.True(attribute.Name.LocalName != "src" || attribute.Value.StartsWith("data:image/jpeg;base64,", StringComparison.Ordinal));
            }

            var style = Assert.Single(root.Descendants("style")).Value;
            Assert.DoesNotMatch(new Regex("url\\(|@import|expression", RegexOptions.IgnoreCase), style);
            // The hash that a browser computes (Content Security Policy Level 3, section 6.7.3.3): SHA-256 of the text between the tags.
            Assert.Contains($"style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)))}'", PaperHtml.ContentSecurityPolicy, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void On_a_phone_a_cell_of_a_wide_table_says_what_it_is_and_no_word_is_broken_that_has_room()
    {
        var page = PaperHtml.Write(new PaperSource(Bench.HandedOver().Job).Make(PaperKind.Record));
        Assert.Contains("<table class=\"wide\">", page, StringComparison.Ordinal);
        Assert.Contains("data-head=\"Wrench\"", page, StringComparison.Ordinal);
        var long_ = new string('x', 60);
        var paper = new Paper(PaperKind.Record, "Words", "For nobody", "A machine", "", null, [new Section("", new Table("", [new("What", 1), new("Day", 1)], [new Row([long_, "28\u00A0November\u00A02026"])]))]);
        Assert.Equal(2, PaperHtml.Write(paper).Split("<wbr/>").Length - 1);
        Assert.Contains(long_, Read.Html(paper).Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Ten_thousand_rows_are_all_there()
    {
        const int rows = 10_000;
        var paper = new Paper(PaperKind.Record, "Long", "For nobody", "A machine", "", null,
            [new Section("All", new Table("", [new("Number", 1, true), new("Text", 4)], [.. Enumerable.Range(1, rows).Select(number => new Row([new Said($"{number}", Datum.Of("number", (decimal)number)), $"Line {number} & more"]))]))]);
        Assert.Equal(Enumerable.Range(1, rows), Read.Rows(Read.Json(paper), "All").Select(cells => (int)cells[0]!["number"]!));
        Assert.Equal(Enumerable.Range(1, rows), Read.Html(paper).Descendants("tbody").Elements("tr").Select(row => int.Parse(row.Elements("td").First().Value, null)));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(1e300)]
    [InlineData(-0.000125)]
    public void A_figure_reads_back_as_the_same_number(double value) =>
        Assert.Equal(value, System.Text.Json.JsonDocument.Parse(Datum.Of("x", value).Json).RootElement.GetDouble());

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_number_is_no_figure(double value) => Assert.Throws<ArgumentOutOfRangeException>(() => Datum.Of("x", value));
}
