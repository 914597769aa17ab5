using System.Globalization;
using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;
using Lastoff.Core.Proving;

namespace Lastoff.Tests.Proving;

/// <summary>What readings show, as it is proposed and goes on record.</summary>
public class FindingTests
{
    private static readonly HoldSettings Settings = new(5.7, Atmosphere.SeaLevel, Pressure.FromKilopascals(1), null, LeakRate.FromThroughput(2e-2, Temperature.FromCelsius(20)));

    [Theory]
    // A needle that stands still for twenty minutes; one that falls by 1 kPa a minute (0.095 Pa·m3/s here); one looked at twice.
    [InlineData(20, 0, Verdict.Good)]
    [InlineData(10, 1, Verdict.Bad)]
    [InlineData(2, 0, Verdict.Unclear)]
    public void A_hold_proposes_its_verdict_and_the_record_can_be_worked_out_again(int minutes, double fall, Verdict says)
    {
        var readings = "t_min,p_kPa_vacuum,T_C\n" + string.Join('\n', Enumerable.Range(0, minutes + 1).Select(minute => string.Create(CultureInfo.InvariantCulture, $"{minute},{Math.Round(85 - (fall * minute)):0},20")));
        var finding = HoldFinding.Of(readings, HoldKind.Vacuum, Settings).Value!;
        var evidence = finding.Record.Evidence;
        Assert.Equal(says, evidence.Says);
        Assert.StartsWith(HoldWords.Verdict(finding.Test), finding.Record.Summary);

        // From nothing but the record.
        var again = HoldFinding.Of(evidence.Readings!, HoldKind.Vacuum, new HoldSettings(
            evidence.Given["volume_L"], Pressure.FromKilopascals(evidence.Given["ambient_kPa_abs"]), Pressure.FromKilopascals(evidence.Given["division_kPa"]), null,
            LeakRate.FromThroughput(evidence.Given["allowed_Pa_m3_per_s"], Temperature.FromCelsius(20)))).Value!.Record.Evidence;
        Assert.Equal((evidence.Says, evidence.Figure, evidence.Low, evidence.High), (again.Says, again.Figure, again.Low, again.High));
        Assert.Equal(fall * 1000 / 60 * 5.7e-3, evidence.Figure!.Value, 0.05 * fall * 1000 / 60 * 5.7e-3 + 1e-3);
    }

    [Fact]
    public void A_long_log_is_judged_by_some_of_its_readings_and_kept_whole()
    {
        var readings = "t_s,p_kPa_vacuum,T_C\n" + string.Join('\n', Enumerable.Range(0, 1200).Select(second => $"{second},85,20"));
        var finding = HoldFinding.Of(readings, HoldKind.Vacuum, Settings).Value!;
        Assert.Equal((60, 1199), (finding.Test.AtMeanTemperature.Count, finding.Test.WatchedSeconds));
        Assert.Contains("Of the 1200 readings 60, evenly over the time, are judged here; `lastoff hold` takes them all.", finding.Notes);
        Assert.Equal((Verdict.Good, readings), (finding.Record.Evidence.Says, finding.Record.Evidence.Readings));
    }

    [Theory]
    [InlineData("t_s,p_kPa_vacuum\n0,85\n-5,85", "readings, line 3: time runs backwards in column t_s; put the readings in the order they were taken.")]
    [InlineData("t_s,p_inHg_vacuum\n0,35\n60,35", "more than the weather allows here")]
    [InlineData("t_s,p_kPa_vacuum,T_C\n0,85,20\n60,85,", "the temperature is missing or impossible")]
    [InlineData("", "the log is empty")]
    public void Bad_readings_get_the_sentence_of_the_commands(string readings, string sentence) =>
        Assert.Contains(sentence, HoldFinding.Of(readings, HoldKind.Vacuum, Settings).Sentence);

    [Theory]
    [InlineData(-34, Verdict.Good, "As it should be")]
    [InlineData(-18, Verdict.Bad, "Too weak")]
    [InlineData(-47.5, Verdict.Bad, "Too strong")]
    public void A_mix_is_judged_by_its_target(double freezing, Verdict says, string word)
    {
        var finding = MixFinding.Of(StrengthReading.OfRefractometer(Glycol.Ethylene, Temperature.FromCelsius(freezing)).Value!, 48, 4);
        Assert.Equal((says, word), (finding.Record.Evidence.Says, finding.Verdict));
        Assert.InRange(finding.Record.Evidence.Figure!.Value, finding.Record.Evidence.Low!.Value, finding.Record.Evidence.High!.Value);
    }

    [Fact]
    public void A_mix_that_may_still_do_is_read_again()
    {
        // One point beyond the tolerance, and a strip is good to two.
        var finding = MixFinding.Of(StrengthReading.OfPercent(Glycol.Propylene, 43).Value!, 48, 4);
        Assert.Equal(Verdict.Unclear, finding.Record.Evidence.Says);
    }

    [Fact]
    public void A_reading_near_water_is_not_below_nothing()
    {
        var reading = StrengthReading.OfRefractometer(Glycol.Ethylene, Temperature.FromCelsius(-0.5)).Value!;
        Assert.Equal(0, reading.LowPercent);
        Assert.True(reading.HighPercent > reading.Coolant.VolumePercent);
    }

    [Theory]
    [InlineData(true, true, Verdict.Good, "Regulating")]
    [InlineData(true, false, Verdict.Unclear, "Wait for the fan")]
    [InlineData(false, false, Verdict.Unclear, "Not warm yet")]
    public void A_warm_up_is_whole_once_the_fan_has_run(bool isWarm, bool fanRan, Verdict says, string word)
    {
        // Made up: 20 °C, three degrees in half a minute to 88 °C, and there it stays; the fan runs once.
        var log = "t_s,engine_C,fan\n" + string.Join('\n', Enumerable.Range(0, isWarm ? 80 : 16).Select(i =>
            string.Create(CultureInfo.InvariantCulture, $"{i * 30},{Math.Min(20 + (3.0 * i), 88 + (0.4 * (i % 3))):0.0},{(fanRan && i is > 60 and < 66 ? 1 : 0)}")));
        var finding = WarmupFinding.Of(log, Temperature.FromCelsius(112)).Value!;
        Assert.Equal((says, word), (finding.Record.Evidence.Says, finding.Verdict));
        Assert.Equal(112, finding.Record.Evidence.Given["limit_C"], 1e-9);
    }

    [Fact]
    public void Trouble_codes_go_on_record_and_judge_nothing()
    {
        var log = "t_s,engine_C\n" + string.Join('\n', Enumerable.Range(0, 16).Select(i => $"{i * 30},{20 + i}"));
        var plain = WarmupFinding.Of(log, null).Value!;
        var coded = WarmupFinding.Of(log, null, "P0128").Value!;
        Assert.Equal(plain.Record.Evidence.Says, coded.Record.Evidence.Says);
        Assert.EndsWith("P0128 belongs to engine and gearbox, fuel and air; it is defined by the standard and says: coolant stays below the thermostat's regulating temperature.", coded.Record.Summary);
        Assert.Contains("“P01” is not a trouble code", WarmupFinding.Of(log, null, "P01").Sentence);
    }
}
