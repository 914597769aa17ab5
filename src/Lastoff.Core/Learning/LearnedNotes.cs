using Lastoff.Core.Languages;

namespace Lastoff.Core.Learning;

/// <summary>What a learned map has to tell of a thing and nobody need heed: what whoever recorded it said, and what was written down for the next time.</summary>
internal static class LearnedNotes
{
    /// <param name="tongue">For all but the words of whoever recorded it.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<Removal> removals, Tongue tongue) =>
    [
        // How it gave trouble is quoted in its caution.
        .. removals.SelectMany(removal => removal.Told).Distinct().Except(LearnedCaution.Trouble(removals).SelectMany(trouble => trouble.How)).Select(line => tongue.Say($"Said when it came off: “{line}”.")),
        .. removals.SelectMany(removal => removal.Lessons).Distinct().Select(lesson => tongue.Say($"Learned before: “{lesson}”.")),
    ];
}
