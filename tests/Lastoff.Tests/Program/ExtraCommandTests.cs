using System.Text.Json.Nodes;

namespace Lastoff.Tests.Program;

public class ExtraCommandTests
{
    [Fact]
    public async Task Every_other_part_of_a_demo_map_is_told_and_saves_what_it_does_not_add()
    {
        var ran = await LastoffProgram.Run("extra", LastoffProgram.Demo("light-van.map.yaml"), "--off", "transfer-pipe", "--json");
        Assert.Equal(("", 0), (ran.Error, ran.ExitCode));
        var extras = JsonNode.Parse(ran.Output)!["extras"]!.AsArray();
        Assert.True(extras.Count > 20);
        Assert.DoesNotContain(extras, extra => (string)extra!["part"]! == "transfer-pipe");
        // The inlet manifold has to come off to get at the pipe.
        Assert.Equal(0, (double)extras.Single(extra => (string)extra!["part"]! == "intake-manifold")!["minutes_in_strip"]!);
        Assert.All(extras, extra => Assert.Equal(
            (double)extra!["minutes_alone"]! - (double)extra["minutes_in_strip"]!, (double)extra["minutes_saved"]!, 1e-9));
    }

    [Fact]
    public async Task Without_a_goal_it_says_what_to_name()
    {
        var ran = await LastoffProgram.Run("extra", LastoffProgram.Demo("light-van.map.yaml"));
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains("Name a goal", ran.Error);
    }
}
