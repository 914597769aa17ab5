using Lastoff.Core.Maps;

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
            _of[(sort, name)] = id = NewIdentifier.For(name, _taken);
            _taken.Add(id);
        }

        return id;
    }
}
