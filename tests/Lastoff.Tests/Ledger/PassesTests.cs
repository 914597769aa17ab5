using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Ledger;

/// <summary>A joint tightened in passes: what must be in before it is made, and who looked at it again.</summary>
public class PassesTests
{
    private const string Yaml = """
        format: 1
        name: bench
        title: Invented bench pump
        invented: true
        parts:
          - {id: lid, name: Lid}
          - {id: pump, name: Pump, reach: {off: [lid]}}
        joints:
          - id: lid-bolts
            name: Lid bolts
            kind: bolt
            count: 4
            holds: [lid]
            thread: M8x1.25
            torque: 20 N·m
            tighten: {holes: {circle: 4}, passes: [snug, 50 %, 100 %, round]}
          - id: pump-bolt
            name: Pump bolt
            kind: bolt
            holds: [pump]
            torque: 20 N·m
            tighten: {passes: [100 %, 90 deg]}
          - {id: hose, name: Hose, kind: hose, holds: [pump]}
        """;

    private static readonly OperationNet Net = OperationNet.From(MapReader.Read(Yaml, "bench").Map!);

    [Fact]
    public void A_joint_is_made_once_every_pass_is_in_bolt_by_bolt_or_at_once()
    {
        var bay = Undone();
        Assert.Equal("“Lid bolts” cannot be done up yet: first pass 1 (snug).", bay.Do(0, Made)!.Sentence);
        Assert.Null(bay.Do(0, At(bay).Whole()));
        foreach (var bolt in (string[])["1", "3", "2"])
        {
            Assert.Equal(bolt, At(bay).Left[0]);
            Assert.Null(bay.Do(0, At(bay).Next()));
        }

        Assert.Equal("“Lid bolts” cannot be done up yet: first pass 2 (50 %), in which 1 of 4 bolts is left.", bay.Do(0, Made)!.Sentence);
        Assert.Null(bay.Do(0, At(bay).Next()));
        Assert.Null(bay.Do(0, At(bay).Whole()));
        Assert.Contains("“Lid bolts” is not done up, 3 of 4 passes are in.", OpenItems.Of(bay.On(0).Standing).Select(item => item.Sentence));
        Assert.Null(bay.Do(0, At(bay).Whole()));
        Assert.Null(bay.Do(0, Made));
        Assert.Empty(PassesMade.Missing(bay.On(0).Standing, "lid-bolts"));
    }

