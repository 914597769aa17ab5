using System.Globalization;
using System.Text;
using Lastoff.Bench;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

/// <summary>Logs from a simulated engine whose thermostat, fan and faults are known; invented, not measured.</summary>
public class WarmupTests
{
    [Theory]
    [InlineData(82)]
    [InlineData(87)]
    [InlineData(92)]
    public void The_thermostats_opening_lies_in_the_interval(double opens)
    {
        var proof = Prove(Simulate(opens: opens));
        Assert.Equal(WarmupVerdict.Regulating, proof.Verdict);

        // It opens over 8 K: from the first crack to half open.
        Assert.True(proof.Opening!.CelsiusLow <= opens + 4 && proof.Opening.CelsiusHigh >= opens, $"{proof.Opening}");
        Assert.InRange(proof.Opening.Celsius, opens - 2, opens + 6);
        Assert.InRange(proof.Band!.MeanCelsius, opens, opens + 10);
    }

    [Fact]
    public void The_fan_is_seen_coming_on_and_going_off()
    {
        var proof = Prove(Simulate(opens: 87, fanOn: 96, fanOff: 93, radiator: 60));
        Assert.Equal(96, proof.FanOnCelsius!.Value, 1.0);
        Assert.Equal(93, proof.FanOffCelsius!.Value, 1.0);
    }

    [Fact]
    public void A_heater_that_stays_cold_is_trapped_air() => Assert.Equal(WarmupVerdict.AirLockSuspected, Prove(Simulate(heaterFlows: false)).Verdict);

    [Fact]
    public void A_thermostat_that_never_shuts_runs_cold() => Assert.Equal(WarmupVerdict.RunsCold, Prove(Simulate(opens: 0, radiator: 300)).Verdict);

    [Fact]
    public void A_thermostat_that_never_opens_overheats() => Assert.Equal(WarmupVerdict.Overheating, Prove(Simulate(opens: 300)).Verdict);

    [Fact]
    public void A_slow_rise_after_opening_is_overheating_before_the_limit_is_reached()
    {
        var proof = Prove(Simulate(fades: true));
        Assert.True(proof.HottestCelsius < proof.LimitCelsius);
        Assert.True(proof.KeepsRising);
        Assert.Equal(WarmupVerdict.Overheating, proof.Verdict);
    }

    [Fact]
    public void A_hose_that_stays_cold_under_a_hot_engine_is_no_flow() =>
        Assert.Equal(WarmupVerdict.NoFlowToRadiator, Prove(Simulate(opens: 100, hoseFlows: false, fanOn: 200)).Verdict);

    [Fact]
    public void A_log_that_ends_early_is_not_warm_yet() => Assert.Equal(WarmupVerdict.NotWarmYet, Prove(Simulate(seconds: 240)).Verdict);

    // Made up: 6 K a minute up to 88 °C, and then a fan that swings it by 1.5 K either way every five minutes. Smooth readings are all alike.
    [Fact]
    public void A_smooth_log_that_swings_with_the_fan_has_levelled_off()
    {
        var csv = new StringBuilder("t_s,engine_C,fan\n");
        for (var i = 0; i <= 90; i++)
        {
            csv.Append(CultureInfo.InvariantCulture, $"{15 * i},{(i < 46 ? 20 + (1.5 * i) : 88 + (1.5 * Math.Sin(i / 3.0))):0.0},{(i > 55 && Math.Sin(i / 3.0) > 0.5 ? 1 : 0)}\n");
        }

        var proof = Prove(csv.ToString());
        Assert.Equal(WarmupVerdict.Regulating, proof.Verdict);
        Assert.InRange(proof.Opening!.Celsius, 84, 91);
    }

    // A healthy engine is not called overheating: a trend that swings with the fan is no trend.
    [Fact]
    public void Healthy_engines_are_let_pass()
    {
        var wrong = Enumerable.Range(0, 200).Count(seed => Prove(Simulate(seed: seed, radiator: 80 + (seed % 5 * 10))).Verdict != WarmupVerdict.Regulating);
        Assert.True(wrong <= 2, $"{wrong} of 200 healthy engines are not let pass");
    }

