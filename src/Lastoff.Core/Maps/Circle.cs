namespace Lastoff.Core.Maps;

/// <summary>Names that lead back to the first of them, started at the one that stands first in the file.</summary>
internal sealed class Circle
{
    private readonly IReadOnlyList<string> _names;
    private readonly Func<string, int> _lineOf;

    private Circle(IReadOnlyList<string> names, Func<string, int> lineOf) => (_names, _lineOf) = (names, lineOf);

    public string First => _names[0];

    public static Circle From(IReadOnlyList<string> names, Func<string, int> lineOf)
    {
        var first = Enumerable.Range(0, names.Count).MinBy(i => lineOf(names[i]));
        return new Circle([.. names.Skip(first), .. names.Take(first)], lineOf);
    }

    /// <summary>"pump waits for guard (line 12), guard waits for pump (line 9)".</summary>
    public string Spell(string verb) => _names.Count == 1
        ? $"{First} (line {_lineOf(First)}) {verb} itself"
        : string.Join(", ", _names.Select((name, i) => (name, next: _names[(i + 1) % _names.Count])).Select(x => $"{x.name} {verb} {x.next} (line {_lineOf(x.next)})"));
}
