using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>
/// A second opinion on what a joint still lacks before it may be made, read straight from the entries and the map,
/// without the operations, the fold or the guards of the product.
/// </summary>
public sealed class JointRecord(Map map, IReadOnlyList<Entry> entries)
{
    public string? Missing(string id)
    {
        var joint = map.Joints.Single(j => j.Id == id);
        var state = new Dictionary<string, string>();
        HashSet<string> undone = [], covered = [], cleaned = [], renewed = [];
        HashSet<(string Joint, int Pass, string Bolt)> tight = [];
        foreach (var entry in entries)
        {
            var target = entry.Data.TryGetProperty("joint", out var value) || entry.Data.TryGetProperty("part", out value)
                || entry.Data.TryGetProperty("opening", out value) || entry.Data.TryGetProperty("renewal", out value) ? value.GetString()! : "";
            switch (entry.Kind)
            {
                case "joint-undone":
                    tight.RemoveWhere(t => t.Joint == target);
                    // Slackened before it was made, it was not opened again.
                    if (undone.Add(target))
                    {
                        cleaned.Remove(target);
                        renewed.RemoveWhere(r => Renewals(target).Contains(r));
                    }

                    break;
                case "joint-made": undone.Remove(target); break;
                case "part-off" or "part-aside" or "part-home" or "part-fitted":
                    state[target] = entry.Kind == "part-fitted" && state.GetValueOrDefault(target + "/aside") == "yes" ? "part-aside" : entry.Kind;
                    state[target + "/aside"] = entry.Kind switch { "part-aside" => "yes", "part-home" => "no", _ => state.GetValueOrDefault(target + "/aside", "no") };
                    break;
                case "joint-tightened":
                    var pass = entry.Data.GetProperty("pass").GetInt32();
                    tight.UnionWith((entry.Data.TryGetProperty("bolt", out var bolt) ? [bolt.GetString()!] : map.Joints.Single(j => j.Id == target).Bolts).Select(b => (target, pass, b)));
                    break;
                case "opening-covered": covered.Add(target); break;
                case "opening-uncovered": covered.Remove(target); break;
                case "face-cleaned": cleaned.Add(target); break;
                case "renewal-fitted": renewed.Add(target); break;
            }
        }

        return Renewals(id).FirstOrDefault(r => !renewed.Contains(r)) is { } renewal ? $"{renewal} is not renewed"
            : tight.Count(t => t.Joint == id) < joint.Passes.Count * joint.Count ? "a pass is not in"
            : joint.Clean && !cleaned.Contains(id) ? "its face is not clean"
            : map.Openings.FirstOrDefault(o => o.On == id && covered.Contains(o.Id)) is { } opening ? $"{opening.Id} is covered"
            : joint.Holds.FirstOrDefault(p => IsAway(p)) is { } part ? $"{part} is away"
            : map.Parts.FirstOrDefault(p => state.GetValueOrDefault(p.Id) == "part-off" && Under(p.Reach, p.Id)) is { } deeper ? $"{deeper.Id}, under it, is off"
            : map.Joints.FirstOrDefault(j => j.Id != id && undone.Contains(j.Id) && Under(j.Reach, null)) is { } open ? $"{open.Id}, under it, is undone"
            : null;

        bool IsAway(string part) => state.GetValueOrDefault(part) switch
        {
            "part-off" => true,
            "part-aside" => !map.Parts.Single(p => p.Id == part).Aside!.Leaves.Contains(id),
            _ => false,
        };

        // Certainly under a part this joint holds: that part is in place, rides on nothing, and must be away whichever way is taken.
        bool Under(Reach reach, string? self) => reach.Clear.Concat(reach.Off).Any(p =>
            p != self && joint.Holds.Contains(p)
            && state.GetValueOrDefault(p) is not ("part-off" or "part-aside")
            && map.Parts.Single(x => x.Id == p).RidesOn is null);
    }

    private IEnumerable<string> Renewals(string target) =>
        map.Renewals.Where(r => r.For == target).Select(r => r.Id)
            .Concat(map.Joints.Any(j => j.Id == target && j.OneTime) ? [target + ".new"] : []);
}
