using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>A length above zero, with the system it was said in.</summary>
public readonly record struct Size
{
    private const double MillimetresPerInch = 25.4;
    // Heads and keys of the inch series are made in sixty-fourths and coarser.
    private const int FinestPart = 64;

    private Size(double value_mm, bool isInch) => (Value_mm, IsInch) = (value_mm, isInch);

    public double Value_mm { get; }
    public bool IsInch { get; }

    /// <exception cref="ArgumentOutOfRangeException">The length is not a finite number above zero.</exception>
    public static Size FromMillimetres(double value) => new(Checked(value), false);

    /// <inheritdoc cref="FromMillimetres"/>
    public static Size FromInches(double value) => new(Checked(value) * MillimetresPerInch, true);

    /// <summary>Reads "13mm", "5/16in", "1 1/8in" or "0.19in".</summary>
    public static bool TryParse(string text, out Size size)
    {
        size = default;
        var isInch = text.EndsWith("in", StringComparison.Ordinal);
        if (!isInch && !text.EndsWith("mm", StringComparison.Ordinal) || Fraction.Read(text[..^2].Trim()) is not { } value)
        {
            return false;
        }

        size = isInch ? FromInches(value) : FromMillimetres(value);
        return true;
    }

    /// <summary>"13mm"; inches as a fraction wherever they are one: "5/16in".</summary>
    public override string ToString() => IsInch
        ? $"{Fraction.Text(Value_mm / MillimetresPerInch, FinestPart)}in"
        : string.Create(CultureInfo.InvariantCulture, $"{Value_mm:R}mm");

    private static double Checked(double value) => double.IsFinite(value) && value > 0
        ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A size is a finite number above zero.");
}
