using Lastoff.Core.Ledger;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

public static class Goals
{
    /// <summary>What a job is for: "renew the water pump; get at the heater hose".</summary>
    public static string Of(Standing standing) =>
        Of(standing, names => Say($"Renew {names}"), names => Say($"Get at {names}"), names => Say($"also {names}")) ?? (standing.Opened is { HasMap: true } ? Say("The cause is to be found") : Say("Recorded as it comes off"));

    /// <summary>The same in English whatever the person reads, for what is kept.</summary>
    public static string Plain(Standing standing) =>
        Of(standing, names => $"Renew {names}", names => $"Get at {names}", names => $"also {names}") ?? "Recorded as it comes off";

    /// <summary>Null when a job without a map says nothing of it.</summary>
    private static string? Of(Standing standing, Func<string, string> renew, Func<string, string> getAt, Func<string, string> also)
    {
        var net = standing.Net;
        var parts = standing.GoalParts.Select(p => net.Parts[p].Name).Order(StringComparer.Ordinal).ToList();
        var joints = standing.GoalJoints.Select(j => net.Joints[j].Name).Order(StringComparer.Ordinal).ToList();
        var own = standing.File.Works.Select(work => work.What).ToList();
        return parts.Count + joints.Count + own.Count == 0 && standing.Opened is { } opened
            ? opened.Complaint.Length > 0 ? opened.Complaint : null
            : string.Join("; ", new[] { Line(renew, parts), Line(getAt, joints), Line(also, own) }.Where(line => line.Length > 0));
    }

    private static string Line(Func<string, string> say, List<string> names) => names.Count == 0 ? "" : say(string.Join(", ", names));
}
