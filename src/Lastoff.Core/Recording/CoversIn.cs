using Lastoff.Core.Ledger;

namespace Lastoff.Core.Recording;

/// <summary>What recorded lines put into one opening, and how much of it is still in. Left in is as wrong as missing, so it is empty only when all of it came out.</summary>
internal sealed class CoversIn
{
    public static readonly CoversIn None = new([]);

    private readonly IReadOnlyList<Kind> _kinds;

    private CoversIn(IReadOnlyList<Kind> kinds) => _kinds = kinds;

    public bool IsEmpty => _kinds.All(kind => kind.In == 0);

    /// <summary>All that went in since it was last empty: “set of 2 (rags)”, “rag and cap”.</summary>
    public string Whole => Words(_kinds.Select(kind => Said(kind, kind.Most)));

    /// <summary>What is still in: “rag”.</summary>
    public string Still => Words(_kinds.Where(kind => kind.In != 0).Select(kind => Said(kind, kind.In)));

    /// <summary>With what the line put in or took out; null when it took out what is not in.</summary>
    public CoversIn? After(RecordedCover cover)
    {
        var (word, count) = (cover.Reading.Cover ?? "cover", cover.Reading.Count);
        return cover.Act is OpeningCovered ? With(word, count ?? (IsPlural(word) ? null : 1)) : IsEmpty ? this : Without(word, count);
    }

    /// <summary>Covered by a tap, all of it is in; uncovered, all of it is out.</summary>
    public CoversIn After(Act act) => act is OpeningCovered ? Each(kind => kind with { In = kind.Most }) : Each(kind => kind with { In = 0 });

    private CoversIn With(string word, int? count)
    {
        if (IsEmpty || !_kinds.Any(kind => IsSame(kind.Word, word)))
        {
            return new CoversIn([.. IsEmpty ? [] : _kinds, new Kind(word, count, count)]);
        }

        return Each(kind => !IsSame(kind.Word, word) ? kind
            // Told again; after some came out, it is more.
            : kind.In == kind.Most ? kind.Most < count ? new Kind(word, count, count) : kind
            : kind.In + count is { } now ? kind with { In = now, Most = Math.Max(now, kind.Most ?? now) }
            : kind with { In = null, Most = null });
    }

    private CoversIn? Without(string word, int? count)
    {
        List<Kind> left = [.. _kinds.Where(kind => kind.In != 0)];
        // “Uncapped the pipe” names no cover that could be another one.
        var isByVerb = !LineReader.IsCover(word);
        var named = left.FindIndex(kind => IsSame(kind.Word, word));
        return (named < 0 ? isByVerb && left.Count == 1 ? left[0] : null : left[named]) is not { } taken ? null
            : Each(kind => kind != taken ? kind
                : count is null && (isByVerb || IsPlural(word)) ? kind with { In = 0 }
                : kind.In is { } there ? kind with { In = Math.Max(0, there - (count ?? 1)) }
                // Of several that nobody counted some are still in.
                : kind);
    }

    private CoversIn Each(Func<Kind, Kind> change) => new([.. _kinds.Select(change)]);

    private static string Words(IEnumerable<string> said) => string.Join(" and ", said);

    private static string Said(Kind kind, int? count) => count switch
    {
        > 1 => $"set of {count} ({kind.Word})",
        1 when kind.Most > 1 => Single(kind.Word),
        _ => kind.Word,
    };

    /// <summary>“Clean rag” and “rags” are of one kind.</summary>
    private static bool IsSame(string one, string other)
    {
        var (a, b) = (Single(one).ToLowerInvariant(), Single(other).ToLowerInvariant());
        return a == b || a.EndsWith($" {b}", StringComparison.Ordinal) || b.EndsWith($" {a}", StringComparison.Ordinal);
    }

    public static bool IsPlural(string word) => word.EndsWith('s') && !word.EndsWith("ss", StringComparison.Ordinal);

    public static string Single(string word) => IsPlural(word) ? word[..^1] : word;

    /// <param name="Most">How many went in; null when it was several and nobody said how many.</param>
    /// <param name="In">How many are still in.</param>
    private sealed record Kind(string Word, int? Most, int? In);
}
