using Lastoff.Core;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class HoldReadingsTests
{
    [Theory]
    [InlineData("", "the log is empty")]
    [InlineData("t_s,p_kPa_abs", "no readings")]
    [InlineData("0,17\n60,17", "line 1: the first line has figures")]
    [InlineData("t_s,p_kPa_abs\n0,17", "one reading")]
    [InlineData("t_s,p_kPa_abs\n0,17\n60,17\n30,18", "line 4: time runs backwards")]
    [InlineData("t_s,p_kPa_abs\n0,17\n0,17", "line 3: time stands still")]
    [InlineData("t_clock,p_kPa_abs\n23:59:30,17\n00:00:30,17", "midnight")]
    [InlineData("t_s,p_kPa_abs,T_C\n0,17,20\n60,17,", "line 3: the temperature is missing")]
    [InlineData("t_s,p_kPa_abs,T_C\n0,17,68\n60,17,68", "line 2: 68 in column T_C reads like Fahrenheit")]
    [InlineData("t_s,p_kPa_abs,T_F\n0,17,190\n60,17,190", "hot system")]
    [InlineData("t_s,p_inHg_vacuum\n0,31\n60,25", "line 2: 31 inHg of vacuum is more than the weather allows")]
    [InlineData("t_s,p_kPa_gauge\n0,-120\n60,-120", "below a perfect vacuum")]
    [InlineData("t_s,p_kPa_abs\n0,-17\n60,-17", "p_kPa_gauge")]
    [InlineData("t_s,p_kPa\n0,17\n60,17", "does not say which pressure")]
    [InlineData("t_s,p_furlong_abs\n0,17\n60,17", "does not say which pressure")]
    [InlineData("t_s,T_C\n0,17\n60,17", "no column of gauge readings")]
    [InlineData("p_kPa_abs\n17\n18", "no column of times")]
    [InlineData("t_s,p_kPa_abs\n0,17\n,17", "line 3: the time is missing")]
    [InlineData("t_s,p_kPa_abs\n0,17\n60,", "line 3: the gauge reading is missing")]
    [InlineData("t_s,p_kPa_abs\n0,17\n60,about 17", "line 3: “about 17” in column p_kPa_abs is not a number")]
    [InlineData("t_s,p_kPa_abs\n0,17,5\n60,17", "line 2: there are 3 figures")]
    [InlineData("t_s,t_s,p_kPa_abs\n0,0,17", "there twice")]
    public void Bad_readings_get_one_sentence_that_names_file_and_line(string text, string says)
    {
        var refusal = Read(text, null).Sentence;
        Assert.NotNull(refusal);
        Assert.Contains("hold.csv", refusal);
        Assert.Contains(says, refusal);
        Assert.EndsWith(".", refusal);
        Assert.DoesNotContain("\n", refusal);
    }

    // A vacuum gauge's figures in a column of absolute or gauge pressure, and a pressure gauge's in one of absolute pressure.
    [Theory]
    [InlineData("t_s,p_kPa_gauge\n0,84\n60,84", HoldKind.Vacuum, "p_kPa_vacuum")]
    [InlineData("t_s,p_kPa_abs\n0,185\n60,185", HoldKind.Vacuum, "p_kPa_vacuum")]
    [InlineData("t_s,p_psi_abs\n0,14\n60,14", HoldKind.Pressure, "p_psi_gauge")]
    public void Gauge_mixed_up_with_absolute_is_noticed(string text, HoldKind kind, string column) => Assert.Contains(column, Read(text, kind).Sentence);

    [Fact]
    public void A_shallow_absolute_pressure_is_noted() =>
        Assert.Contains(Read("t_s,p_kPa_abs\n0,84\n60,83", HoldKind.Vacuum).Value!.Notes, note => note.Contains("p_kPa_vacuum"));

    [Fact]
    public void A_missing_temperature_is_noted_and_taken_into_the_uncertainty()
    {
        var hold = Read("t_s,p_kPa_abs\n0,17\n60,17", null).Value!;
        Assert.Contains(hold.Notes, note => note.Contains("No temperature"));
        Assert.Equal(1, hold.TemperatureUncertain);
    }

    [Theory]
    [InlineData("t_s,p_kPa_abs,T_C\n0,16.67,20.0\n60,16.67,20.0", 10)]
    [InlineData("t_s,p_kPa_gauge,T_F\n0,-84.655,68.0\n60,-84.655,68.0", 1)]
    [InlineData("t_min;p_inHg_vacuum;T_K\n0;25.00;293.15\n1;25.00;293.15\n", 33.8638864034)]
    [InlineData("# typed in the bay\nt_clock\tp_hPa_abs\tT_C\n10:56:25\t166.7\t20\n\n10:57:25\t166.7\t20", 10)]
    public void Units_separators_and_clocks_lead_to_the_same_readings(string text, double step)
    {
        var hold = Read(text, null).Value!;
        Assert.Equal(HoldKind.Vacuum, hold.Kind);
        Assert.Equal(60, hold.Readings[1].Seconds - hold.Readings[0].Seconds, 1e-9);
        Assert.All(hold.Readings, reading => Assert.Equal(16_668, reading.Absolute.Pascals, 4.0));
        Assert.All(hold.Readings, reading => Assert.Equal(293.15, reading.Temperature!.Value.Kelvins, 1e-9));
        Assert.Equal(step, hold.WrittenStep, 1e-6);
    }

    private static Answer<HoldReadings> Read(string text, HoldKind? kind)
    {
        var table = ReadingTable.Read(text, "hold.csv");
        return table.Found ? HoldReadings.From(table.Value, Atmosphere.SeaLevel, kind) : Answer.None<HoldReadings>(table.Sentence);
    }
}
