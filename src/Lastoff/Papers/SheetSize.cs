namespace Lastoff.Papers;

/// <summary>A sheet of paper, in points of 1/72 inch.</summary>
public sealed record SheetSize(string Name, float Width, float Height)
{
    /// <summary>ISO 216: 210 mm by 297 mm.</summary>
    public static SheetSize A4 { get; } = new("a4", 210 * PointsInMillimetre, 297 * PointsInMillimetre);

    /// <summary>ANSI Y14.1: 8.5 in by 11 in.</summary>
    public static SheetSize Letter { get; } = new("letter", 8.5f * 72, 11 * 72);

    public const float PointsInMillimetre = 72 / 25.4f;

    /// <summary>Null when there is none of this name; A4 when none is named.</summary>
    public static SheetSize? Named(string? name) => name switch
    {
        null or "a4" => A4,
        "letter" => Letter,
        _ => null,
    };
}
