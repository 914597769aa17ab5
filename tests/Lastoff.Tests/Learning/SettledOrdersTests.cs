using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;
using Lastoff.Tests.Recording;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>What is in doubt in a map made of one recording is asked or counted, and what is settled is in doubt no more. The machine is invented.</summary>
public class SettledOrdersTests
{
    private static readonly Recordings Told = new([RecordedStrip.Of("one", Said(
        "spark plug lead off", "hopper off, four 13 mil bolts, tray 1", "belt guard off, three 10 mm bolts", "belt off", "pulley bolt out, 19 mm", "pulley off with a puller", "key in tray 2",
        "gear oil drained, about 1.5 litres", "drain plug out, 17 mm, 40 Nm", "end cover off, six 10 mil bolts", "shaft seal out").Job.Entries)]);

    [Fact]
    public void Of_what_came_off_before_a_fluid_was_let_out_only_the_last_part_is_asked_about_and_then_none()
    {
        var learned = Learn([]);
        Assert.Equal(["Key"], learned.Waits.Where(wait => wait.Then is "Gear oil" or "Drain plug" && wait.First != "Spark plug lead").Select(wait => wait.First));
        Assert.Contains(learned.Asked, wait => wait is { First: "Key", Then: "Gear oil" });
        var settled = Learn([new Said("Key", "Gear oil", false)]);
        Assert.DoesNotContain(settled.Waits, wait => wait.Then is "Gear oil" && wait.First != "Spark plug lead");
        Assert.Equal(Reach.Free, Read(settled).Supplies.Single(supply => supply.Name == "Gear oil").Reach);
    }

    [Fact]
    public void Unless_somebody_says_so() => Assert.Contains(Learn([new Said("Key", "Gear oil", true)]).Waits, wait => wait is { First: "Key", Then: "Gear oil", Sure: 1 });

    [Theory]
    [InlineData("undertray off", "en", true)]
    [InlineData("lower guard off, two 10 bolts", "en", true)]
    [InlineData("Unterbodenschutz ab", "de", true)]
    [InlineData("Unterbodenverkleidung ab", "de", true)]
    [InlineData("belt off", "en", false)]
    public void Guards_that_came_off_right_before_may_have_hidden_the_plug_and_are_asked(string line, string language, bool isAsked)
    {
        var told = new Recordings([RecordedStrip.Of("one", new Recorder().Say(line, language: language).Say("side cover off").Say("oil drained").Say("pump off, two 13 bolts").Job.Entries)]);
        Assert.Equal("Side cover", told.Learn("m", "M", []).Value!.Asked.Single(wait => wait.Then == "Oil").First);
        // What stood before the cover is asked about once the cover was not it.
        var next = told.Learn("m", "M", [new Said("Side cover", "Oil", false)]).Value!;
        Assert.Equal(isAsked, next.Asked.Any(wait => wait.Then == "Oil"));
        Assert.Equal(isAsked, next.Waits.Any(wait => wait.Then == "Oil"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void When_all_that_is_asked_is_settled_no_part_is_in_doubt_in_the_text(bool inTheWay)
    {
        List<Said> said = [];
        var learned = Learn(said);
        while (learned.Asked.Count > 0)
        {
            said.Add(new Said(learned.Asked[0].First, learned.Asked[0].Then, inTheWay));
            Assert.True(said.Count < 40);
            learned = Learn(said);
        }

        // What is made safe first is never in question, and is counted.
        Assert.All(learned.InDoubt, wait => Assert.Contains(wait.First, new[] { "Spark plug lead", "Gear oil" }));
        Assert.Equal(learned.InDoubt.Select(wait => (wait.First, wait.Then)).Distinct().Count(), learned.KeptInDoubt);
        Assert.All(said, word => Assert.DoesNotContain($"{word.First} then {word.Then},", learned.Yaml, StringComparison.Ordinal));
    }

    [Fact]
    public void What_stood_behind_what_need_not_come_first_is_asked_next()
    {
        var learned = Learn([new Said("Belt", "Pulley bolt", false)]);
        Assert.Contains(learned.Asked, wait => wait is { First: "Belt guard", Then: "Pulley bolt" });
    }

    [Fact]
    public void A_puller_is_the_tool_of_what_came_off_with_it() => Assert.Equal(new Tool("puller", null), Read(Learn([])).Parts.Single(part => part.Name == "Pulley").Tool);

    [Fact]
    public void It_is_not_said_to_go_on_with_it()
    {
        var net = OperationNet.From(Read(Learn([])));
        var plan = Planner.Make(net, Goal.Renewing("shaft-seal"), net.Nothing, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.True(RecordedMap.IsToolKnown(net.Map, plan.Out.Single(step => step is { Kind: StepKind.TakeOff, Target: "pulley" })));
        Assert.False(RecordedMap.IsToolKnown(net.Map, plan.Back.Single(step => step is { Kind: StepKind.Fit, Target: "pulley" })));
        Assert.Contains(plan.Tools, tool => tool.Name == "puller");
    }

    [Fact]
    public void Where_a_part_lay_is_told_again() => Assert.Equal(["It lay in tray 2 the last time."], Read(Learn([])).Parts.Single(part => part.Name == "Key").Notes);

    private static LearnedMap Learn(IReadOnlyList<Said> said) => Told.Learn("m", "M", said).Or(sentence => throw new InvalidOperationException(sentence));
}
