using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The shape the tool turns. Hexalobular shapes (ISO 10664) are called star, as the trade says; from memory.</summary>
public enum DriveShape { Hex, InnerHex, OuterStar, InnerStar, TamperStar, Slot, Cross, CrossZ, Square, Spline, TwelvePoint }

/// <summary>A drive and the number of its size where it has one: T30, E12, PH2. Sizes across flats stand in <see cref="Reading.Across"/>.</summary>
public readonly record struct Drive(DriveShape Shape, int? Number)
{
    // The letters before the numbers: T and the sizes after ISO 10664, PH and PZ after ISO 4757; both from memory. E is the trade's own.
    private static readonly (DriveShape Shape, string Letters)[] Marks =
        [(DriveShape.TamperStar, "TR"), (DriveShape.InnerStar, "T"), (DriveShape.OuterStar, "E"), (DriveShape.Cross, "PH"), (DriveShape.CrossZ, "PZ")];

    public static bool TryParse(string text, out Drive drive)
    {
        if (Words<DriveShape>.TryRead(text, out var shape))
        {
            drive = new Drive(shape, null);
            return true;
        }

        foreach (var (marked, letters) in Marks)
        {
            if (text.StartsWith(letters, StringComparison.Ordinal) && int.TryParse(text[letters.Length..], NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                drive = new Drive(marked, number);
                return true;
            }
        }

        drive = default;
        return false;
    }

    public override string ToString()
    {
        var shape = Shape;
        return Number is { } number && Array.Find(Marks, mark => mark.Shape == shape).Letters is { } letters ? $"{letters}{number}" : Words<DriveShape>.Of(shape);
    }
}
