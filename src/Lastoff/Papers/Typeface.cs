using System.Runtime.InteropServices;
using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>One of the fonts that come with the program, ready to shape and to draw.</summary>
internal sealed class Typeface
{
    private readonly Font _shaper;
    private readonly float _unitsPerEm;

    private Typeface(string name)
    {
        using var resource = typeof(Typeface).Assembly.GetManifestResourceStream($"Lastoff.Papers.Fonts.{name}.ttf")!;
        var bytes = new byte[resource.Length];
        resource.ReadExactly(bytes);
        Drawn = SKTypeface.FromData(SKData.CreateCopy(bytes));
        // Pinned for good: the shaper reads the file where it lies.
        var file = GCHandle.Alloc(bytes, GCHandleType.Pinned);
        var face = new Face(new Blob(file.AddrOfPinnedObject(), bytes.Length, MemoryMode.ReadOnly), 0);
        _unitsPerEm = face.UnitsPerEm;
        _shaper = new Font(face);
        _shaper.SetScale(face.UnitsPerEm, face.UnitsPerEm);
        _shaper.SetFunctionsOpenType();
    }

    public static Typeface Text { get; } = new("NotoSans-Regular");
    public static Typeface Bold { get; } = new("NotoSans-Bold");
    public static Typeface Book { get; } = new("NotoSerif-Bold");

    public static Typeface Symbols { get; } = new("NotoSansSymbols2-Regular");

    /// <summary>Where the letters are looked for that the others do not have.</summary>
    public static IReadOnlyList<Typeface> Others { get; } =
        [Text, new("NotoSansHebrew-Regular"), new("NotoSansArabic-Regular"), Symbols, new("DejaVuSans-Symbols")];

    public SKTypeface Drawn { get; }

    public bool Has(Rune letter) => _shaper.TryGetNominalGlyph((uint)letter.Value, out _);

    /// <summary>The glyphs of a run in the order in which they are drawn, from left to right.</summary>
    public Shaped Shape(string text, bool isRightToLeft, float size)
    {
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf8(text);
        buffer.GuessSegmentProperties();
        buffer.Direction = isRightToLeft ? Direction.RightToLeft : Direction.LeftToRight;
        _shaper.Shape(buffer);
        var (infos, places) = (buffer.GlyphInfos, buffer.GlyphPositions);
        var (glyphs, clusters, points) = (new ushort[infos.Length], new uint[infos.Length], new SKPoint[infos.Length]);
        var (scale, x) = (size / _unitsPerEm, 0f);
        for (var i = 0; i < infos.Length; i++)
        {
            (glyphs[i], clusters[i]) = ((ushort)infos[i].Codepoint, infos[i].Cluster);
            points[i] = new SKPoint(x + places[i].XOffset * scale, -places[i].YOffset * scale);
            x += places[i].XAdvance * scale;
        }

        return new Shaped(glyphs, clusters, points, x);
    }
}

/// <param name="Clusters">For each glyph, the byte of the text in UTF-8 where what it shows begins: so that the text can be found and copied again.</param>
internal sealed record Shaped(ushort[] Glyphs, uint[] Clusters, SKPoint[] Points, float Width);
