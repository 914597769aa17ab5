using Lastoff.Core.Papers;
using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>Labels to cut out, two beside each other.</summary>
internal sealed class LabelSheet(Sheets sheets, Func<string, TextStyle, float, SetText> set)
{
    private const float Pad = 12;
    private const float UnderTheName = 4;
    private const float LeastHeight = 40 * SheetSize.PointsInMillimetre;
    private const float CodeSide = 32 * SheetSize.PointsInMillimetre;

    /// <summary>Modules left white around a code, which a reader needs (ISO/IEC 18004, section 6.3.8; from memory).</summary>
    private const int Quiet = 4;

    public void Set(Labels labels)
    {
        var width = sheets.Width / 2;
        foreach (var pair in labels.Items.Chunk(2))
        {
            var texts = pair.Select(label => Texts(label, width - 2 * Pad - (label.Code is null ? 0 : CodeSide - 4))).ToList();
            var height = Math.Max(LeastHeight, texts.Max(lines => lines.Sum(line => line.Height)) + UnderTheName + 2 * Pad);
            sheets.NextUnless(height);
            sheets.Draw(height, (canvas, y) =>
            {
                foreach (var (column, label) in pair.Index())
                {
                    var x = Sheets.Side + column * width;
                    Frame(canvas, x, y, width, height);
                    var top = y + Pad;
                    foreach (var (number, text) in texts[column].Index())
                    {
                        text.Draw(canvas, x + Pad, top, width - 2 * Pad - (label.Code is null ? 0 : CodeSide - 4), false, 0, text.Lines.Count);
                        top += text.Height + (number == 0 ? UnderTheName : 0);
                    }

                    if (label.Code is { } code)
                    {
                        Draw(canvas, code, x + width - CodeSide - 3, y + 4);
                    }
                }
            });
        }
    }

    private List<SetText> Texts(Label label, float width) => [set(label.Name, PaperInk.LabelName, width), .. label.Lines.Select(line => set(line.Text, PaperInk.Body, width))];

    private static void Frame(SKCanvas canvas, float x, float y, float width, float height)
    {
        using var dashes = SKPathEffect.CreateDash([3, 3], 0);
        using var paint = new SKPaint { Color = PaperInk.Cut, IsStroke = true, StrokeWidth = 0.5f, PathEffect = dashes };
        canvas.DrawRect(x, y, width, height, paint);
    }

    private static void Draw(SKCanvas canvas, QrCode code, float x, float y)
    {
        var (rows, columns) = (code.Dark.GetLength(0), code.Dark.GetLength(1));
        var module = CodeSide / (Math.Max(rows, columns) + 2 * Quiet);
        using var modules = new SKPathBuilder();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                if (code.Dark[row, column])
                {
                    modules.AddRect(SKRect.Create(x + (column + Quiet) * module, y + (row + Quiet) * module, module, module));
                }
            }
        }

        using var path = modules.Detach();
        // Without smoothing, no hairlines show between the modules.
        using var paint = new SKPaint { Color = SKColors.Black, IsAntialias = false };
        canvas.DrawPath(path, paint);
    }
}
