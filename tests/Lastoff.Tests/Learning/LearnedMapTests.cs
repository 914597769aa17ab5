using CsCheck;
using Lastoff.Bench;
using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>Small invented strips, and random ones of random maps.</summary>
public class LearnedMapTests
{
    [Fact]
    public void What_was_seen_both_ways_round_is_free_and_what_always_came_first_is_kept()
    {
        var map = Learn([Job("cover screws", "cover", "pump bolts", "pump"), Job("pump bolts", "cover screws", "cover", "pump")]);
        var read = Read(map);
        Assert.Equal(["cover"], read.Parts.Single(part => part.Id == "pump").Reach.Clear);
        Assert.Empty(read.Joints.Single(joint => joint.Id == "pump-bolts").Reach.Clear);
        Assert.Equal(["pump"], read.Joints.Single(joint => joint.Id == "pump-bolts").Holds);
    }

    // A second recording of the same order leaves less to ask, and never more.
    [Fact]
    public void Asked_is_only_what_one_strip_alone_shows_and_costs_work()
    {
        var strip = Job("cover screws", "cover", "pump bolts", "pump");
        var asked = Assert.Single(Learn([strip]).Asked);
        Assert.Equal(("cover", "pump bolts", 1, 1), (asked.First, asked.Then, asked.Times, asked.Of));
        Assert.Empty(Learn([strip, strip]).Asked);
        Assert.Empty(Learn([strip, Job("pump bolts", "pump", "cover screws", "cover")]).Asked);
        Assert.NotEmpty(Learn([strip, strip]).InDoubt);
        // Said, it is settled.
        Assert.Empty(LearnedMap.From("m", "M", [strip], [new Said("cover", "pump bolts", true)]).Value!.Asked);
    }

    [Fact]
    public void What_two_things_wait_for_is_not_asked_about() =>
        Assert.DoesNotContain(Learn([Job("cover", "pump bolts", "stay bolts", "pump", "stay")]).Asked, wait => wait.First == "cover");

    [Fact]
    public void A_strip_without_the_part_speaks_against_it()
    {
        var map = Learn([Job("cover screws", "cover", "pump bolts", "pump"), Job("pump bolts", "pump")]);
        Assert.DoesNotContain(map.Waits, wait => wait is { First: "cover", Then: "pump" });
    }

    [Fact]
    public void One_recording_is_its_own_way_back()
    {
        var strip = Job("cover screws", "cover", "pump bolts", "pump");
        var net = OperationNet.From(Read(Learn([strip])));
        var done = strip.Removals.Aggregate(net.Nothing, (so, removal) => so.With(Operation(net, removal)));
        foreach (var removal in strip.Back)
        {
            Assert.True(net.CanReverse(done, Operation(net, removal)), removal.Name);
            done = done.Without(Operation(net, removal));
        }

        // And what it did not show is not done: nobody ever got at the bolts before the cover was off.
        Assert.False(net.CanDo(net.Nothing, net.Find(OperationKind.Undo, "pump-bolts")));
    }

    [Fact]
    public void What_a_person_says_outranks_the_strips()
    {
        var strips = new[] { Job("cover screws", "cover", "pump bolts", "pump") };
        var free = LearnedMap.From("m", "M", strips, [new Said("cover", "pump", false)]).Value!;
        Assert.DoesNotContain(free.Waits, wait => wait is { First: "cover", Then: "pump" });
        var kept = LearnedMap.From("m", "M", [.. strips, Job("pump bolts", "pump", "cover screws", "cover")], [new Said("cover", "pump bolts", true)]).Value!;
        var said = Assert.Single(kept.Waits, wait => wait is { First: "cover", Then: "pump bolts" });
        Assert.Equal(1, said.Sure);
        Assert.Equal(1, said.Times);
    }

    [Theory]
    [InlineData("cover", "lid", "Nothing called “lid”")]
    [InlineData("pump bolts", "cover screws", "cannot hold up")]
    public void What_cannot_be_is_refused_in_a_sentence(string first, string then, string sentence) =>
        Assert.Contains(sentence, LearnedMap.From("m", "M", [Job("cover screws", "cover", "pump bolts", "pump")], [new Said(first, then, true)]).Sentence, StringComparison.Ordinal);

    [Fact]
    public void Two_words_that_make_a_circle_are_refused() =>
        Assert.Contains("each wait for the other", LearnedMap.From("m", "M", [Job("cover", "pump")], [new Said("cover", "pump", true), new Said("pump", "cover", true)]).Sentence, StringComparison.Ordinal);

    [Theory]
    [InlineData(" ", "has no name")]
    public void A_removal_without_a_name_is_refused(string name, string sentence) =>
        Assert.Contains(sentence, LearnedMap.From("m", "M", [Job("cover", name)], []).Sentence, StringComparison.Ordinal);

    [Fact]
    public void A_way_by_another_tool_is_an_alternative()
    {
        var swivel = new Removal(OperationKind.Undo, "pump bolts") { Tool = new Tool("swivel", null) };
        var map = Read(Learn([Job("cover", "pump bolts", "pump"), new Strip("2", [swivel, new Removal(OperationKind.Off, "pump")])]));
        var ways = map.Joints.Single().Reach.Either;
        Assert.Equal(2, ways.Count);
        Assert.Contains(ways, way => way.Clear.SequenceEqual(["cover"]) && way.With!.IsHand);
        Assert.Contains(ways, way => way.Clear.Count == 0 && way.With!.Name == "swivel");
    }

