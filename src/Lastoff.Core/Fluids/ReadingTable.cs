using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>A figure of a table, with how finely it was written: "25.3" steps by 0.1.</summary>
public readonly record struct Written(double Value, double Step);

/// <summary>One line of readings; a column left empty has nothing.</summary>
/// <param name="Code">What stands in a column of trouble codes, which holds no figures.</param>
public sealed record ReadingRow(int Line, IReadOnlyList<Written?> Cells, string Code);

/// <summary>
/// Readings as a table: a header that names quantity and unit in each column (<c>t_s,p_kPa_abs,T_C</c>), then a line for each reading. Columns are parted by
/// commas, semicolons or tabs, whichever the header has; empty lines and lines that begin with # are passed over. A column named <c>t_clock</c> holds times of
/// day (10:57:35) and is turned into seconds; one named <c>code</c> holds trouble codes.
/// </summary>
public sealed record ReadingTable(string Source, IReadOnlyList<string> Columns, IReadOnlyList<ReadingRow> Rows)
{
    private const int MostRows = 200_000;

    /// <param name="text">What the file has, or what was pasted.</param>
    /// <param name="source">The file's name, for the sentences.</param>
    public static Answer<ReadingTable> Read(string text, string source)
    {
        var lines = text.TrimStart('\uFEFF').Split('\n');
        string[]? columns = null;
        var separator = ',';
        var rows = new List<ReadingRow>();
        for (var i = 0; i < lines.Length; i++)
        {
            var line = lines[i].Trim();
            if (line.Length == 0 || line[0] == '#')
            {
                continue;
            }

            if (columns is null)
            {
                separator = line.Contains('\t') ? '\t' : line.Contains(';') ? ';' : ',';
                columns = [.. line.Split(separator, StringSplitOptions.TrimEntries)];
                if (columns.FirstOrDefault(name => columns.Count(other => Same(other, name)) > 1) is { } twice)
                {
                    return Refuse(source, i + 1, $"the column “{twice}” is there twice; keep one");
                }

                continue;
            }

            var cells = line.Split(separator, StringSplitOptions.TrimEntries);
            if (cells.Length != columns.Length)
            {
                return Refuse(source, i + 1, $"there are {cells.Length} figures and the header has {columns.Length} columns; write one figure in each, with a decimal point, not a comma");
            }

            var codes = Array.FindIndex(columns, name => Same(name, "code"));
            var read = new Written?[cells.Length];
            for (var c = 0; c < cells.Length; c++)
            {
                if (c != codes && cells[c].Length > 0 && (read[c] = Figure(cells[c], columns[c])) is null)
                {
                    return Refuse(source, i + 1, $"“{cells[c]}” in column {columns[c]} is not a number; write it with a decimal point and no unit");
                }
            }

            rows.Add(new ReadingRow(i + 1, read, codes < 0 ? "" : cells[codes]));
            if (rows.Count > MostRows)
            {
                return Refuse(source, i + 1, $"there are more than {MostRows} readings; keep every tenth");
            }
        }

        return columns is null
            ? Answer.None<ReadingTable>($"{source}: the log is empty; it needs a header line such as t_s,p_kPa_abs,T_C and a line for each reading.")
            : columns.All(name => Figure(name, "") is not null)
                ? Refuse(source, 1, "the first line has figures; put a header above them that names quantity and unit, such as t_s,p_kPa_abs,T_C")
                : rows.Count == 0
                    ? Answer.None<ReadingTable>($"{source}: the log has a header and no readings; add a line for each.")
                    : new ReadingTable(source, columns, rows);
    }

    /// <summary>Where a column is, or -1.</summary>
    public int IndexOf(string name) => Columns.ToList().FindIndex(column => Same(column, name));

    /// <summary>The times in seconds, from the first column that begins with <c>t_</c>, checked to go forwards.</summary>
    public Answer<double[]> Seconds()
    {
        var (name, factor) = new[] { ("t_s", 1.0), ("t_min", 60.0), ("t_h", 3600.0), ("t_clock", 1.0) }.FirstOrDefault(unit => IndexOf(unit.Item1) >= 0);
        if (name is null)
        {
            return Answer.None<double[]>($"{Source}: there is no column of times; name it t_s, t_min, t_h or t_clock (10:57:35).");
        }

        var column = IndexOf(name);
        var seconds = new double[Rows.Count];
        for (var i = 0; i < Rows.Count; i++)
        {
            if (Rows[i].Cells[column] is not { } written)
            {
                return Answer.None<double[]>($"{Source}, line {Rows[i].Line}: the time is missing; write it in column {name}.");
            }

            seconds[i] = written.Value * factor;
            if (i > 0 && seconds[i] <= seconds[i - 1])
            {
                return Answer.None<double[]>(
                    $"{Source}, line {Rows[i].Line}: time {(seconds[i] < seconds[i - 1] ? "runs backwards" : "stands still")} in column {name}; put the readings in the order they were taken"
                    + (name == "t_clock" ? ", and after midnight count on beyond 24:00." : "."));
            }
        }

        return seconds;
    }

    /// <summary>A sentence about one place in the table.</summary>
    public string At(int row, string sentence) => $"{Source}, line {Rows[row].Line}: {sentence}";

    private static Written? Figure(string text, string column)
    {
        if (Same(column, "t_clock"))
        {
            var parts = text.Split(':');
            return parts.Length is 2 or 3 && parts.All(part => double.TryParse(part, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _))
                ? new Written(parts.Select(part => double.Parse(part, CultureInfo.InvariantCulture)).Zip([3600.0, 60.0, 1.0], (part, scale) => part * scale).Sum(), 1)
                : null;
        }

        var plain = text.Replace('−', '-');
        if (!double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
        {
            return null;
        }

        var exponent = plain.IndexOfAny(['e', 'E']);
        var digits = exponent < 0 ? plain : plain[..exponent];
        var decimals = digits.Contains('.') ? digits.Length - digits.IndexOf('.') - 1 : 0;
        var scale = exponent < 0 ? 0 : int.Parse(plain[(exponent + 1)..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        return new Written(value, Math.Pow(10, scale - decimals));
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static Answer<ReadingTable> Refuse(string source, int line, string sentence) =>
        Answer.None<ReadingTable>($"{source}, line {line}: {sentence}.");
}
