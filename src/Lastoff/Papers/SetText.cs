using Lastoff.Core.Papers;
using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>How a text is set.</summary>
/// <param name="Leading">From one line to the next.</param>
internal sealed record TextStyle(Typeface Face, float Size, float Leading, SKColor Ink, bool IsStruck = false);

/// <summary>A run of glyphs and where in its line it begins.</summary>
internal sealed record PlacedRun(Letters Letters, Shaped Shaped, float X);

/// <param name="Width">Without the space at its end.</param>
internal sealed record SetLine(IReadOnlyList<PlacedRun> Runs, float Width, bool IsRightToLeft);

/// <summary>A text broken into lines of a width. Nothing of it is lost: a word that is longer than a line goes on in the next.</summary>
internal sealed class SetText
{
    private readonly TextStyle _style;

    private SetText(TextStyle style, IReadOnlyList<SetLine> lines) => (_style, Lines) = (style, lines);

    public IReadOnlyList<SetLine> Lines { get; }
    public float Height => Lines.Count * _style.Leading;
    public bool HasUnknown => Lines.Any(line => line.Runs.Any(run => run.Letters.Text.Contains(LetterCutter.Unknown, StringComparison.Ordinal)));

    public static SetText Of(string text, TextStyle style, float width) =>
        new(style, [.. ShownText.Of(text).Split('\n').SelectMany(line => Break(line, style, width))]);

    /// <summary>The text on one line, cut short with dots where it is longer.</summary>
    public static SetText OnOneLine(string text, TextStyle style, float width)
    {
        var shown = ShownText.Of(text).Replace('\n', ' ');
        for (var whole = Of(shown, style, width); ; whole = Of(shown + "…", style, width))
        {
            if (whole.Lines.Count == 1)
            {
                return whole;
            }

            // What fits on the first line, and then less of it until the dots fit too.
            var fits = string.Concat(Letters(whole.Lines[0])).Length;
            shown = shown[..Math.Max(0, Math.Min(fits, shown.Length) - 2)].TrimEnd();
            shown = shown.Length > 0 && char.IsHighSurrogate(shown[^1]) ? shown[..^1] : shown;
        }

        static IEnumerable<string> Letters(SetLine line) => line.Runs.Select(run => run.Letters.Text);
    }

