using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Proving;

/// <summary>A vacuum or pressure hold, judged, and what goes on record of it.</summary>
public sealed record HoldFinding(HoldTest Test, Finding Record)
{
    /// <param name="readings">A table with a header, as it was typed, pasted or read from a file.</param>
    public static Answer<HoldFinding> Of(string readings, HoldKind kind, HoldSettings settings)
    {
        if (!ReadingTable.Read(readings, "readings").TryGet(out var table, out var sentence)
            || !HoldReadings.From(table, settings.Ambient, kind).TryGet(out var hold, out sentence)
            || !HoldTest.Of(hold, settings).TryGet(out var test, out sentence))
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
        return new HoldFinding(test, new Finding(summary, new Evidence(
            kind == HoldKind.Vacuum ? "vacuum hold" : "pressure hold", says, test.Throughput, test.Interval.Low, test.Interval.High, "Pa·m3/s", given, Evidence.Kept(readings))));
    }
}
