using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Proving;

/// <summary>A warm-up, judged, and what goes on record of it.</summary>
/// <param name="Codes">The trouble codes read along with it. They judge nothing: one may be left from before the repair.</param>
public sealed record WarmupFinding(WarmupProof Proof, IReadOnlyList<TroubleCode> Codes, ProofFinding Record)
{
    /// <param name="readings">A table with a header, as it was typed, pasted or read from a file.</param>
    /// <param name="limit">Where the maker's gauge goes red; null when nobody says.</param>
    /// <param name="codes">Trouble codes a tester shows, beside those in the table; parted by spaces or commas.</param>
    public static Answer<WarmupFinding> Of(string readings, Temperature? limit, string codes = "")
    {
        if (!ReadingTable.Read(readings, "readings").TryGet(out var table, out var sentence) || !WarmupLog.From(table).TryGet(out var log, out sentence)
            || !TroubleCode.ReadAll(codes).TryGet(out var typed, out sentence))
        {
            return Answer.None<WarmupFinding>(sentence);
        }

        var proof = WarmupProof.Of(log, limit?.Celsius);
        var given = new Dictionary<string, double>
        {
            ["limit_C"] = proof.LimitCelsius,
            ["hottest_C"] = proof.HottestCelsius,
            ["watched_s"] = log.Readings[^1].Seconds - log.Readings[0].Seconds,
        };
        foreach (var (name, value) in new[] { ("band_low_C", proof.Band?.LowCelsius), ("band_high_C", proof.Band?.HighCelsius), ("fan_on_C", proof.FanOnCelsius) })
        {
            if (value is { } known)
            {
                given[name] = known;
            }
        }

        IReadOnlyList<TroubleCode> all = [.. log.Codes.Union(typed)];
        return new WarmupFinding(proof, all, new ProofFinding(string.Join(" ", [.. proof.Findings(), .. all.Select(code => code.Sentence)]), new Evidence(
            "warm-up", Says(proof), proof.Opening?.Celsius, proof.Opening?.CelsiusLow, proof.Opening?.CelsiusHigh, proof.Opening is null ? "" : "°C", given, Evidence.Kept(readings))));
    }

    /// <summary>What to do about codes.</summary>
    public const string AboutCodes = "A code may be left from before the repair: write it down, erase it, warm up again and see whether it comes back.";

    /// <summary>In a word or three.</summary>
    public string Verdict => Proof.Verdict switch
    {
        WarmupVerdict.Overheating => "Overheating",
        WarmupVerdict.AirLockSuspected => "Air lock suspected",
        WarmupVerdict.NoFlowToRadiator => "No flow to the radiator",
        WarmupVerdict.RunsCold => "Runs cold",
        WarmupVerdict.NotWarmYet => "Not warm yet",
        _ when Record.Evidence.Says == Ledger.Verdict.Unclear => "Wait for the fan",
        _ => "Regulating",
    };

    private static Verdict Says(WarmupProof proof) => proof.Verdict switch
    {
        // Where the fan was watched, the proof is whole only once it has run.
        WarmupVerdict.Regulating => proof.FanOnCelsius is null && proof.Log.Readings.Any(reading => reading.Fan is not null) ? Ledger.Verdict.Unclear : Ledger.Verdict.Good,
        WarmupVerdict.NotWarmYet => Ledger.Verdict.Unclear,
        _ => Ledger.Verdict.Bad,
    };
}
