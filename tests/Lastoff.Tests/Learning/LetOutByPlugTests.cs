using Lastoff.Core.Learning;
using Lastoff.Core.Planning;
using Lastoff.Tests.Papers;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>In a map made of recordings a drain plug is the way its fluid is let out, and no step behind it. All machines are invented.</summary>
public class LetOutByPlugTests
{
    [Theory]
    [InlineData("drain plug out, 17 mm", "oil drained")]
    [InlineData("oil drained", "17 mm drain plug out")]
    public void A_drain_plug_is_how_the_fluid_is_let_out_and_no_step_of_its_own(string one, string other)
    {
        var map = Read(Said(one, other, "cover off, two 13 bolts"));
        Assert.Equal(["Cover bolts"], map.Joints.Select(joint => joint.Name));
        var oil = Assert.Single(map.Supplies);
        Assert.Equal("hex 17 mm", oil.Tool.Drive);
        Assert.Contains("Let it out by “Drain plug”", oil.MakeSafe, StringComparison.Ordinal);
        Assert.Contains("Close first what holds it in: “Drain plug”, as tight as the maker says.", oil.Restore, StringComparison.Ordinal);
        var plan = Plan(map, "cover");
        Assert.Equal([StepKind.MakeSafe, StepKind.Undo, StepKind.TakeOff], plan.Out.Select(step => step.Kind));
        Assert.Contains(plan.Tools, tool => tool.Drive == "hex 17 mm");
    }

    [Fact]
    public void Its_torque_and_its_washer_are_there_on_the_way_home()
    {
        var map = Read(Said("lower guard off, two 10 bolts", "drain plug out, 17 mm, 40 Nm, tray 4", "renew copper washer", "oil drained, 4 litres", "cover off, two 13 bolts"));
        var oil = Assert.Single(map.Supplies);
        Assert.Equal("Close first what holds it in: “Drain plug”, to 40 N·m.", oil.Restore);
        Assert.Contains("It lay in tray 4 the last time.", oil.Notes);
        List<string> back = [.. Plan(map, "cover").Back.Select(step => step.Name)];
        Assert.InRange(back.IndexOf("Copper washer"), 0, back.LastIndexOf("Oil") - 1);
        // It has no last look of its own: it is looked at for leaks once the oil is in.
        Assert.True(Plan(map, "cover").Back.Index().Single(step => step.Item.Kind == StepKind.Prove).Index > back.LastIndexOf("Oil"));
        // What hid the way to the plug waits until it is in and the oil as well.
        Assert.True(back.LastIndexOf("Oil") < back.IndexOf("Lower guard"));
    }

