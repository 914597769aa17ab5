using System.Text.RegularExpressions;

namespace Lastoff.Core.Papers;

/// <summary>Keeps a figure and its unit, and the groups of three in a figure, on one line.</summary>
public static partial class Unbroken
{
    /// <summary>A unit that this program writes, as a pattern.</summary>
    internal const string Unit = @"(?:%|°[CF]?|[kcmµ]?m|[kM]?Pa|m?bar|mil|min|h|s|m?L|qt|k?g|N·m|kgf·m|ft·lb|in·lb|inHg|mmHg|psi|ppm|kB|MB|[A-Z]{3})(?![\p{L}0-9])";

    private const string NoBreak = "\u00A0";

    public static string Of(string text) => text.Contains(' ', StringComparison.Ordinal) ? Torn().Replace(text, _ => NoBreak) : text;

    /// <summary>A space between a figure and a unit that this program writes, or a group of three more digits.</summary>
    [GeneratedRegex("(?<=[0-9]) (?=[0-9]{3}(?![0-9])|" + Unit + ")")]
    private static partial Regex Torn();
}
