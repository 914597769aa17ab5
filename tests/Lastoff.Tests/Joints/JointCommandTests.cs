using System.Text.Json.Nodes;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Joints;

/// <summary>The commands as a script uses them.</summary>
public class JointCommandTests
{
    [Fact]
    public async Task Tension_gives_the_limits_and_the_preload()
    {
        var answer = await Json("joint", "tension", "--thread", "M8x1.25", "--class", "8.8", "--mu", "0.12", "--bearing-outer", "11.6mm", "--hole", "9mm", "--torque", "20 N·m");
        Assert.Equal(36.6, (double)answer["stress_area_mm2"]!, 0.04);
        Assert.Equal(21_200, (double)answer["proof_load_N"]!, 212.0);
        Assert.Equal(29_200, (double)answer["tensile_load_N"]!, 292.0);
        Assert.Equal((double)answer["torque_max_Nm"]!, 20 / (double)answer["utilisation"]!, 1e-9);
        Assert.Equal((double)answer["preload_max_N"]! * (double)answer["utilisation"]!, (double)answer["preload_N"]!, 1e-6);
        Assert.Contains("maker", (string)answer["guidance"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Past_yield_there_is_a_sentence_and_no_number()
    {
        var answer = await Json("joint", "tension", "--thread", "M8", "--class", "8.8", "--mu", "0.10..0.14", "--torque", "90 N·m");
        Assert.Null(answer["preload_N"]);
        Assert.Null(answer["preload_low_N"]);
        Assert.Null(answer["utilisation"]);
        Assert.Contains("past its yield", (string)answer["sentences"]![0]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Strip_names_what_fails_first()
    {
        var answer = await Json("joint", "strip", "--thread", "M8x1.25", "--engaged", "16mm", "--bolt-strength", "800MPa", "--boss-strength", "240MPa");
        Assert.Equal("shank of the bolt", (string)answer["fails_first"]!);
        Assert.Equal(16 * 16.829, (double)answer["boss_area_mm2"]!, 0.003 * 16 * 16.829);
        Assert.True((double)answer["safety_factor"]! > 1);
        Assert.Equal("thread in the boss", (string)(await Json("joint", "strip", "--thread", "M8", "--engaged", "8mm", "--class", "8.8", "--into", "magnesium"))["fails_first"]!);
    }

    [Fact]
    public async Task Wrench_gives_the_setting() => Assert.Equal(71.11,
        (double)(await Json("joint", "wrench", "--torque", "80 N·m", "--length", "400mm", "--extension", "50mm", "--angle", "0deg"))["setting_Nm"]!, 0.01);

    [Fact]
    public async Task Judge_keeps_the_makers_figure()
    {
        var answer = await Json("joint", "judge", "--thread", "M8", "--class", "8.8", "--mu", "0.10..0.14", "--torque", "40Nm", "--engaged", "12mm", "--into", "aluminium", "--hold", "8kN");
        Assert.Equal(40, (double)answer["use_Nm"]!);
        Assert.False((bool)answer["agrees"]!);
        Assert.Equal(["would_yield", "would_strip"], answer["findings"]!.AsArray().Select(finding => (string)finding!["kind"]!));
    }

    [Fact]
    public async Task Screening_says_that_it_is_only_that()
    {
        var answer = await Json("joint", "screen", "--thread", "3/8-16", "--condition", "dry", "--preload", "4940lbf");
        Assert.True((bool)answer["screening_only"]!);
        Assert.True((double)answer["preload_high_N"]! > 1.8 * (double)answer["preload_low_N"]!);
    }

    [Fact]
    public async Task Order_gives_order_passes_and_loosening()
    {
        var answer = await Json("order", "--circle", "8", "--torque", "40Nm");
        Assert.Equal([1, 5, 3, 7, 2, 6, 4, 8], answer["order"]!.AsArray().Select(bolt => (int)bolt!));
        Assert.Equal([8, 4, 6, 2, 7, 3, 5, 1], answer["loosening"]!.AsArray().Select(bolt => (int)bolt!));
        Assert.Equal(["snug", "share", "share", "share", "once_round"], answer["passes"]!.AsArray().Select(pass => (string)pass!["kind"]!));
        Assert.Equal([12, 24, 40], answer["passes"]!.AsArray().Skip(1).Take(3).Select(pass => Math.Round((double)pass!["torque_Nm"]!, 9)));
    }

    [Fact]
    public async Task Simulate_reads_points_and_shows_every_pass()
    {
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, "bolt,x_mm,y_mm\na,0,0\nb,30,0\nc,60,0\nd,90,0\n", TestContext.Current.CancellationToken);
        var answer = await Json("order", "simulate", "--points", file, "--interaction", "0.2,0.05");
        Assert.Equal(["a", "b", "c", "d"], answer["order"]!.AsArray().Select(bolt => (string)bolt!));
        Assert.Equal(3, (int)answer["full_passes_to_band"]!);
        Assert.Equal(0.926375, (double)answer["passes"]![1]!["preload_share"]![0]!, 1e-6);
        File.Delete(file);
    }

    [Theory]
    [InlineData("--mu", "joint tension --thread M8 --class 8.8 --mu 0")]
    [InlineData("--mu", "joint tension --thread M8 --class 8.8 --mu NaN")]
    [InlineData("--class", "joint tension --thread M8 --class 7.7 --mu 0.12")]
    [InlineData("--torque", "joint tension --thread M8 --class 8.8 --mu 0.12 --torque 80")]
    [InlineData("--torque", "joint tension --thread M8 --class 8.8 --mu 0.12 --torque -3Nm")]
    [InlineData("prevailing", "joint tension --thread M8 --class 8.8 --mu 0.12 --fastener prevailing_torque")]
    [InlineData("plastic", "joint strip --thread M8 --engaged 12mm --class 8.8 --into plastic")]
    [InlineData("less than one turn", "joint strip --thread M8 --engaged 1mm --class 8.8 --into aluminium")]
    [InlineData("--torque", "joint screen --thread M8 --nut-factor 0.2 --torque 99999999999999999999Nm")]
    [InlineData("steps", "joint wrench --torque 80Nm --length 400mm --max 100Nm --step 0.0000000001Nm")]
    [InlineData("--band", "order simulate --circle 8 --interaction 0.2 --passes 50,100 --band NaN")]
    [InlineData("--circle", "order --circle 0")]
    [InlineData("no such file", "order --points nowhere.csv")]
    [InlineData("never settle", "order simulate --circle 8 --interaction 0.9,0.9")]
    public async Task What_cannot_be_computed_gets_one_sentence_and_exit_code_2(string says, string command)
    {
        var ran = await LastoffProgram.Run(command.Split(' '));
        Assert.Equal(2, ran.ExitCode);
        Assert.Empty(ran.Output);
        Assert.Contains(says, ran.Error, StringComparison.Ordinal);
        Assert.Single(ran.Error.Trim().Split('\n'));
    }

    private static async Task<JsonNode> Json(params string[] arguments)
    {
        var ran = await LastoffProgram.Run([.. arguments, "--json"]);
        Assert.True(ran.ExitCode == 0, ran.Error);
        return JsonNode.Parse(ran.Output)!;
    }
}
