using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Learning;

/// <summary>What gave trouble at earlier jobs on a map, where it was written down at the joint.</summary>
public static class TroubleMet
{
    /// <summary>By the identifiers of the joints, as the names of a rate: what broke, and what was seized.</summary>
    /// <param name="jobs">The entries of each job on the map; of other kinds than moves, stuck joints and what was taken back none is needed.</param>
    public static IReadOnlyList<TroubleRate> At(IEnumerable<IReadOnlyCollection<Entry>> jobs)
    {
        List<(IReadOnlyList<JointStuck> Stuck, HashSet<string> Undone)> seen =
        [
            .. from job in jobs
               let acts = CountedEntry.AllOf(EntryOrder.Of(job)).Where(counted => !counted.IsTakenBack).Select(counted => counted.Act).ToList()
               let stuck = acts.OfType<JointStuck>().ToList()
               select ((IReadOnlyList<JointStuck>)stuck, acts.OfType<Moved>().Where(moved => moved.Move == Move.JointUndone).Select(moved => moved.Target).Concat(stuck.Select(one => one.Joint)).ToHashSet()),
        ];
        return
        [
            .. from joint in seen.SelectMany(job => job.Stuck).Select(stuck => stuck.Joint).Distinct().Order(StringComparer.Ordinal)
               let times = seen.Count(job => job.Undone.Contains(joint))
               from kind in new[] { TroubleKind.Broke, TroubleKind.Seized }
               // One that broke was seized before it did, and is counted once.
               let wrong = seen.Select(job => job.Stuck.Where(stuck => stuck.Joint == joint).ToList()).Where(stuck => stuck.Count > 0 && stuck.Exists(one => one.Broke) == (kind == TroubleKind.Broke)).ToList()
               where wrong.Count > 0
               // The last word on how long it took counts.
               select new TroubleRate(joint, kind, wrong.Count, times, wrong.Select(stuck => stuck.LastOrDefault(one => one.ExtraMinutes > 0)?.ExtraMinutes).Average()),
        ];
    }

    /// <summary>The map with what was met as the risk of its joints: what the map itself says of a joint is what was known before.</summary>
    public static Map On(Map map, IReadOnlyList<TroubleRate> met) => map with
    {
        Joints =
        [
            .. from joint in map.Joints
               let rates = met.Where(rate => rate.Name == joint.Id).ToList()
               let minutes = rates.Max(rate => rate.ExtraMinutes) ?? joint.Risk?.Minutes
               select rates.Count == 0 || minutes is null ? joint : joint with
               {
                   Risk = new Risk(
                       new TroubleRate(joint.Id, rates[0].Kind, rates.Sum(rate => rate.Seen), rates[0].Times, minutes) { Before = joint.Risk?.Chance ?? TroubleRate.Unknown }.Chance,
                       minutes.Value, joint.Risk?.What ?? (rates[0].Kind == TroubleKind.Broke ? "it breaks" : "it is seized")),
               },
        ],
    };
}
