using Lastoff.Core.Ledger;

namespace Lastoff.App.Words;

public static class Goals
{
    /// <summary>What a job is for: "renew the water pump; get at the heater hose".</summary>
    public static string Of(Standing standing)
    {
        var net = standing.Net;
        var parts = standing.GoalParts.Select(p => net.Parts[p].Name).Order(StringComparer.Ordinal).ToList();
        var joints = standing.GoalJoints.Select(j => net.Joints[j].Name).Order(StringComparer.Ordinal).ToList();
        return parts.Count + joints.Count == 0 && standing.Opened is { HasMap: false } recorded
            ? recorded.Complaint.Length > 0 ? recorded.Complaint : "Recorded as it comes off"
            : string.Join("; ", new[] { Line("Renew", parts), Line("Get at", joints) }.Where(line => line.Length > 0));
    }

    private static string Line(string verb, List<string> names) => names.Count == 0 ? "" : $"{verb} {string.Join(", ", names)}";
}
