using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“One pump bolt snapped”, told beside “five pump bolts out”: it is no joint by itself, and the set has six.</summary>
internal static class BrokenOne
{
    /// <summary>Everything that broke by itself, with the set it was one of.</summary>
    /// <param name="out">What came off, in order.</param>
    public static IReadOnlyDictionary<ToldMove, ToldMove> Among(IReadOnlyList<ToldMove> @out)
    {
        var sets = new Dictionary<ToldMove, ToldMove>();
        foreach (var (at, one) in @out.Index())
        {
            if (one is { Moved.Move: Move.JointUndone, Reading: { Broken: true, Kind: not null, Count: null or 1 } reading } && SetOf(reading, @out, at) is { } set)
            {
                sets.Add(one, set);
            }
        }

        return sets;
    }

    /// <summary>The set of the same part that was told nearest; of what no part is named, the one just before.</summary>
    private static ToldMove? SetOf(Reading one, IReadOnlyList<ToldMove> @out, int at) => one.Part is null
        ? @out.Take(at).LastOrDefault(other => other.Moved.Move == Move.JointUndone) is { } last && IsSet(last, one) ? last : null
        : @out.Index().Where(other => IsSet(other.Item, one) && string.Equals(other.Item.Reading!.Part, one.Part, StringComparison.OrdinalIgnoreCase))
            .OrderBy(other => Math.Abs(other.Index - at)).Select(other => other.Item).FirstOrDefault();

    private static bool IsSet(ToldMove other, Reading one) => other is { Moved.Move: Move.JointUndone, Reading: { Count: > 1 } set } && set.Kind == one.Kind
        && (one.Across is null || set.Across is null || one.Across == set.Across)
        && (one.Name is null || string.Equals(one.Name.TrimEnd('s'), set.Name?.TrimEnd('s'), StringComparison.OrdinalIgnoreCase));
}