    // The lid went with the tray, and the tray with the frame; once the tray had been laid aside before.
    [Fact]
    public void What_rides_on_a_part_that_rides_is_gone_with_the_first_of_them()
    {
        Removal frame = new(OperationKind.Off, "frame") { TookAlong = ["tray", "lid"] };
        Removal bolts = new(OperationKind.Undo, "lid bolts"), lid = new(OperationKind.Off, "lid"), tray = new(OperationKind.Off, "tray");
        var map = Read(Learn(
        [
            new Strip("lid first", [frame, bolts, lid, tray]),
            new Strip("tray first", [frame, bolts, tray with { TookAlong = ["lid"] }, lid]),
            new Strip("aside", [tray with { Kind = OperationKind.Aside }, frame, bolts, lid]),
        ]));
        Assert.Equal(("tray", "frame"), (map.Parts.Single(part => part.Id == "lid").RidesOn, map.Parts.Single(part => part.Id == "tray").RidesOn));
        Assert.Contains("frame", map.Joints.Single(joint => joint.Id == "lid-bolts").Reach.Clear);
    }

    // Beta(0.5, 9.5) after one broken of four: 1.5 / 14, by hand.
    [Fact]
    public void Trouble_is_counted()
    {
        var broken = new Strip("broken", [new Removal(OperationKind.Undo, "clip") { Trouble = new Trouble(TroubleKind.Broke, 6) }, new Removal(OperationKind.Off, "cover")]);
        var map = Learn([broken, .. Enumerable.Repeat(new Strip("whole", [new Removal(OperationKind.Undo, "clip"), new Removal(OperationKind.Off, "cover")]), 3)]);
        var rate = Assert.Single(map.Rates);
        Assert.Equal((1, 4, 1.5 / 14), (rate.Seen, rate.Times, rate.Chance));
        Assert.Equal((0.1, 6), (Read(map).Joints.Single().Risk!.Chance, Read(map).Joints.Single().Risk!.Minutes));
    }

    [Theory]
    [InlineData("Pump bolts", "pump-bolts", true)]
    [InlineData("bolts of pump", "pump bolts", true)]
    [InlineData("manifold nuts", "manifold nutz", true)]
    [InlineData("left hose", "right hose", false)]
    [InlineData("bolt 1", "bolt 2", false)]
    [InlineData("pump bolts", "cover screws", false)]
    public void Names_for_one_thing_are_suggested(string one, string other, bool alike) =>
        Assert.Equal(alike, SameName.Suggest([Job(one), Job(other)]).Count == 1);

    [Fact]
    public void Names_that_stand_in_one_strip_are_two_things() => Assert.Empty(SameName.Suggest([Job("pump bolts", "pump-bolts")]));

    // Whatever is recorded, the file reads without a fault and allows every strip it was learned from. Where nothing can be got at in two ways, it keeps every
    // order that is necessary as well.
    [Fact]
    public void A_learned_map_forbids_nothing_seen_and_misses_nothing_necessary() =>
        Gen.Select(RandomMaps.UpTo(30), Gen.Int[1, 6], Gen.Int[0, 1_000_000]).Sample((map, strips, seed) =>
        {
            var net = OperationNet.From(map);
            var result = LearnCampaign.Once(net, map.Parts[^1].Id, strips, seed);
            Assert.Equal(0, result.Forbidden);
            Assert.True(HasAlternatives(map) || result.True == result.Both, $"{result.Both} of {result.True}");
        }, iter: 100);

    [Fact]
    public void Any_name_can_be_written() =>
        Gen.String[1, 12].Array[1, 5].Sample(names =>
        {
            Strip strip = new("any", [.. names.Select(name => new Removal(OperationKind.Undo, name) { Tool = new Tool(name, null) }), .. names.Select(name => new Removal(OperationKind.Off, name))]);
            var learned = LearnedMap.From("learned", "Learned", [strip], []);
            Assert.True(learned.Found ? Read(learned.Value) is not null : learned.Sentence.Contains("has no name", StringComparison.Ordinal));
        }, iter: 300);

    private static bool HasAlternatives(Map map) =>
        map.Parts.Any(part => part.RidesOn is not null) || map.Parts.Select(p => p.Reach).Concat(map.Joints.Select(j => j.Reach)).Concat(map.Supplies.Select(s => s.Reach)).Any(reach => reach.Either.Count > 0);

    private static LearnedMap Learn(IReadOnlyList<Strip> strips) => LearnedMap.From("learned", "Learned", strips, []).Value!;

    /// <summary>Screws, bolts and nuts are joints, everything else a part.</summary>
    private static Strip Job(params string[] names) =>
        new("job", [.. names.Select(name => new Removal(name.Contains("screw", StringComparison.Ordinal) || name.Contains("bolt", StringComparison.Ordinal) ? OperationKind.Undo : OperationKind.Off, name))]);

    private static int Operation(OperationNet net, Removal removal) => net.Find(removal.Kind, removal.Name.Replace(' ', '-'));
}
