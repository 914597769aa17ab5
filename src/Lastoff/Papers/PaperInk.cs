using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>The looks of a printed paper: dark ink on white, one colour for what must not be missed, as in the browser.</summary>
internal static class PaperInk
{
    public static SKColor Ink { get; } = new(0x1C, 0x1A, 0x16);
    public static SKColor Soft { get; } = new(0x5A, 0x54, 0x46);
    public static SKColor Rule { get; } = new(0xD8, 0xCF, 0xBA);
    public static SKColor Margin { get; } = new(0xA8, 0x44, 0x2A);
    public static SKColor Cut { get; } = new(0x8D, 0x84, 0x70);

    public static TextStyle Title { get; } = new(Typeface.Book, 23, 27, Ink);
    public static TextStyle Machine { get; } = new(Typeface.Text, 12, 16, Soft);
    public static TextStyle Heading { get; } = new(Typeface.Book, 12.5f, 17, Ink);
    public static TextStyle Caption { get; } = new(Typeface.Book, 10, 14, Ink);
    public static TextStyle Body { get; } = new(Typeface.Text, 9.2f, 12.6f, Ink);
    public static TextStyle Quiet { get; } = new(Typeface.Text, 9.2f, 12.6f, Soft);
    public static TextStyle Struck { get; } = new(Typeface.Text, 9.2f, 12.6f, Soft, IsStruck: true);
    public static TextStyle Strong { get; } = new(Typeface.Bold, 9.2f, 12.6f, Ink);
    public static TextStyle Small { get; } = new(Typeface.Text, 8, 11, Soft);
    public static TextStyle Mind { get; } = new(Typeface.Text, 8.6f, 11.8f, Ink);
    public static TextStyle LabelName { get; } = new(Typeface.Book, 15, 19, Ink);

    public static void Line(SKCanvas canvas, float x, float y, float width, float thickness, SKColor ink)
    {
        using var paint = new SKPaint { Color = ink };
        canvas.DrawRect(x, y, width, thickness, paint);
    }
}
