using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Program;

/// <summary><c>lastoff learn</c> on the invented recordings of the demo.</summary>
public class LearnCommandTests
{
    private static readonly string[] Recordings = [.. Enumerable.Range(1, 3).Select(number => LastoffProgram.Demo($"spray-pump-{number}.recording.jsonl"))];

    private static readonly string[] Same = ["--same", "Upper pump head=Upper head", "--same", "Upper pump head bolts=Upper head bolts", "--same", "Pressure=Line pressure"];

    [Fact]
    public async Task Three_recordings_of_one_job_give_a_map_that_reads_and_plans()
    {
        var ran = await LastoffProgram.Run(["learn", .. Recordings, .. Same, "--name", "spray-pump", "--title", "Invented spray pump", "--json"]);
        Assert.Equal(0, ran.ExitCode);
        var learned = JsonNode.Parse(ran.Output)!;
        Assert.Empty(learned["same_names"]!.AsArray());
        var net = OperationNet.From(MapReader.Read((string)learned["map"]!, "learned").Map!);
        var plan = Planner.Make(net, new Goal(["diaphragm"], []), net.Nothing, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
        // Always off before it, in all three: the head. Off in one only, and in nobody's way: the drive shaft and the guard.
        Assert.Contains(plan.Out, step => step is { Kind: StepKind.TakeOff, Target: "upper-head" });
        Assert.DoesNotContain(plan.Out, step => step.Target is "drive-shaft" or "guard-cone");
        Assert.All(net.Map.Joints.Where(joint => !joint.Name.Contains("not recorded", StringComparison.Ordinal)), joint => Assert.True(joint.UndoMinutes > 0 && joint.MakeMinutes > 0, joint.Name));
    }

    [Fact]
    public async Task Two_names_that_may_be_one_thing_are_named_and_nothing_is_merged_by_itself()
    {
        var ran = await LastoffProgram.Run(["learn", .. Recordings]);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("“Upper head” and “Upper pump head” may be one thing", ran.Error);
        Assert.Contains("name: \"Upper pump head\"", ran.Output);
    }

    [Theory]
    [InlineData("--same", "Lid=Cover", "nothing is called “Lid”")]
    [InlineData("--same", "Lid", "two names with = between")]
    [InlineData("--in-the-way", "Side shield", "two names with > between")]
    [InlineData("--in-the-way", "Lid>Side shield", "Nothing called “Lid”")]
    public async Task What_cannot_be_is_refused_in_a_sentence(string option, string value, string sentence)
    {
        var ran = await LastoffProgram.Run(["learn", .. Recordings, option, value]);
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains(sentence, ran.Error);
    }

    [Fact]
    public void A_recording_says_by_itself_that_all_came_home()
    {
        foreach (var path in Recordings)
        {
            var standing = Job.Recorded(LedgerFile.Read(File.ReadAllText(path), path).Entries).Standing;
            Assert.Empty(OpenItems.Of(standing));
            Assert.NotNull(standing.HandedOver);
        }
    }
}
