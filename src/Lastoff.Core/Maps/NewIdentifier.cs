using System.Text;

namespace Lastoff.Core.Maps;

/// <summary>Makes the identifier of something new from its name: lower-case letters, digits and hyphens, and no other's.</summary>
internal static class NewIdentifier
{
    /// <summary>With room for a number behind it, it is short enough for the name of a map.</summary>
    private const int Longest = Map.LongestName - 10;

    public static string For(string name, HashSet<string> taken)
    {
        var plain = Plain(name);
        var id = plain;
        for (var number = 2; taken.Contains(id); number++)
        {
            id = $"{plain}-{number}";
        }

        return id;
    }

    private static string Plain(string name)
    {
        var id = new StringBuilder();
        foreach (var letter in name.ToLowerInvariant())
        {
            if (char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter))
            {
                id.Append(letter);
            }
            else if (id.Length > 0 && id[^1] != '-')
            {
                id.Append('-');
            }
        }

        var plain = id.ToString(0, Math.Min(id.Length, Longest)).TrimEnd('-');
        return plain.Length > 0 ? plain : "thing";
    }
}