    [Theory]
    [InlineData("lid-bolts", 2, null, RefusalKind.OutOfOrder, "“Lid bolts”: pass 2 (50 %) comes after pass 1 (snug), in which 3 of 4 bolts are left.")]
    [InlineData("lid-bolts", 1, "1", RefusalKind.Already, "“Lid bolts”: pass 1 (snug) is in already for this bolt.")]
    [InlineData("lid-bolts", 5, null, RefusalKind.Unknown, "“Lid bolts” has 4 passes on this map and no pass 5.")]
    [InlineData("lid-bolts", 1, "7", RefusalKind.Unknown, "“Lid bolts” has no bolt “7” on this map.")]
    [InlineData("hose", 1, null, RefusalKind.Unknown, "The map gives no passes for “Hose”: make it and say so.")]
    [InlineData("nothing", 1, null, RefusalKind.Unknown, "The map has no joint “nothing”; check the name, or the map this job was opened with.")]
    [InlineData("pump-bolt", 1, null, RefusalKind.OutOfOrder, "“Pump bolt” is done up: undo it before it is tightened anew.")]
    public void What_cannot_be_tightened_now_gets_one_sentence(string joint, int pass, string? bolt, RefusalKind kind, string sentence)
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, At(bay).Next()));
        Assert.Equal(new Refusal(kind, sentence), bay.Do(0, new JointTightened(joint, pass, bolt, null, null)));
    }

    [Theory]
    [InlineData(0.0, null, null)]
    [InlineData(-10.0, null, null)]
    [InlineData(1e9, null, null)]
    [InlineData(null, 400.0, null)]
    [InlineData(10.0, null, -3.0)]
    public void A_figure_that_cannot_be_is_refused(double? torque_Nm, double? angle_deg, double? setting_Nm)
    {
        var bay = Undone();
        var act = new JointTightened("lid-bolts", 1, null, torque_Nm, angle_deg, null, new WrenchUsed("W", null, setting_Nm));
        Assert.Equal(RefusalKind.Forbidden, bay.Do(0, act)!.Kind);
    }

    [Fact]
    public void Nothing_is_tightened_before_its_part_is_on()
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "lid")));
        Assert.Equal("“Lid bolts” cannot be done up yet: first fit “Lid”.", bay.Do(0, new JointTightened("lid-bolts", 1, null, null, null))!.Sentence);
    }

    [Fact]
    public void Made_without_its_passes_it_is_told_with_the_reason_and_the_missing_passes_stay_known()
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, At(bay).Whole()));
        Assert.Null(bay.Do(0, Made with { Despite = "only put on to move the machine" }));
        Assert.Equal(["Person 0 recorded “Lid bolts” (joint made) against the map: only put on to move the machine."], bay.On(0).Standing.AgainstTheMap);
        Assert.Equal([2, 3, 4], PassesMade.Missing(bay.On(0).Standing, "lid-bolts").Select(pass => pass.Number));
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    [Fact]
    public void A_reason_does_not_make_a_joint_over_a_part_that_is_off()
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "lid")));
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(0, Made with { Despite = "in a hurry" })!.Kind);
    }

    [Fact]
    public void Undone_again_it_has_no_pass_left_and_nobody_has_looked_at_it()
    {
        var bay = Tight();
        Assert.Null(bay.Do(0, new ReLookTaken("lid-bolts")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "lid-bolts")));
        Assert.Equal(1, At(bay).Number);
        Assert.Empty(bay.On(0).Standing.Tightened);
        Assert.Empty(bay.On(0).Standing.ReLooked);
        Assert.Empty(bay.On(0).Standing.TightenedBy("lid-bolts"));
    }

    [Fact]
    public void Slackened_before_it_is_made_it_begins_anew_and_was_not_opened_again()
    {
        var bay = Undone();
        Assert.Equal(RefusalKind.Already, bay.Do(0, new Moved(Move.JointUndone, "lid-bolts"))!.Kind);
        Assert.Null(bay.Do(0, new FaceCleaned("lid-bolts")));
        Assert.Null(bay.Do(0, At(bay).Whole()));
        Assert.Null(bay.Do(0, At(bay).Next()));
        Assert.Contains(new Moved(Move.JointUndone, "lid-bolts"), PossibleActs.Of(bay.On(0).Standing));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "lid-bolts")));
        Assert.Equal((1, 4), (At(bay).Number, At(bay).Left.Count));
        Assert.Contains("lid-bolts", bay.On(0).Standing.Cleaned);
        Assert.Single(OutAndHome.Of(bay.On(0)));
    }

    [Fact]
    public void The_last_bolt_is_taken_back_by_itself_and_an_earlier_pass_is_not()
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, At(bay).Whole()));
        var snug = bay.On(0).Entries[^1].Id;
        Assert.Null(bay.Do(0, At(bay).Next()));
        Assert.StartsWith("That cannot be taken back on its own, because later entries stand on it. “Lid bolts”: pass 2 (50 %) comes after pass 1 (snug).", bay.Do(0, new TakenBack(snug))!.Sentence);
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Equal(4, At(bay).Left.Count);
        // Nor is the undoing that the passes stand on.
        Assert.Contains("later entries stand on it", bay.Do(0, new TakenBack(bay.On(0).Entries.Single(e => e.Kind == "joint-undone").Id))!.Sentence);
    }

    [Fact]
    public void Ones_own_second_look_is_a_re_look_and_never_an_inspection_by_another()
    {
        var bay = Tight();
        Assert.Null(bay.Do(0, new ReLookTaken("lid-bolts")));
        var look = bay.On(0).Standing.ReLooked["lid-bolts"];
        Assert.True(look.IsBySamePerson);
        Assert.Equal("“Lid bolts” was looked at again by Person 0, who had a hand in tightening it: a re-look, not an independent inspection.", look.Sentence("Lid bolts"));
        Assert.True(new ReLook(" person 0", ["Person 0"]).IsBySamePerson);
    }

    [Fact]
    public void Anothers_second_look_says_who_tightened_and_who_looked()
    {
        var bay = Tight();
        bay.Pass(0, 1);
        Assert.Null(bay.Do(1, new ReLookTaken("lid-bolts")));
        var look = bay.On(1).Standing.ReLooked["lid-bolts"];
        Assert.False(look.IsBySamePerson);
        Assert.Equal("“Lid bolts” was tightened by Person 0 and looked at again by another person, Person 1.", look.Sentence("Lid bolts"));
    }

    [Fact]
    public void Two_people_who_each_did_some_bolts_are_both_on_record_and_neither_is_another_person()
    {
        var bay = Undone();
        Assert.Null(bay.Do(0, At(bay).Next()));
        bay.Pass(0, 1);
        Assert.Null(bay.Do(1, new JointTightened("lid-bolts", 1, null, null, null)));
        bay.Pass(1, 0);
        Assert.Equal(["Person 0", "Person 1"], bay.On(0).Standing.TightenedBy("lid-bolts"));
        Assert.Equal(2, At(bay).Number);
    }

    [Fact]
    public void A_joint_made_on_one_device_without_the_passes_of_another_is_asked_about()
    {
        var bay = Undone();
        bay.Pass(0, 1);
        // The other device knows an older map, without passes, and says only that the joint is made.
        var forged = EntryLine.Write(Made, EntryId.Next(DateTimeOffset.MaxValue.AddYears(-7900), null, new byte[10]), "another", DateTimeOffset.UnixEpoch, "Somebody", null);
        var standing = bay.On(0).With(forged).Standing;
        Assert.False(standing.IsDone(OperationKind.Undo, "lid-bolts"));
        Assert.Equal("“Lid bolts” cannot be done up yet: first pass 1 (snug). Somebody recorded it all the same: look, and say how it is.", Assert.Single(standing.Questions).Sentence);
    }

    [Fact]
    public void What_comes_next_asks_for_each_pass_then_for_the_joint_and_before_the_end_for_a_second_look()
    {
        var bay = new Bay(Net, ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "All of it")));
        var plan = Planner.Make(Net, Goal.Renewing("pump"), Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        var asked = new List<string>();
        while (NextStep.Of(bay.On(0).Standing, plan) is { } next)
        {
            Assert.True(NextStep.Fits(bay.On(0).Standing, plan));
            var act = next.ToAct(bay.On(0).Standing);
            asked.Add(act.Kind);
            Assert.Null(bay.Do(0, act));
        }

        Assert.Equal(6, asked.Count(kind => kind == "joint-tightened"));
        // The pump's bolt goes under the lid, so its second look is its last; the lid's comes at the end.
        Assert.Equal(["re-look", "re-look"], asked.Where(kind => kind is "re-look" or "last-look" && kind == "re-look"));
        Assert.Equal("re-look", asked[^1]);
        Assert.Empty(OpenItems.Of(bay.On(0).Standing));
    }

    [Fact]
    public void An_entry_reads_back_as_what_was_done()
    {
        JointTightened[] acts =
        [
            new("lid-bolts", 2, "3", 10, null, TorqueUnit.FootPound, new WrenchUsed("Bay wrench 2", new DateOnly(2027, 3, 31), 8.75)),
            new("lid-bolts", 1, null, null, null),
            new("pump-bolt", 2, null, null, 90, null, new WrenchUsed("Long bar", null, null)),
        ];
        foreach (var act in acts)
        {
            Assert.Equal(act, ActKinds.Read(EntryLine.Write(act, EntryId.Next(DateTimeOffset.UnixEpoch, null, new byte[10]), "d", DateTimeOffset.UnixEpoch, "P", null), out _));
        }
    }

    [Theory]
    [InlineData("""{"joint":"lid-bolts"}""", "its data has no pass")]
    [InlineData("""{"joint":"lid-bolts","pass":1.5}""", "its data has no pass")]
    [InlineData("""{"joint":"lid-bolts","pass":-1}""", "its data has no pass")]
    [InlineData("""{"pass":1}""", "its data has no text “joint”")]
    [InlineData("""{"joint":"lid-bolts","pass":1,"wrench":"W","calibration_due":"soon"}""", "its calibration date is not a day")]
    public void An_entry_that_does_not_fit_is_kept_and_not_counted(string data, string fault)
    {
        var line = $$"""{"id":"019ce0dc-e960-78bd-8000-000000000000","device":"d","seq":1,"at":"2026-03-12T08:05:00Z","by":"P","kind":"joint-tightened","data":{{data}},"prev":null}""";
        Assert.True(EntryLine.TryRead(line, out var entry, out _));
        Assert.Null(ActKinds.Read(entry!, out var said));
        Assert.Equal(fault, said);
    }

    private static Moved Made => new(Move.JointMade, "lid-bolts");

    private static PassAtHand At(Bay bay) => PassesMade.AtHand(bay.On(0).Standing, "lid-bolts")!;

    private static Bay Undone()
    {
        var bay = new Bay(Net, ["lid"], TimeSpan.Zero, TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "lid-bolts")));
        return bay;
    }

    private static Bay Tight()
    {
        var bay = Undone();
        while (PassesMade.AtHand(bay.On(0).Standing, "lid-bolts") is { } pass)
        {
            Assert.Null(bay.Do(0, pass.Whole()));
        }

        Assert.Null(bay.Do(0, Made));
        return bay;
    }
}
