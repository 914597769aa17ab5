using CsCheck;
using Lastoff.Core.Ledger;
using Sylvan.Data.Csv;

namespace Lastoff.Tests.Ledger;

/// <summary>Tables for spreadsheets, read back with Sylvan.Data.Csv. What begins a formula: OWASP, “CSV Injection” (from memory).</summary>
public class SpreadsheetTests
{
    [Theory]
    [InlineData("=1+1")]
    [InlineData("+49 30 0000")]
    [InlineData("-2+3")]
    [InlineData("@SUM(A1:A9)")]
    [InlineData("\t=1+1")]
    [InlineData("\r=1+1")]
    [InlineData("  =HYPERLINK(\"http://localhost\")")]
    [InlineData("\n\n@a")]
    [InlineData("＝1+1")]
    public void What_could_be_run_as_a_formula_is_marked_as_text(string text) => Assert.Equal("'" + text, ReadBack([["what"], [text]])[0][0]);

    [Theory]
    [InlineData("Bracket bolts: undone")]
    [InlineData("12 N·m; \"hand tight\", then 90°")]
    [InlineData("two\r\nlines")]
    [InlineData("عربي 🔧")]
    [InlineData("'quoted")]
    [InlineData("")]
    public void Everything_else_comes_back_as_it_was(string text) => Assert.Equal(text, ReadBack([["what"], [text]])[0][0]);

    [Fact]
    public void Any_text_stays_in_its_own_cell_and_no_cell_begins_a_formula() =>
        Gen.String[Gen.Char["=+-@\t\r\n\",;' a1｢＝é"], 0, 12].Array[3].Array[1, 6].Sample(rows =>
        {
            var back = ReadBack([["at", "by", "what"], .. rows]);
            Assert.Equal(rows.Length, back.Count);
            foreach (var (written, read) in rows.Zip(back).SelectMany(pair => pair.First.Zip(pair.Second)))
            {
                Assert.Contains(read, new[] { written, "'" + written });
                Assert.False(read.Length > 0 && "=+-@\t\r\n＝".Contains(read[0]), read);
            }
        }, iter: 2000);

    private static List<string[]> ReadBack(IReadOnlyList<IReadOnlyList<string>> rows)
    {
        using var reader = CsvDataReader.Create(new StringReader(Spreadsheet.Write(rows).TrimStart('\uFEFF')), new CsvDataReaderOptions { Delimiter = ',' });
        var read = new List<string[]>();
        while (reader.Read())
        {
            read.Add([.. Enumerable.Range(0, rows[0].Count).Select(reader.GetString)]);
        }

        return read;
    }
}