    [Theory]
    [InlineData("", "the log is empty")]
    [InlineData("t_s,heater_C\n0,20\n10,20\n20,20\n30,20\n40,20\n50,20\n60,20\n70,20", "the engine's temperature is missing")]
    [InlineData("t_s,engine_C\n0,20\n10,30", "2 readings")]
    [InlineData("t_s,engine_C\n0,70\n10,90\n20,120\n30,150\n40,180\n50,195\n60,195\n70,195", "line 7: 195 in column engine_C is hotter than any coolant and reads like Fahrenheit; name the column engine_F")]
    [InlineData("t_s,T_F\n0,20\n10,30\n20,40\n30,60\n40,80\n50,90\n60,90\n70,90", "reads like Celsius; name the column T_C")]
    [InlineData("t_s,T_C\n0,20\n10,30\n20,40\n30,\n40,80\n50,90\n60,90\n70,90", "line 5: the engine's temperature is missing")]
    [InlineData("t_s,T_C\n0,20\n10,30\n20,40\n15,50\n40,80\n50,90\n60,90\n70,90", "line 5: time runs backwards")]
    [InlineData("t_s,T_C,code\n0,20,\n10,30,\n20,40,\n30,50,\n40,80,P012\n50,90,\n60,90,\n70,90,", "warm.csv, line 6: “P012” is not a trouble code")]
    public void Bad_logs_get_one_sentence(string text, string says)
    {
        var table = ReadingTable.Read(text, "warm.csv");
        var refusal = table.Found ? WarmupLog.From(table.Value).Sentence : table.Sentence;
        Assert.Contains(says, refusal);
        Assert.DoesNotContain("\n", refusal);
    }

    [Fact]
    public void A_column_of_trouble_codes_is_read_along()
    {
        var log = WarmupLog.From(ReadingTable.Read("t_s,T_C,code\n" + string.Join('\n', Enumerable.Range(0, 10).Select(i => $"{i * 10},{20 + i},{(i > 7 ? "P0128 U0100" : "")}")), "warm.csv").Value!).Value!;
        Assert.Equal(["P0128", "U0100"], log.Codes.Select(code => code.Code));
    }

    // SAE J1979, service 01, engine coolant temperature: byte - 40 (published table of the identifiers).
    [Fact]
    public void A_raw_byte_of_the_diagnostics_standard_is_read()
    {
        var log = WarmupLog.From(ReadingTable.Read("t_s,pid_05\n" + string.Join('\n', Enumerable.Range(0, 10).Select(i => $"{i * 10},{60 + i}")), "raw.csv").Value!).Value!;
        Assert.Equal(20, log.Readings[0].EngineCelsius);
    }

    private static WarmupProof Prove(string csv) => WarmupProof.Of(WarmupLog.From(ReadingTable.Read(csv, "simulated.csv").Value!).Value!);

    /// <summary>A block of 60 kJ/K heated with 14 kW, a thermostat that opens over 8 K, a radiator of so many W/K, a fan that helps it; read every 10 s with 0.3 K of scatter.</summary>
    private static string Simulate(
        double opens = 87, double radiator = 110, double fanOn = 97, double fanOff = 92, bool heaterFlows = true, bool hoseFlows = true, bool fades = false, int seconds = 2400, int seed = 1)
    {
        const double Air = 20;
        var random = new Random(seed);
        double engine = 18, heater = 18, hose = 18;
        var fan = false;
        var csv = new StringBuilder("t_s,engine_C,heater_C,upper_hose_C,fan\n");
        for (var second = 0; second < seconds && engine < 130; second++)
        {
            var open = Math.Clamp((engine - opens) / 8, 0, 1);
            fan = engine > fanOn || (fan && engine >= fanOff);

            // A radiator that loses its flow little by little after ten minutes.
            var cools = radiator * (fades ? Math.Max(0.05, 1 - (Math.Max(0, second - 600) / 4500.0)) : 1) * (fan && !fades ? 3 : 1);
            engine += (14_000 - (open * cools * 2 * (engine - Air)) - (25 * (engine - Air))) / 60_000;
            heater += ((heaterFlows ? engine - 8 : Air + 4) - heater) / 40;
            hose += ((open > 0 && hoseFlows ? engine - 3 : Air) - hose) / 15;
            if (second % 10 == 0)
            {
                csv.Append(CultureInfo.InvariantCulture, $"{second},{engine + (0.3 * HoldCampaign.Noise(random)):0.0},{heater:0.0},{hose:0.0},{(fan ? 1 : 0)}\n");
            }
        }

        return csv.ToString();
    }
}
