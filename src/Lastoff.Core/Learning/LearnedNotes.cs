using System.Globalization;
using Lastoff.Core.Languages;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Learning;

/// <summary>What a learned map has to tell of a thing and nobody need heed: what whoever recorded it said, and what was written down for the next time.</summary>
internal static class LearnedNotes
{
    /// <param name="tongue">For all but the words of whoever recorded it.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<Removal> removals, Tongue tongue) =>
    [
        .. removals.SelectMany(removal => removal.RanOut).GroupBy(ran => ran.Fluid).Select(same => tongue.Say((same.Key, Median.Of(same.Select(ran => ran.Litres))?.ToString("0.##", CultureInfo.InvariantCulture)) switch
        {
            (null, null) => $"Something runs out when it comes off: have a tray under it, and top it up after.",
            (null, { } litres) => $"About {litres} L runs out when it comes off: have a tray under it, and top it up after.",
            ({ } fluid, null) => $"Some {fluid} runs out when it comes off: have a tray under it, and top it up after.",
            ({ } fluid, { } litres) => $"About {litres} L of {fluid} runs out when it comes off: have a tray under it, and top it up after.",
        })),
        // Of a joint the map says it itself.
        .. removals.Where(removal => removal.Sort != Sort.Joint && removal.Tray is not null).TakeLast(1).Select(removal => tongue.Say($"It lay in {tongue.Say(Trays.Called(removal.Tray!))} the last time.")),
        // How it gave trouble is quoted in its caution.
        .. removals.SelectMany(removal => removal.Told).Distinct().Except(LearnedCaution.Trouble(removals).SelectMany(trouble => trouble.How)).Select(line => tongue.Say($"Said when it came off: “{line}”.")),
        .. removals.SelectMany(removal => removal.Lessons).Distinct().Select(lesson => tongue.Say($"Learned before: “{lesson}”.")),
    ];
}
