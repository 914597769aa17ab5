using System.Text.Json;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Fluids;

/// <summary>The commands as a user or a script runs them.</summary>
public sealed class FluidCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("lastoff-fluids").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Mix_gives_the_promised_keys()
    {
        var mix = await Json("coolant", "mix", "--glycol", "EG", "--volume-percent", "50", "--cap", "103kPa", "--altitude", "1500m");
        Assert.Equal(52.4, mix.GetProperty("mass_percent").GetDouble(), 0.05);
        Assert.Equal(-37.0, mix.GetProperty("freezing_C").GetDouble(), 0.15);
        Assert.Equal(1073.35, mix.GetProperty("density_20C_kg_m3").GetDouble(), 0.1);

        // 84.56 kPa of air and 103 kPa of cap; water alone boils at 118.2 °C there (IAPWS-IF97), the mixture about 9 K higher.
        Assert.Equal(127.1, mix.GetProperty("boiling_C").GetDouble(), 0.1);
    }

    [Fact]
    public async Task Refill_gives_the_promised_keys()
    {
        var refill = await Json("coolant", "refill", "--glycol", "EG", "--capacity", "10L", "--drained", "6 L", "--now", "30", "--target", "50%", "--bottle", "1L", "--bottle", "5L");
        Assert.Equal(3.8, refill.GetProperty("pour_concentrate_L").GetDouble(), 1e-6);
        Assert.Equal(2.2, refill.GetProperty("pour_water_L").GetDouble(), 1e-6);
        Assert.Equal(50, refill.GetProperty("resulting_volume_percent").GetDouble(), 1e-6);
        Assert.True(refill.GetProperty("reachable").GetBoolean());
        Assert.Equal(4, refill.GetProperty("buy")[0].GetProperty("count").GetInt32());

        var poor = await Json("coolant", "refill", "--glycol", "EG", "--capacity", "10L", "--drained", "2L", "--now", "30", "--target", "50");
        Assert.False(poor.GetProperty("reachable").GetBoolean());
        Assert.Equal(2, poor.GetProperty("drains_needed").GetInt32());
        Assert.Equal(50, poor.GetProperty("steps")[1].GetProperty("volume_percent").GetDouble(), 1e-6);
    }

    [Fact]
    public async Task Flush_lists_its_steps()
    {
        var flush = await Json("coolant", "flush", "--capacity", "10L", "--drain", "6L", "--purity", "95", "--target", "50");
        Assert.Equal(4, flush.GetProperty("steps").GetArrayLength());
        Assert.Equal(5, flush.GetProperty("concentrate_L").GetDouble(), 1e-6);
    }

    [Fact]
    public async Task Vacuum_gives_the_promised_keys_and_judges_a_reading()
    {
        var plain = await Json("vacuum", "--altitude", "1500m", "--coolant", "20C");
        Assert.Equal(84.556, plain.GetProperty("ambient_kPa_abs").GetDouble(), 0.01);
        Assert.Equal(2.339, plain.GetProperty("deepest_useful_kPa_abs").GetDouble(), 0.001);
        Assert.Equal(24.28, plain.GetProperty("gauge_inHg").GetDouble(), 0.01);

        var judged = await Json("vacuum", "--altitude", "1500m", "--coolant", "20C", "--gauge", "22inHg", "--volume", "8L");
        Assert.Equal("deep enough", judged.GetProperty("verdict").GetString());
        Assert.Equal(100 * (84.556 - (22 * 3.386389)) / 84.556, judged.GetProperty("air_left_percent").GetDouble(), 0.01);
    }

    // 40 CFR 1065.644, the worked example, through the file.
    [Fact]
    public async Task Hold_works_the_regulations_example()
    {
        var hold = await Json("hold", "--volume", "2L", "--readings", Write("t_s,p_kPa_abs,T_C\n0,25.3,20\n70,50.6,20\n"), "--barometer", "1013.25hPa");
        Assert.Equal(2.9657e-4, hold.GetProperty("leak_mol_per_s").GetDouble(), 2.9657e-8);
        Assert.Equal(0.722857, hold.GetProperty("leak_Pa_m3_per_s").GetDouble(), 1e-6);
        Assert.InRange(hold.GetProperty("leak_Pa_m3_per_s").GetDouble(), hold.GetProperty("ci_low").GetDouble(), hold.GetProperty("ci_high").GetDouble());
        Assert.Equal("leaking", hold.GetProperty("verdict").GetString());
        Assert.Equal(0, hold.GetProperty("watch_longer_s").GetDouble());
    }

    [Fact]
    public async Task Hold_says_how_much_longer_to_watch()
    {
        var readings = Write("t_min,p_inHg_vacuum\n" + string.Join('\n', Enumerable.Range(0, 6).Select(i => $"{i},25")));
        var hold = await Json("hold", "--volume", "8L", "--readings", readings, "--kind", "vacuum", "--resolution", "1kPa", "--allow", "1e-4Pa·m3/s");
        Assert.Equal("cannot tell yet", hold.GetProperty("verdict").GetString());

        // Two divisions of 1 kPa at 1e-4 Pa·m3/s in 8 L take 160 000 s; never less than that.
        Assert.True(hold.GetProperty("watch_longer_s").GetDouble() > 159_000);
    }

    [Fact]
    public async Task Dilution_gives_the_promised_keys()
    {
        var dilution = await Json("dilution", "--sump", "5L", "--retained", "0.3L", "--retained", "0.1L", "--start", "2%", "--target", "500ppm", "--water", "800ppm");
        Assert.Equal(2, dilution.GetProperty("changes").GetInt32());
        Assert.Equal([1600.0, 128.0], dilution.GetProperty("remaining_ppm").EnumerateArray().Select(ppm => ppm.GetDouble()));
        Assert.Equal("between", dilution.GetProperty("water_band").GetProperty("name").GetString());
    }

    [Fact]
    public async Task Warmup_gives_its_verdict_with_the_picture()
    {
        var log = Write("t_s,engine_C,fan\n" + string.Join('\n', Enumerable.Range(0, 90).Select(i => $"{i * 10},{Math.Min(20 + (2 * i), 90 + (i % 3))},{(i > 60 ? 1 : 0)}")));
        var proof = await Json("warmup", "--log", log, "--code", "P0128");
        Assert.Equal("regulating", proof.GetProperty("verdict").GetString());
        Assert.Equal("engine and gearbox", proof.GetProperty("codes")[0].GetProperty("system").GetString());
        Assert.Equal(90.5, proof.GetProperty("opening_C").GetDouble(), 1.5);
        var ran = await LastoffProgram.Run("warmup", "--log", log);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("* engine", ran.Output);
        var refused = await LastoffProgram.Run("warmup", "--log", log, "--code", "P9");
        Assert.Equal((2, ""), (refused.ExitCode, refused.Output));
        Assert.Contains("--code “P9” is not a trouble code", refused.Error);
    }

    [Theory]
    [InlineData("coolant", "mix", "--glycol", "EG", "--volume-percent", "50")]
    [InlineData("vacuum", "--coolant", "20C")]
    [InlineData("dilution", "--sump", "5L", "--retained", "0.4L", "--start", "2%", "--target", "500ppm")]
    public async Task Cautions_stand_with_the_result(params string[] arguments)
    {
        var ran = await LastoffProgram.Run(arguments);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("poisonous", ran.Output);
        Assert.Contains("separate wastes", ran.Output);
        Assert.Contains("maker's specification", ran.Output);
    }

    [Theory]
    [InlineData("--glycol “XG” is not a glycol", "coolant", "mix", "--glycol", "XG", "--volume-percent", "50")]
    [InlineData("outside the table", "coolant", "mix", "--glycol", "EG", "--volume-percent", "70")]
    [InlineData("Say once how strong", "coolant", "mix", "--glycol", "EG")]
    [InlineData("give --at", "coolant", "mix", "--glycol", "EG", "--specific-gravity", "1.065")]
    [InlineData("--capacity “10” is not a volume", "coolant", "refill", "--glycol", "EG", "--capacity", "10", "--drained", "6L", "--now", "30", "--target", "50")]
    [InlineData("hot engine", "vacuum", "--coolant", "90degC")]
    [InlineData("more than the weather allows", "vacuum", "--altitude", "1500m", "--coolant", "20C", "--gauge", "26inHg")]
    [InlineData("check the number and its unit", "vacuum", "--altitude", "15000m", "--coolant", "20C")]
    [InlineData("needs no altitude", "vacuum", "--altitude", "1500m", "--barometer", "850hPa", "--coolant", "20C")]
    [InlineData("there is no such file", "hold", "--volume", "8L", "--readings", "nowhere.csv")]
    [InlineData("Option '--volume' is required", "hold", "--readings", "nowhere.csv")]
    [InlineData("less than what the circuit holds", "dilution", "--sump", "5L", "--retained", "6L", "--start", "2%", "--target", "500ppm")]
    public async Task Bad_input_gets_one_sentence_and_exit_code_2(string says, params string[] arguments)
    {
        var ran = await LastoffProgram.Run(arguments);
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains(says, ran.Error);
        Assert.Single(ran.Error.Trim().Split('\n'));
        Assert.Empty(ran.Output);
    }

    private string Write(string text)
    {
        var path = Path.Combine(folder, $"{Guid.NewGuid():N}.csv");
        File.WriteAllText(path, text);
        return path;
    }

    private static async Task<JsonElement> Json(params string[] arguments)
    {
        var ran = await LastoffProgram.Run([.. arguments, "--json"]);
        Assert.True(ran.ExitCode == 0, ran.Error);
        return JsonDocument.Parse(ran.Output).RootElement;
    }
}
