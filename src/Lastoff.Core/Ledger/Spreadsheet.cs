using System.Text;

namespace Lastoff.Core.Ledger;

/// <summary>Writes tables for spreadsheet programs: comma-separated values (RFC 4180) in which no cell is ever taken for a formula.</summary>
public static class Spreadsheet
{
    /// <summary>Says that the text is UTF-8, which spreadsheet programs would otherwise not take for granted.</summary>
    private const char ByteOrderMark = '\uFEFF';

    /// <summary>A spreadsheet takes a cell that begins so for a formula, and runs it (OWASP, “CSV Injection”; from memory).</summary>
    private static readonly char[] FormulaStarts = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

    /// <param name="rows">The first is the header.</param>
    public static string Write(IEnumerable<IReadOnlyList<string>> rows)
    {
        var text = new StringBuilder().Append(ByteOrderMark);
        foreach (var row in rows)
        {
            text.AppendJoin(',', row.Select(Cell)).Append("\r\n");
        }

        return text.ToString();
    }

    /// <summary>Every cell stands in quotes, and what could be a formula gets an apostrophe before it: the spreadsheet's own mark for text.</summary>
    private static string Cell(string text)
    {
        var start = text.AsSpan().TrimStart();
        var isFormula = text.Length > 0 && FormulaStarts.Contains(text[0]) || start.Length > 0 && FormulaStarts.Contains(start[0]);
        return $"\"{(isFormula ? "'" : "")}{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
