using Lastoff.Core.Languages;

namespace Lastoff.Core.Learning;

/// <summary>What a learned map says to heed at a thing: what is usual, how it gave trouble, what whoever recorded it said, and what was written down for the next time.</summary>
internal static class LearnedCaution
{
    /// <param name="tongue">For all but the words of whoever recorded it.</param>
    public static string? Of(IReadOnlyList<Removal> removals, Tongue tongue)
    {
        List<string> sentences = [.. removals.SelectMany(removal => removal.Cautions).Distinct().Select(tongue.Say)];
        List<string> told = [];
        // A part that is bad gave no trouble by that when it came off.
        foreach (var kind in removals.Where(removal => removal.Sort == Sort.Joint).Select(removal => removal.Trouble?.Kind).OfType<TroubleKind>().Distinct())
        {
            List<Removal> wrong = [.. removals.Where(removal => removal.Trouble?.Kind == kind)];
            List<string> how = [.. wrong.SelectMany(removal => removal.Told).Distinct()];
            told.AddRange(how);
            sentences.Add(tongue.Say((kind, string.Join(", ", how.Select(line => $"“{line}”"))) switch
            {
                (TroubleKind.Broke, "") => $"Broke in {wrong.Count} of {removals.Count}.",
                (TroubleKind.Broke, var words) => $"Broke in {wrong.Count} of {removals.Count}: {words}.",
                (_, "") => $"Seized in {wrong.Count} of {removals.Count}.",
                (_, var words) => $"Seized in {wrong.Count} of {removals.Count}: {words}.",
            }));
        }

        sentences.AddRange(removals.SelectMany(removal => removal.Told).Distinct().Except(told).Select(line => tongue.Say($"Said when it came off: “{line}”.")));
        sentences.AddRange(removals.SelectMany(removal => removal.Lessons).Distinct().Select(lesson => tongue.Say($"Learned before: “{lesson}”.")));
        return sentences.Count == 0 ? null : string.Join(" ", sentences);
    }
}
