using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;
using ZXing;
using ZXing.Common;
using ZXing.Multi.QrCode;
using ZXing.QrCode;

namespace Lastoff.Tests.Papers;

/// <summary><c>lastoff paper</c>: PDF files opened, read and drawn by other programs (poppler), and their codes read by ZXing.Net 0.16.11.</summary>
public sealed class PaperPdfTests : IDisposable
{
    private const string Origin = "https://bay.example:5210";

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("labels", "a4", 595.28, 841.89)]
    [InlineData("standing", "a4", 595.28, 841.89)]
    [InlineData("record", "a4", 595.28, 841.89)]
    [InlineData("handover", "a4", 595.28, 841.89)]
    [InlineData("estimate", "a4", 595.28, 841.89)]
    [InlineData("invoice", "letter", 612, 792)]
    [InlineData("labels", "letter", 612, 792)]
    [InlineData("standing", "letter", 612, 792)]
    [InlineData("record", "letter", 612, 792)]
    [InlineData("handover", "letter", 612, 792)]
    public async Task Every_text_of_the_paper_is_on_a_sheet_of_the_right_size_with_its_number(string kind, string sheet, double width_pt, double height_pt)
    {
        var job = kind switch
        {
            "labels" or "standing" => Bench.Stripped().Job,
            "estimate" or "invoice" => PricePaperTests.Changed().Job,
            _ => Bench.HandedOver().Job,
        };
        var (pdf, json) = await Made(job, kind, sheet);
        var sheets = await Poppler.Text(pdf);
        var shown = Plain(string.Concat(sheets));
        Assert.All(Read.Texts(json), text => Assert.Contains(Plain(text), shown, StringComparison.Ordinal));
        foreach (var (number, text) in sheets.Index())
        {
            Assert.Contains($"sheet {number + 1} of {sheets.Length}", text, StringComparison.Ordinal);
        }

        var info = await Poppler.Run("pdfinfo", pdf);
        var size = Regex.Match(info, @"Page size:\s+([\d.]+) x ([\d.]+)");
        Assert.Equal(width_pt, double.Parse(size.Groups[1].Value, null), 0.2);
        Assert.Equal(height_pt, double.Parse(size.Groups[2].Value, null), 0.2);
        var fonts = (await Poppler.Run("pdffonts", pdf)).Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(2).ToList();
        Assert.NotEmpty(fonts);
        // Embedded, cut down to what is used, and mapped back to Unicode.
        Assert.All(fonts, font => Assert.Matches(@"^[A-Z]{6}\+.* yes yes yes ", font));
    }

    [Fact]
    public async Task A_long_record_goes_on_over_sheets_with_the_head_repeated_and_nothing_lost_or_off_the_sheet()
    {
        var bench = Bench.Opened();
        for (var i = 1; i <= 300; i++)
        {
            bench.Do(new Noted($"Note number {i}: {new string('w', i % 40)} " + string.Concat(Enumerable.Repeat("and what there is to say of it ", i % 7))));
        }

        // One word that is longer than any line, and one note longer than a sheet.
        bench.Do(new Noted(string.Concat(Enumerable.Range(0, 400).Select(n => $"{n:000}"))));
        bench.Do(new Noted(string.Join(' ', Enumerable.Range(0, 4000).Select(n => $"w{n}"))));
        var (pdf, _) = await Made(bench.Job, "record", "letter");
        var sheets = await Poppler.Text(pdf);
        Assert.True(sheets.Length > 10);
        var whole = Plain(string.Concat(sheets));
        Assert.All(Enumerable.Range(1, 300), number => Assert.Contains($"Notenumber{number}:", whole, StringComparison.Ordinal));
        var words = Regex.Matches(string.Concat(sheets), @"\bw(\d+)\b").Select(match => int.Parse(match.Groups[1].Value, null)).ToList();
        Assert.Equal(Enumerable.Range(0, 4000), words);
        foreach (var text in sheets[1..^1])
        {
            Assert.Matches(@"\bAt\b[\s\S]*\bWhat\b[\s\S]*\bBy\b", text);
        }

        for (var sheet = 1; sheet <= sheets.Length; sheet += 4)
        {
            await WhiteAtTheEdges(pdf, sheet);
        }
    }

    [Fact]
    public async Task Greek_Cyrillic_Hebrew_Arabic_and_emoji_are_there_and_what_has_no_shape_is_said()
    {
        var bench = Bench.Opened("Αντλία, насос, משאבה, مضخة", "Ölpumpe “Łódź”: 90 °C ± 2 \U0001F600 \U0001F527 冷");
        var (pdf, _) = await Made(bench.Job, "handover", "a4");
        var text = string.Concat(await Poppler.Text(pdf)).Normalize(NormalizationForm.FormKC);
        foreach (var word in new[] { "Αντλία", "насос", "משאבה", "مضخة", "Ölpumpe “Łódź”: 90 °C ± 2", "\U0001F600" })
        {
            Assert.Contains(word.Normalize(NormalizationForm.FormKC), text, StringComparison.Ordinal);
        }

        Assert.Contains("stands for a letter that the fonts of this print do not have", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_people_wrote_is_drawn_as_text()
    {
        var bench = Bench.Opened("<script>alert(1)</script>\u202Ereversed (a) Tj \\ %%EOF", "\uD83D half");
        var (pdf, _) = await Made(bench.Job, "record", "a4");
        var text = string.Concat(await Poppler.Text(pdf));
        Assert.Contains("<script>alert(1)</script>reversed (a) Tj \\ %%EOF", text, StringComparison.Ordinal);
    }

    /// <summary>Whatever letters come in whatever order, a whole file comes out.</summary>
    [Fact]
    public async Task Any_letters_at_all_give_a_file_that_is_read()
    {
        var random = new Random(20260302);
        int[] odd = [0x200D, 0xFE0F, 0x0301, 0x200F, 0x05D0, 0x0627, 0x0660, 0x28, 0x29, 0x1F1E6, 0x1F3FB, 0xE0001, 0xD800, 0x0A, 0x20, 0xA0, 0x2028, 0x0E33, 0x1100, 0x0915, 0x094D, 0xFFFE];
        var bench = Bench.Opened("\uFE0F\u200D", "\u200D\uFE0F\uFE0F");
        for (var i = 0; i < 150; i++)
        {
            var text = new StringBuilder("note");
            for (var letters = random.Next(1, 60); letters > 0; letters--)
            {
                var letter = random.Next(3) == 0 ? odd[random.Next(odd.Length)] : random.Next(0x20, random.Next(2) == 0 ? 0x3000 : 0x1FFFF);
                text.Append(letter is >= 0xD800 and <= 0xDFFF ? $"{(char)letter}" : char.ConvertFromUtf32(letter));
            }

            bench.Do(new Noted(text.ToString()));
        }

        var (pdf, _) = await Made(bench.Job, "record", "a4");
        Assert.Equal(150, Regex.Matches(string.Concat(await Poppler.Text(pdf)), "Note: note").Count);
    }

    [Fact]
    public async Task Ten_thousand_entries_are_all_on_the_sheets()
    {
        const int notes = 10_000;
        var entries = new List<Entry>();
        foreach (var act in Enumerable.Range(1, notes).Select(number => (Act)new Noted($"n{number}.")).Prepend(new JobOpened(Bench.Map, "An invented sprayer", "", "", ["upper-diaphragm"], [])))
        {
            var at = DateTimeOffset.UnixEpoch.AddSeconds(entries.Count);
            entries.Add(EntryLine.Write(act, EntryId.Next(at, entries.Count == 0 ? null : entries[^1].Id, new byte[10]), "one", at, "Somebody", entries.Count == 0 ? null : entries[^1]));
        }

        var (pdf, _) = await Made(entries, "record", "a4");
        var numbers = Regex.Matches(string.Concat(await Poppler.Text(pdf)), @"\bn(\d+)\.").Select(match => int.Parse(match.Groups[1].Value, null));
        Assert.Equal(Enumerable.Range(1, notes), numbers);
    }

    [Fact]
    public async Task The_codes_open_their_tray_or_joint_from_the_data_and_from_the_sheet_as_drawn()
    {
        var job = Bench.Stripped().Job;
        var (pdf, json) = await Made(job, "labels", "a4", "--origin", Origin);
        var labels = json["sections"]!.AsArray().SelectMany(section => section!["blocks"]!.AsArray()).Where(block => block!["labels"] is not null).SelectMany(block => block!["labels"]!.AsArray()).ToList();
        var links = labels.Select(label => (string)label!["link"]!).ToList();
        Assert.Contains($"{Origin}/job/{job.Entries[0].Id}?tab=account&tray=1", links);
        Assert.Contains($"{Origin}/job/{job.Entries[0].Id}?tab=account&joint=suction-hose", links);
        foreach (var label in labels)
        {
            Assert.Equal((string)label!["link"]!, Decoded([.. label["modules"]!.AsArray().Select(row => (string)row!)]));
        }

        var read = new List<string>();
        for (var sheet = 1; sheet <= (await Poppler.Text(pdf)).Length; sheet++)
        {
            var (pixels, width, height) = await Poppler.Grey(pdf, sheet);
            var found = new QRCodeMultiReader().decodeMultiple(new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(pixels, width, height, RGBLuminanceSource.BitmapFormat.Gray8))), Hints);
            read.AddRange(found?.Select(code => code.Text) ?? []);
        }

        Assert.Equal(links.Order(), read.Order());
    }

    [Fact]
    public async Task A_photo_is_on_the_record_and_one_that_is_not_here_is_said()
    {
        var photos = Directory.CreateDirectory(_folder.In("photos")).FullName;
        var without = await Made(Bench.HandedOver().Job, "record", "a4", "--photos", photos);
        Assert.Contains("The picture is not here.", string.Concat(await Poppler.Text(without.Pdf)), StringComparison.Ordinal);
        File.Copy(Path.Combine(AppContext.BaseDirectory, "data", "photos", "flange.jpg"), Path.Combine(photos, $"{Bench.ThumbnailHash}.jpg"));
        var with = await Made(Bench.HandedOver().Job, "record", "a4", "--photos", photos);
        Assert.DoesNotContain("The picture is not here.", string.Concat(await Poppler.Text(with.Pdf)), StringComparison.Ordinal);
        Assert.Contains("image", await Poppler.Run("pdfimages", "-list", with.Pdf), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2", "invoicing", "--json")]
    [InlineData("2", "record")]
    [InlineData("2", "record", "--json", "--sheet", "a5")]
    [InlineData("2", "labels", "--json", "--origin", "bay")]
    [InlineData("2", "record", "--pdf", "/nowhere/at/all.pdf")]
    public async Task What_cannot_be_made_is_said_in_one_sentence(string exitCode, string kind, params string[] options)
    {
        var ran = await LastoffProgram.Run(["paper", kind, LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), LastoffProgram.Demo("orchard-sprayer-pump.ledger.jsonl"), .. options]);
        Assert.Equal(exitCode, $"{ran.ExitCode}");
        Assert.Matches(@"^[^\n]+[.]\n$", ran.Error);
        Assert.DoesNotContain("   at ", ran.Error, StringComparison.Ordinal);
    }

    /// <summary>The paper as PDF and as data, of one and the same call.</summary>
    private Task<(string Pdf, JsonNode Json)> Made(Job job, string kind, string sheet, params string[] more) => Made(job.Entries, kind, sheet, more);

    private async Task<(string Pdf, JsonNode Json)> Made(IEnumerable<Entry> entries, string kind, string sheet, params string[] more)
    {
        var (ledger, pdf) = (_folder.In($"{Guid.NewGuid():N}.jsonl"), _folder.In($"{Guid.NewGuid():N}.pdf"));
        await File.WriteAllTextAsync(ledger, LedgerFile.Write(entries), Cancel);
        var ran = await LastoffProgram.Run(["paper", kind, LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), ledger, "--pdf", pdf, "--json", "--sheet", sheet, .. more]);
        Assert.Equal(("", 0), (ran.Error, ran.ExitCode));
        return (pdf, JsonNode.Parse(ran.Output)!);
    }

    /// <summary>Ten millimetres round every sheet stay free, so that nothing is cut off by any printer.</summary>
    private static async Task WhiteAtTheEdges(string pdf, int sheet)
    {
        const int dotsPerInch = 50;
        const int edge = dotsPerInch * 10 / 25;
        var (pixels, width, height) = await Poppler.Grey(pdf, sheet, dotsPerInch);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                if (x < edge || y < edge || x >= width - edge || y >= height - edge)
                {
                    Assert.True(pixels[y * width + x] > 250, $"sheet {sheet} has ink at {x}, {y}");
                }
            }
        }
    }

    private static IDictionary<DecodeHintType, object> Hints { get; } = new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true };

    private static string? Decoded(string[] rows)
    {
        const int quiet = 4;
        const int scale = 4;
        var side = (rows.Length + 2 * quiet) * scale;
        var grey = new byte[side * side];
        for (var i = 0; i < grey.Length; i++)
        {
            var (row, column) = (i / side / scale - quiet, i % side / scale - quiet);
            grey[i] = row >= 0 && column >= 0 && row < rows.Length && column < rows.Length && rows[row][column] == '1' ? (byte)0 : (byte)255;
        }

        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(grey, side, side, RGBLuminanceSource.BitmapFormat.Gray8))), Hints)?.Text;
    }

    /// <summary>Without white space, since a text may be broken anywhere between two words, and a long word within.</summary>
    private static string Plain(string text) => Regex.Replace(text, @"\s|\u00A0", "");
}
