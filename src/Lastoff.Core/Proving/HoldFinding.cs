using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Proving;

/// <summary>A vacuum or pressure hold, judged, and what goes on record of it.</summary>
/// <param name="Notes">What was noticed and assumed.</param>
public sealed record HoldFinding(HoldTest Test, ProofFinding Record, IReadOnlyList<string> Notes)
{
    // A browser takes some milliseconds for each, many times over on a phone, and the answer has to come while the thumb still rests.
    private const int MostJudged = 60;

    /// <param name="readings">A table with a header, as it was typed, pasted or read from a file.</param>
    public static Answer<HoldFinding> Of(string readings, HoldKind kind, HoldSettings settings)
    {
        if (!ReadingTable.Read(readings, "readings").TryGet(out var table, out var sentence)
            || !HoldReadings.From(table, settings.Ambient, kind).TryGet(out var hold, out sentence)
            || !HoldTest.Of(Thinned(hold), settings).TryGet(out var test, out sentence))
        {
            return Answer.None<HoldFinding>(sentence);
        }

        var given = new Dictionary<string, double>
        {
            ["volume_L"] = settings.VolumeLitres,
            ["ambient_kPa_abs"] = settings.Ambient.Kilopascals,
            ["division_kPa"] = test.Division / 1000,
            ["allowed_Pa_m3_per_s"] = test.AllowedThroughput,
            ["watched_s"] = test.WatchedSeconds,
        };
        if (settings.AccuracyClassPercent is { } accuracy)
        {
            given["class_percent"] = accuracy;
        }

        var says = test.Verdict switch
        {
            HoldVerdict.Tight => Verdict.Good,
            HoldVerdict.Leaking => Verdict.Bad,
            _ => Verdict.Unclear,
        };
        var summary = $"{HoldWords.Verdict(test)}: {HoldWords.Meaning(test)}. {HoldWords.Figure(test)} {hold.Readings.Count} readings in {HoldWords.Minutes(test.WatchedSeconds)}.";
        IReadOnlyList<string> notes = hold.Readings.Count > MostJudged
            ? [.. test.Notes, $"Of the {hold.Readings.Count} readings {MostJudged}, evenly over the time, are judged here; `lastoff hold` takes them all."]
            : test.Notes;
        return new HoldFinding(test, new ProofFinding(summary, new Evidence(
            kind == HoldKind.Vacuum ? "vacuum hold" : "pressure hold", says, test.Throughput, test.Interval.Low, test.Interval.High, "Pa·m3/s", given, Evidence.Kept(readings))), notes);
    }

    private static HoldReadings Thinned(HoldReadings hold) => hold.Readings.Count <= MostJudged
        ? hold
        : hold with { Readings = [.. Enumerable.Range(0, MostJudged).Select(i => hold.Readings[(int)((long)i * (hold.Readings.Count - 1) / (MostJudged - 1))])] };
}