    [Fact]
    public void A_plug_told_in_one_recording_let_the_fluid_out_in_all()
    {
        var map = Read(Learned(Said("drain plug out, 17 mm, 40 Nm", "oil drained", "cover off, two 13 bolts"), Said("oil drained", "cover off, two 13 bolts")));
        Assert.Equal(("oil", "hex 17 mm"), (Assert.Single(map.Supplies).Id, map.Supplies[0].Tool.Drive));
        Assert.Equal(Core.Maps.Reach.Free, map.Supplies[0].Reach);
        Assert.DoesNotContain(map.Parts, part => part.Name.Contains("not recorded", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_one_recording_has_the_plug_alone_its_fluid_ran_there_too()
    {
        var map = Read(Learned(Said("drain plug out, 17 mm", "oil drained", "cover off, two 13 bolts"), Said("cover off, two 13 bolts", "drain plug out, 17 mm")));
        Assert.Equal(["Cover bolts"], map.Joints.Select(joint => joint.Name));
        Assert.Empty(map.Joints[0].Needs);
    }

    [Fact]
    public void Of_one_name_each_lets_out_what_its_own_recording_says()
    {
        var map = Read(Learned(Said("drain plug out, 17 mm, 40 Nm", "oil drained", "cover off, two 13 bolts"), Said("drain plug out, 19 mm, 25 Nm", "coolant drained", "cover off, two 13 bolts")));
        Assert.Equal(["Close first what holds it in: “Drain plug”, to 40 N·m.", "Close first what holds it in: “Drain plug”, to 25 N·m."], map.Supplies.Select(supply => supply.Restore));
        Assert.Equal(["hex 17 mm", "hex 19 mm"], map.Supplies.Select(supply => supply.Tool.Drive));
    }

    [Fact]
    public void A_plug_of_no_more_name_far_from_the_draining_is_another_and_stays_a_joint()
    {
        var map = Read(Learned(Said("14 mm plug out", "oil drained", "cover off, two 13 bolts"), Said("oil drained", "cover off, two 13 bolts", "housing off, three 10 bolts", "14 mm plug out")));
        Assert.Contains(map.Joints, joint => joint.Name == "Plug");
    }

    [Fact]
    public void Where_two_recordings_differ_on_how_tight_the_maker_is_asked()
    {
        var map = Read(Learned(Said("drain plug out, 40 Nm", "oil drained", "cover off, two 13 bolts"), Said("drain plug out, 17 mm, 45 Nm", "oil drained", "cover off, two 13 bolts")));
        Assert.Equal(("Close first what holds it in: “Drain plug”, as tight as the maker says.", "hex 17 mm"), (Assert.Single(map.Supplies).Restore, map.Supplies[0].Tool.Drive));
    }

    [Fact]
    public void A_cover_in_the_hole_of_the_plug_is_not_lost()
    {
        var map = Read(Said("drain plug out, 17 mm", "rag stuffed in the drain port", "oil drained", "cover off, two 13 bolts"));
        Assert.Contains(map.Joints, joint => map.Openings.Any(opening => opening.On == joint.Id));
    }

    [Fact]
    public void What_was_and_was_not_in_its_way_is_asked()
    {
        string[] lines = ["bracket off", "belt off", "drain plug out, 17 mm", "oil drained", "cover off, two 13 bolts"];
        var learned = Learned(Said([.. lines, "bracket was in the way of the drain plug"]), Said([.. lines, "bracket was not in the way of the drain plug"]));
        Assert.Contains(learned.Asked, wait => wait is { First: "Bracket", Then: "Oil" });
    }

    [Fact]
    public void How_much_it_was_may_be_told_later()
    {
        var map = Read(Said("oil drained", "cover off, two 13 bolts", "measured it, 4.2 l of oil"));
        Assert.Equal(4.2, Assert.Single(map.Supplies).Amount_L);
    }

    [Fact]
    public void A_filler_plug_lets_nothing_out_and_stays_a_joint()
    {
        var map = Read(Said("filler plug out, 24 mm", "drain plug out, 19 mm, seized", "oil drained", "cover off, two 13 bolts"));
        Assert.Equal(["Filler plug", "Cover bolts"], map.Joints.Select(joint => joint.Name));
        Assert.StartsWith("Seized in 1 of 1", Assert.Single(map.Supplies).Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_said_of_the_plug_is_said_of_the_draining()
    {
        string[] lines = ["bracket off", "drain plug out, 17 mm", "oil drained", "cover off, two 13 bolts"];
        Assert.Contains(Learned(Said([.. lines, "bracket was in the way of the drain plug"])).Waits, wait => wait is { First: "Bracket", Then: "Oil", Sure: 1 });
        var learned = Recordings(Said(lines)).Learn("m", "M", [new Said("Bracket", "Drain plug", true)]).Or(sentence => throw new InvalidOperationException(sentence));
        Assert.Contains(learned.Waits, wait => wait is { First: "Bracket", Then: "Oil", Sure: 1 });
    }

    [Fact]
    public void It_is_said_in_the_language_of_who_learns()
    {
        var yaml = Recordings(Said("drain plug out, 17 mm, 40 Nm, tray 4", "oil drained", "cover off, two 13 bolts")).Learn("m", "M", [], PaperWordsTests.TongueOf("de")).Or(sentence => throw new InvalidOperationException(sentence)).Yaml;
        Assert.Contains("Erst schließen, was es hält: „Drain plug“, mit 40 N·m.", yaml, StringComparison.Ordinal);
        Assert.Contains("Das letzte Mal lag es in Schale 4.", yaml, StringComparison.Ordinal);
    }
}
