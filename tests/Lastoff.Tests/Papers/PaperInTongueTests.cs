using System.Text.Json.Nodes;
using System.Xml.Linq;
using Lastoff.Core.Languages;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Recording;

namespace Lastoff.Tests.Papers;

/// <summary>A paper in another language says the same, and its data is the same to the letter.</summary>
public class PaperInTongueTests
{
    private static readonly Tongue German = PaperWordsTests.TongueOf("de");

    [Fact]
    public void Data_is_the_same_in_every_language()
    {
        var source = new PaperSource(Bench.HandedOver().Job);
        foreach (var kind in Enum.GetValues<PaperKind>())
        {
            var paper = source.Make(kind);
            Assert.Equal(Values(JsonNode.Parse(PaperJson.Write(paper))), Values(JsonNode.Parse(PaperJson.Write(paper.In(German)))));
        }
    }

    [Fact]
    public void What_people_wrote_stays_as_they_wrote_it()
    {
        // Each is a sentence of a paper, too.
        var bench = Bench.Opened("Total", "Made from cheese, by hand");
        bench.Do(new Noted("Agreed with the owner, later in the day", "upper-diaphragm"));
        var paper = new PaperSource(bench.Job).Make(PaperKind.Record).In(German);
        Assert.Equal("Total", paper.Machine);
        var text = Text(paper);
        Assert.Contains("Made from cheese, by hand", text, StringComparison.Ordinal);
        Assert.Contains("Agreed with the owner, later in the day", text, StringComparison.Ordinal);
        // A line of a recording is what somebody said, whatever it may mean elsewhere.
        var told = new Recorder().Say("six bolts off the lid, tray 2").Job;
        Assert.Contains("“six bolts off the lid, tray 2”", Text(new PaperSource(told).Make(PaperKind.Record).In(German)), StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_have_the_marks_of_the_language()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m)));
        var page = Read.Html(new PaperSource(bench.Job).Make(PaperKind.Estimate).In(German));
        Assert.Equal("de", page.Attribute("lang")!.Value);
        var figures = page.Descendants("td").Where(cell => cell.Attribute("class")?.Value == "figure").Select(cell => cell.Value).ToList();
        Assert.NotEmpty(figures);
        Assert.DoesNotContain(figures, figure => figure.Contains('.', StringComparison.Ordinal));
        Assert.Contains(figures, figure => figure.Contains(',', StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("12 March 2026, 14:05", "12.\u00A0März\u00A02026, 14:05")]
    [InlineData("20.5 N·m (read as 181 in·lb), then 90°", "20,5 N·m (abgelesen als 181 in·lb), dann 90°")]
    [InlineData("Class 8.8", "Class 8.8")]
    [InlineData("Pump, right-hand: 1.2 L", "Pump, right-hand: 1,2 L")]
    [InlineData("Handed over to Total", "Übergeben an Total")]
    [InlineData("Cover bolts, tightened in passes: once more before the proofs", "Cover bolts, in Durchgängen angezogen: noch einmal vor den Nachweisen")]
    public void A_line_is_said(string english, string said) => Assert.Equal(said, German.Say(english.Replace("12 March 2026", "12\u00A0March\u00A02026", StringComparison.Ordinal)));

    [Fact]
    public void The_yes_is_asked_for_in_the_language_of_the_page()
    {
        var bench = Bench.Opened();
        bench.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m)));
        var page = PaperHtml.Write(new PaperSource(bench.Job).Make(PaperKind.Estimate).In(German), ConsentForm.For(bench.Job.Standing) is { } form ? form with { Fault = ConsentForm.NameFault("") } : null);
        Assert.Contains("Sagen Sie Ja?", page, StringComparison.Ordinal);
        Assert.Contains("Bitte den Namen schreiben.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void In_its_own_language_a_paper_is_itself()
    {
        var paper = new PaperSource(Bench.Opened().Job).Make(PaperKind.Handover);
        Assert.Same(paper, paper.In(Tongue.English));
    }

    private static string Text(Paper paper) => string.Join('\n', Read.Html(paper).DescendantNodes().OfType<XText>().Select(text => text.Value));

    /// <summary>Every value that is not a text for people, in order.</summary>
    private static IEnumerable<string> Values(JsonNode? node) => node switch
    {
        JsonObject fields => fields.Where(field => field.Key is not ("text" or "title" or "for" or "machine" or "basis" or "heading" or "caption" or "head" or "name" or "how_to_check" or "caution" or "columns" or "paragraph")).SelectMany(field => Values(field.Value).Prepend(field.Key)),
        JsonArray items => items.SelectMany(Values),
        _ => [node?.ToJsonString() ?? "null"],
    };
}
