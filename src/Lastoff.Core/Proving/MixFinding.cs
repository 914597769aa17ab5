using System.Globalization;
using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Proving;

/// <summary>A mix, judged against what it should be, and what goes on record of it.</summary>
public sealed record MixFinding(StrengthReading Reading, double TargetPercent, double WithinPercent, ProofFinding Record)
{
    /// <summary>How many points off the target still do, unless the map says: common practice, no source.</summary>
    public const double UsualWithinPercent = 5;

    public static MixFinding Of(StrengthReading reading, double targetPercent, double withinPercent = UsualWithinPercent)
    {
        var coolant = reading.Coolant;
        var (least, most) = (targetPercent - withinPercent, targetPercent + withinPercent);
        var says = coolant.VolumePercent >= least && coolant.VolumePercent <= most ? Ledger.Verdict.Good
            : reading.HighPercent >= least && reading.LowPercent <= most ? Ledger.Verdict.Unclear
            : Ledger.Verdict.Bad;
        var summary = string.Create(CultureInfo.InvariantCulture,
            $"{coolant.VolumePercent:0} % {Coolant.Name(coolant.Glycol)} by {reading.Method} ({reading.LowPercent:0} to {reading.HighPercent:0} %); it freezes at {coolant.Freezing.Celsius:0} °C, give or take {coolant.FreezingPlusMinusKelvins:0.#} °C. Wanted: {targetPercent:0.#} % within {withinPercent:0.#}.");
        return new MixFinding(reading, targetPercent, withinPercent, new ProofFinding(summary, new Evidence(
            $"mix by {reading.Method}", says, Math.Round(coolant.VolumePercent, 1), Math.Round(reading.LowPercent, 1), Math.Round(reading.HighPercent, 1), "% by volume",
            new Dictionary<string, double> { ["target_percent"] = targetPercent, ["within_percent"] = withinPercent, ["freezing_C"] = Math.Round(coolant.Freezing.Celsius, 1) }, null)));
    }

    /// <summary>In a word or three.</summary>
    public string Verdict => Record.Evidence.Says switch
    {
        Ledger.Verdict.Good => "As it should be",
        Ledger.Verdict.Unclear => "Read it again",
        _ when Reading.Coolant.VolumePercent < TargetPercent => "Too weak",
        _ => "Too strong",
    };
}
