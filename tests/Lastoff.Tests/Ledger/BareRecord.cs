using System.Text.Json;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>A second opinion on what a job still has open, read straight from its entries, without the fold or the guards of the product.</summary>
public sealed class BareRecord(Map map, IReadOnlyList<Entry> entries, string goal)
{
    private static readonly string[] Out = ["supply-safe", "joint-undone", "part-aside", "part-off", "opening-covered"];
    private static readonly string[] Back = ["supply-restored", "joint-made", "part-home", "part-fitted", "opening-uncovered"];

    private static readonly string[] Names = ["supply", "joint", "part", "opening", "renewal"];

    /// <summary>Good by the readings, or by a person who says why.</summary>
    private static bool Holds(JsonElement data) =>
        data.GetProperty("verdict").GetString() == "good"
        && (!data.TryGetProperty("evidence", out var evidence) || evidence.GetProperty("says").GetString() == "good"
            || (data.TryGetProperty("overruled", out var why) && !string.IsNullOrWhiteSpace(why.GetString())));

    /// <summary>The first thing found open, as the end of a sentence; null when nothing is.</summary>
    public string? Open()
    {
        var open = new HashSet<(int Kind, string Target)>();
        var disturbedAt = new Dictionary<string, int>();
        var offAt = new Dictionary<string, int>();
        var newAt = new Dictionary<string, int>();
        var goodAt = new Dictionary<string, int>();
        var tight = new HashSet<(string Joint, int Pass, string Bolt)>();
        var agreed = false;
        // Where the map itself brings a new part for the goal, that one is it.
        var newPart = map.Renewals.FirstOrDefault(r => r.For == goal && r.Kind == RenewalKind.Part)?.Id ?? goal + ".new";
        for (var i = 0; i < entries.Count; i++)
        {
            var target = entries[i].Data.EnumerateObject().FirstOrDefault(m => Names.Contains(m.Name)).Value.ToString();
            var kind = entries[i].Kind;
            if (Array.IndexOf(Out, kind) is >= 0 and var went)
            {
                disturbedAt[target] = open.Add((went, target)) ? i : disturbedAt[target];
                offAt[target] = kind == "part-off" ? i : offAt.GetValueOrDefault(target, -1);
            }
            else if (Array.IndexOf(Back, kind) is >= 0 and var came)
            {
                open.Remove((came, target));
            }

            if (kind == "joint-undone")
            {
                tight.RemoveWhere(t => t.Joint == target);
            }
            else if (kind == "joint-tightened")
            {
                var data = entries[i].Data;
                var all = map.Joints.Single(j => j.Id == target).Bolts;
                tight.UnionWith((data.TryGetProperty("bolt", out var bolt) ? [bolt.GetString()!] : all).Select(b => (target, data.GetProperty("pass").GetInt32(), b)));
            }

            agreed |= kind == "agreed";
            if (kind == "renewal-fitted")
            {
                newAt[target] = i;
            }

            if (kind == "proof-recorded")
            {
                goodAt[entries[i].Data.GetProperty("proof").GetString()!] = Holds(entries[i].Data) ? i : -1;
            }
        }

        return !agreed ? "nobody agreed"
            : open.Count > 0 ? $"{Out[open.First().Kind]} {open.First().Target} was never reversed"
            : offAt.GetValueOrDefault(goal, -1) < 0 ? "the goal was not reached"
            : newAt.GetValueOrDefault(newPart, -1) < offAt[goal] ? "the new part is not in"
            : map.Renewals.FirstOrDefault(r => Old(r.For, newAt.GetValueOrDefault(r.Id, -1))) is { } renewal ? $"{renewal.Id} is old"
            : map.Joints.FirstOrDefault(j => j.OneTime && Old(j.Id, newAt.GetValueOrDefault(j.Id + ".new", -1))) is { } joint ? $"{joint.Id} was made with its old fasteners"
            : map.Joints.FirstOrDefault(j => disturbedAt.ContainsKey(j.Id) && tight.Count(t => t.Joint == j.Id) < j.Passes.Count * j.Count) is { } loose ? $"{loose.Id} was made without one of its passes"
            : map.Proofs.FirstOrDefault(p => Old(p.For, goodAt.GetValueOrDefault(p.Id, -1)) || LetIn(p, goodAt.GetValueOrDefault(p.Id, -1))) is { } proof ? $"{proof.Id} is unproved"
            : null;

        // A vacuum hold is taken empty, and says nothing any more once a joint of that supply is undone.
        bool LetIn(Proof proof, int at) => proof.Kind == ProofKind.VacuumHold && disturbedAt.ContainsKey(proof.For)
            && map.Joints.Any(j => j.Needs.Contains(proof.For) && Old(j.Id, at));

        bool Old(string target, int at) => disturbedAt.TryGetValue(target, out var when) && at < when;
    }
}
