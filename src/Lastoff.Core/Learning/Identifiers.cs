using System.Text;

namespace Lastoff.Core.Learning;

/// <summary>Gives everything that was recorded by name an identifier as a map wants it, unique over the whole map.</summary>
internal sealed class Identifiers
{
    private readonly Dictionary<(Sort, string), string> _of = [];
    private readonly HashSet<string> _taken = [];

    public string Of(Sort sort, string name)
    {
        if (!_of.TryGetValue((sort, name), out var id))
        {
            _of[(sort, name)] = id = Unique(Plain(name));
        }

        return id;
    }

    private string Unique(string wanted)
    {
        var id = wanted;
        for (var number = 2; !_taken.Add(id); number++)
        {
            id = $"{wanted}-{number}";
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

        var plain = id.ToString().TrimEnd('-');
        return plain.Length > 0 ? plain : "thing";
    }
}
