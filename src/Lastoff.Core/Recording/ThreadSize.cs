using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>A thread as it was said: its diameter, and pitch (metric) or threads per inch where they were said too.</summary>
public readonly record struct ThreadSize(Size Diameter, double? Pitch)
{
    /// <summary>Reads "M8", "M8x1.25", "thread 3/8in" or "3/8-16".</summary>
    public static bool TryParse(string text, out ThreadSize thread)
    {
        thread = default;
        if (text.StartsWith("thread ", StringComparison.Ordinal))
        {
            var read = Size.TryParse(text["thread ".Length..], out var size);
            thread = new ThreadSize(size, null);
            return read;
        }

        var parts = text.TrimStart('M').Split(text.StartsWith('M') ? 'x' : '-');
        if (parts.Length > 2 || !text.StartsWith('M') && parts.Length != 2
            || Fraction.Read(parts[0]) is not { } diameter || Fraction.Read(parts[^1]) is not { } pitch)
        {
            return false;
        }

        thread = new ThreadSize(text.StartsWith('M') ? Size.FromMillimetres(diameter) : Size.FromInches(diameter), parts.Length == 2 ? pitch : null);
        return true;
    }

    public override string ToString() => (Diameter.IsInch, Pitch) switch
    {
        (true, null) => $"thread {Diameter}",
        (true, { } perInch) => string.Create(CultureInfo.InvariantCulture, $"{Diameter.ToString()[..^2]}-{perInch:R}"),
        (false, null) => string.Create(CultureInfo.InvariantCulture, $"M{Diameter.Value_mm:R}"),
        (false, { } pitch) => string.Create(CultureInfo.InvariantCulture, $"M{Diameter.Value_mm:R}x{pitch:R}"),
    };
}
