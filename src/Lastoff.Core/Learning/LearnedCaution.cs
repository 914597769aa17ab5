using Lastoff.Core.Languages;

namespace Lastoff.Core.Learning;

/// <summary>What a learned map says to heed at a thing: what is usual, and how it gave trouble.</summary>
internal static class LearnedCaution
{
    /// <param name="tongue">For all but the words of whoever recorded it.</param>
    public static string? Of(IReadOnlyList<Removal> removals, Tongue tongue)
    {
        List<string> sentences = [.. removals.SelectMany(removal => removal.Cautions).Distinct().Select(tongue.Say)];
        foreach (var (kind, times, how) in Trouble(removals))
        {
            sentences.Add(tongue.Say((kind, string.Join(", ", how.Select(line => $"“{line}”"))) switch
            {
                (TroubleKind.Broke, "") => $"Broke in {times} of {removals.Count}.",
                (TroubleKind.Broke, var words) => $"Broke in {times} of {removals.Count}: {words}.",
                (_, "") => $"Seized in {times} of {removals.Count}.",
                (_, var words) => $"Seized in {times} of {removals.Count}: {words}.",
            }));
        }

        return sentences.Count == 0 ? null : string.Join(" ", sentences);
    }

    /// <summary>How often a joint gave trouble of each kind, and the lines that tell of it.</summary>
    internal static IEnumerable<(TroubleKind Kind, int Times, IReadOnlyList<string> How)> Trouble(IReadOnlyList<Removal> removals) =>
        // A part that is bad gave no trouble by that when it came off.
        from removal in removals
        where removal is { Sort: Sort.Joint, Trouble: not null } or { LetOutBy.Count: > 0, Trouble: not null }
        group removal by removal.Trouble!.Kind into wrong
        select (wrong.Key, wrong.Count(), (IReadOnlyList<string>)[.. wrong.SelectMany(removal => removal.Told).Distinct()]);
}
