namespace Lastoff.Core.Fluids;

/// <summary>Whether two coolants may be mixed, by what their labels say. Colour is never asked: dyes follow no rule.</summary>
public static class CoolantLabel
{
    // The inhibitor families as the trade prints them on labels (common practice, no source). The longer names first: "HOAT" contains "OAT".
    private static readonly string[] Families = ["SI-OAT", "P-HOAT", "N-HOAT", "P-OAT", "HOAT", "OAT", "IAT"];

    private static readonly string[] Colours =
        ["green", "red", "blue", "yellow", "orange", "pink", "purple", "violet", "turquoise", "white", "black", "gold", "clear"];

    /// <summary>The warning to show before one is poured on the other, or nothing when both labels say the same.</summary>
    public static string? Warning(string inside, string poured)
    {
        if (IsColour(inside) || IsColour(poured))
        {
            return "A colour says nothing about what is in a coolant; read the label, or drain and flush before filling another.";
        }

        var first = Family(inside);
        var second = Family(poured);
        if (string.Equals(inside.Trim(), poured.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        if (first is null || second is null)
        {
            return "The labels do not say the same and the inhibitor family is not known for both; do not mix them: drain and flush first, or ask the makers.";
        }

        return first == second
            ? $"Both labels say {first}, from different makers perhaps; they can usually be mixed, but the makers' approvals for this engine decide."
            : $"The labels say {first} and {second}: these inhibitors can cancel each other or gel; do not mix them, drain and flush first.";
    }

    private static string? Family(string label) =>
        Families.FirstOrDefault(family => label.Replace(' ', '-').Contains(family, StringComparison.OrdinalIgnoreCase));

    private static bool IsColour(string label) => Colours.Contains(label.Trim(), StringComparer.OrdinalIgnoreCase);
}