    /// <param name="first">The first line to draw, at the top.</param>
    public void Draw(SKCanvas canvas, float x, float top, float width, bool toTheRight, int first, int count)
    {
        using var paint = new SKPaint { Color = _style.Ink, IsAntialias = true };
        foreach (var (number, line) in Lines.Skip(first).Take(count).Index())
        {
            var left = toTheRight || line.IsRightToLeft ? x + width - line.Width : x;
            var baseline = top + number * _style.Leading + (_style.Leading + _style.Size * 0.72f) / 2;
            foreach (var run in line.Runs.Where(run => run.Shaped.Glyphs.Length > 0))
            {
                using var font = new SKFont(run.Letters.Face.Drawn, _style.Size) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None };
                using var blob = Blob(run, font);
                canvas.DrawText(blob, left + run.X, baseline, paint);
            }

            if (_style.IsStruck && line.Width > 0)
            {
                canvas.DrawRect(left, baseline - _style.Size * 0.27f, line.Width, 0.5f, paint);
            }
        }
    }

    private static SKTextBlob? Blob(PlacedRun run, SKFont font)
    {
        var text = System.Text.Encoding.UTF8.GetBytes(run.Letters.Text);
        using var builder = new SKTextBlobBuilder();
        var buffer = builder.AllocatePositionedTextRun(font, run.Shaped.Glyphs.Length, text.Length);
        buffer.SetGlyphs(run.Shaped.Glyphs);
        buffer.SetPositions(run.Shaped.Points);
        buffer.SetText(text);
        buffer.SetClusters(run.Shaped.Clusters);
        return builder.Build();
    }

    private static IEnumerable<SetLine> Break(string line, TextStyle style, float width)
    {
        var pieces = LetterCutter.Cut(line, style.Face, out var baseLevel);
        var current = new List<(Letters Letters, Shaped Shaped)>();
        var used = 0f;
        for (var i = 0; i < pieces.Count;)
        {
            // A word is all pieces up to the next place to break.
            var end = i;
            while (end < pieces.Count - 1 && !pieces[end].MayBreakAfter)
            {
                end++;
            }

            var word = pieces[i..(end + 1)].Select(piece => (piece, piece.Face.Shape(piece.Text, piece.Level % 2 == 1, style.Size))).ToList();
            i = end + 1;
            if (used > 0 && used + WidthWithoutEndSpace(word, style) > width)
            {
                yield return Placed(current, baseLevel, style);
                (current, used) = ([], 0);
            }

            foreach (var (letters, shaped) in word.SelectMany(piece => Fitting(piece, style, width)))
            {
                if (used > 0 && used + WidthWithoutEndSpace([(letters, shaped)], style) > width)
                {
                    yield return Placed(current, baseLevel, style);
                    (current, used) = ([], 0);
                }

                current.Add((letters, shaped));
                used += shaped.Width;
            }
        }

        yield return Placed(current, baseLevel, style);
    }

    /// <summary>The piece itself, or letter by letter when it is longer than a whole line.</summary>
    private static IEnumerable<(Letters, Shaped)> Fitting((Letters Letters, Shaped Shaped) piece, TextStyle style, float width) =>
        piece.Shaped.Width <= width ? [piece]
        : from letter in TextElements(piece.Letters.Text)
          select (piece.Letters with { Text = letter }, piece.Letters.Face.Shape(letter, piece.Letters.Level % 2 == 1, style.Size));

    private static IEnumerable<string> TextElements(string text)
    {
        var elements = System.Globalization.StringInfo.GetTextElementEnumerator(text);
        while (elements.MoveNext())
        {
            yield return elements.GetTextElement();
        }
    }

    private static float WidthWithoutEndSpace(List<(Letters Letters, Shaped Shaped)> pieces, TextStyle style)
    {
        var (last, shaped) = pieces[^1];
        var trimmed = last.Text.TrimEnd(' ');
        var end = trimmed.Length == last.Text.Length ? shaped.Width : last.Face.Shape(trimmed, last.Level % 2 == 1, style.Size).Width;
        return pieces.SkipLast(1).Sum(piece => piece.Shaped.Width) + end;
    }

    /// <summary>Puts the pieces in the order in which they are seen: Unicode Standard Annex #9, rule L2; spaces at the end take the level of the line (L1).</summary>
    private static SetLine Placed(List<(Letters Letters, Shaped Shaped)> pieces, int baseLevel, TextStyle style)
    {
        if (pieces.Count > 0 && pieces[^1].Letters is var end && end.Text.EndsWith(' '))
        {
            var trimmed = end.Text.TrimEnd(' ');
            pieces[^1] = (end with { Text = trimmed }, end.Face.Shape(trimmed, end.Level % 2 == 1, style.Size));
        }

        for (var level = pieces.Select(piece => piece.Letters.Level).DefaultIfEmpty().Max(); level > 0; level--)
        {
            for (var i = 0; i < pieces.Count;)
            {
                var from = i;
                while (i < pieces.Count && pieces[i].Letters.Level >= level)
                {
                    i++;
                }

                pieces.Reverse(from, i - from);
                i = Math.Max(i, from + 1);
            }
        }

        var x = 0f;
        var runs = new List<PlacedRun>(pieces.Count);
        foreach (var (letters, shaped) in pieces)
        {
            runs.Add(new PlacedRun(letters, shaped, x));
            x += shaped.Width;
        }

        return new SetLine(runs, x, baseLevel == 1);
    }
}
