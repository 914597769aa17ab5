using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>A column as it is set: where it begins, how wide it is, and whether it keeps to the right.</summary>
internal sealed record SetColumn(float X, float Width, bool ToTheRight);

/// <summary>Rows of cells, broken over sheets. A row stays whole when a sheet has room for it; one that is longer than a sheet is broken between lines.</summary>
internal sealed class SheetTable(Sheets sheets, IReadOnlyList<SetColumn> columns)
{
    private const float Pad = 4;
    private const float BarWidth = 3.6f;

    /// <summary>Drawn again on top of every sheet that the table goes on to.</summary>
    public Action? Head { get; init; }
    /// <summary>The rule under a row; none where its height is 0.</summary>
    public float Rule { get; init; } = 0.5f;
    public SKColor RuleInk { get; init; } = PaperInk.Rule;

    /// <summary>How high a row comes out.</summary>
    public static float Height(IReadOnlyList<SetText> cells, float leading) => Pad + cells.Max(cell => cell.Lines.Count) * leading + Pad;

    /// <param name="with">How much room what follows at once needs beside the row.</param>
    /// <param name="bar">A bar in the margin's colour, for a caution.</param>
    /// <param name="rules">Whether the row has a rule under it.</param>
    public void Row(IReadOnlyList<SetText> cells, float leading, float with = 0, bool bar = false, bool rules = true, float padTop = Pad)
    {
        var lines = cells.Max(cell => cell.Lines.Count);
        var height = padTop + lines * leading + Pad;
        if (height + with <= sheets.Whole * 0.6f ? height + with > sheets.Left : padTop + 2 * leading + Pad > sheets.Left)
        {
            Next();
        }

        for (var first = 0; first < lines;)
        {
            var fits = Math.Max(1, Math.Min(lines - first, (int)((sheets.Left - padTop - Pad) / leading)));
            var (from, part) = (first, padTop + fits * leading + Pad);
            sheets.Draw(part, (canvas, y) =>
            {
                foreach (var (cell, column) in cells.Zip(columns))
                {
                    cell.Draw(canvas, column.X, y + padTop, column.Width, column.ToTheRight, from, fits);
                }

                if (bar)
                {
                    PaperInk.Line(canvas, Sheets.Side, y + padTop, BarWidth, fits * leading, PaperInk.Margin);
                }

                if (rules && Rule > 0 && from + fits == lines)
                {
                    PaperInk.Line(canvas, Sheets.Side, y + part - Rule, sheets.Width, Rule, RuleInk);
                }
            });
            first += fits;
            if (first < lines)
            {
                Next();
            }
        }
    }

    private void Next()
    {
        sheets.Next();
        Head?.Invoke();
    }
}
