using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>Reads hole positions: CSV with the columns x_mm and y_mm (or x_in and y_in) and, if the holes have names, bolt.</summary>
public static class HoleFile
{
    public static Answer<IReadOnlyList<Hole>> Read(string text, string file)
    {
        var lines = text.TrimStart('\uFEFF').Split('\n').Select((line, i) => (Text: line.Trim(), Number: i + 1)).Where(l => l.Text.Length > 0).ToArray();
        var header = lines.Length == 0 ? [] : Fields(lines[0].Text);
        var unit = header.Contains("x_mm") ? "mm" : "in";
        var (x, y, name) = (Array.IndexOf(header, "x_" + unit), Array.IndexOf(header, "y_" + unit), Array.IndexOf(header, "bolt"));
        if (x < 0 || y < 0)
        {
            return Answer.None<IReadOnlyList<Hole>>($"{file}, line 1: the header names no x_mm and y_mm; write it as bolt,x_mm,y_mm (or x_in and y_in).");
        }

        var scale = unit == "mm" ? 1 : Measure.MillimetresPerInch;
        var holes = new List<Hole>();
        foreach (var line in lines.Skip(1))
        {
            var fields = Fields(line.Text);
            if (fields.Length != header.Length)
            {
                return Answer.None<IReadOnlyList<Hole>>($"{file}, line {line.Number}: {fields.Length} fields stand under {header.Length} columns; look for a comma too many or too few.");
            }

            if (!Number(fields[x], out var right) || !Number(fields[y], out var up))
            {
                return Answer.None<IReadOnlyList<Hole>>($"{file}, line {line.Number}, {(Number(fields[x], out _) ? header[y] : header[x])}: this is not a number; write it like 12.5.");
            }

            holes.Add(new Hole(name < 0 ? $"{holes.Count + 1}" : fields[name], right * scale, up * scale));
        }

        return Answer.Of<IReadOnlyList<Hole>>(holes);
    }

    /// <summary>Reads holes written in a row: "0,0; 40,0; 80,0", in millimetres, numbered from 1.</summary>
    public static Answer<IReadOnlyList<Hole>> ReadRow(string text)
    {
        var holes = new List<Hole>();
        foreach (var pair in text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (Fields(pair) is not [var x, var y] || !Number(x, out var right) || !Number(y, out var up))
            {
                return Answer.None<IReadOnlyList<Hole>>($"“{pair}” is not the place of a hole; write x and y in millimetres, and a semicolon between holes, as 0,0;40,0.");
            }

            holes.Add(new Hole($"{holes.Count + 1}", right, up));
        }

        return Answer.Of<IReadOnlyList<Hole>>(holes);
    }

    private static string[] Fields(string line) => line.Split(',', StringSplitOptions.TrimEntries);

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
