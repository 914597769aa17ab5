using System.Text.Json;
using CsCheck;
using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>A recorded line that is put right. What it is checked against is the same recording with the line said right at first.</summary>
public class CorrectedLineTests
{
    [Fact]
    public void A_line_put_right_counts_where_it_stood()
    {
        var bay = new Recorder().Say("four 10 mil bolts off the guard, tray 1").Say("gard off").Say("belt off");
        Assert.Null(bay.Do(Correction(bay, "gard off", "guard off")));
        Assert.Equal(["Guard", "Belt"], bay.Job.Net.Map.Parts.Select(part => part.Name));
        Assert.Equal(["belt", "guard"], WayBack(bay).Where(step => step.StartsWith("Fit", StringComparison.Ordinal)).Select(step => step.Split(':')[1]));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void A_count_put_right_is_what_comes_out_of_the_tray()
    {
        var bay = new Recorder().Say("four 10 mil bolts off the guard, tray 1").Say("guard off");
        Assert.Null(bay.Do(Correction(bay, "four", "six 10 mil bolts off the guard, tray 2")));
        Assert.Equal([("2", 6)], bay.Job.Standing.InTrays.Select(set => (set.Tray, set.Count)));
    }

    [Fact]
    public void The_colleague_who_takes_over_reads_the_line_as_it_is_right()
    {
        var bay = new Recorder().Say("gard off");
        Assert.Null(bay.Do(Correction(bay, "gard off", "guard off")));
        var sheet = PaperHtml.Write(new PaperSource(bay.Job).Make(PaperKind.Standing));
        Assert.Contains("guard off", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("gard off", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public void What_stands_on_a_line_keeps_it_from_saying_something_else()
    {
        var bay = new Recorder().Say("four 10 mil bolts off the guard, tray 1").Say("guard off");
        bay.GoHomeOneStep();
        bay.GoHomeOneStep();
        var refusal = bay.Do(Correction(bay, "four", "fuel cap off"));
        Assert.Equal(RefusalKind.OutOfOrder, refusal!.Kind);
        Assert.StartsWith("That line cannot say this, because later entries stand on what it said.", refusal.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Taken_back_the_correction_leaves_the_line_as_it_was()
    {
        var bay = new Recorder().Say("guard off");
        Assert.Null(bay.Do(Correction(bay, "guard off", "seat off")));
        Assert.Null(bay.Do(new TakenBack(bay.Job.LastToTakeBack("device-0")!.Id)));
        Assert.Equal("Guard", Assert.Single(bay.Job.Net.Map.Parts).Name);
    }

    [Fact]
    public void Only_a_line_that_counts_can_be_put_right_and_only_by_words()
    {
        var bay = new Recorder().Say("guard off");
        var right = Correction(bay, "guard off", "seat off");
        Assert.Equal(RefusalKind.Forbidden, bay.Do(right with { Text = " " })!.Kind);
        Assert.Equal(RefusalKind.Unknown, bay.Do(right with { Line = bay.Job.Entries[0].Id })!.Kind);
        Assert.Null(bay.Do(new TakenBack(right.Line)));
        Assert.Equal("That line is taken back already; record it anew.", bay.Do(right)!.Sentence);
    }

    [Fact]
    public void Of_two_corrections_on_two_devices_the_later_counts_on_both()
    {
        var bay = new Recorder(2).Say("guard off");
        bay.Pass(0, 1);
        Assert.Null(bay.Do(Correction(bay, "guard off", "seat off")));
        Assert.Null(bay.Do(Correction(bay, "guard off", "tank off"), device: 1));
        bay.Pass(0, 1);
        bay.Pass(1, 0);
        Assert.All([bay.On(0), bay.On(1)], job => Assert.Equal("Tank", Assert.Single(job.Net.Map.Parts).Name));
    }

    [Fact]
    public void A_line_put_right_is_as_good_as_one_said_right_at_first() =>
        Gen.Select(RecordedJobProperties.Lines.Array[1, 15], RecordedJobProperties.Lines, Gen.Int[0, 14]).Sample((lines, wrong, at) =>
        {
            at %= lines.Length;
            var (mended, right) = (new Recorder(), new Recorder());
            foreach (var (line, i) in lines.Select((line, i) => (line, i)))
            {
                mended.Say(i == at ? wrong : line);
                right.Say(line);
            }

            var asked = mended.Job.Standing.Questions.ToHashSet();
            var refusal = mended.Do(Correction(mended, mended.Job.Entries[at + 1].Id, lines[at]));
            if (refusal is not null)
            {
                Assert.Contains(right.Job.Standing.Questions, question => !asked.Contains(question));
                return;
            }

            Assert.Equal(right.Job.Standing.Questions, mended.Job.Standing.Questions);
            Assert.Equal(right.Job.Net.Operations.Select(o => $"{o.Kind} {o.Target} {o.Name}"), mended.Job.Net.Operations.Select(o => $"{o.Kind} {o.Target} {o.Name}"));
            Assert.Equal(right.Job.Standing.Done, mended.Job.Standing.Done);
            Assert.Equal(right.Job.Standing.InTrays, mended.Job.Standing.InTrays);
            Assert.Equal(OutAndHome.Of(right.Job).Select(row => row.Act), OutAndHome.Of(mended.Job).Select(row => row.Act));
            Assert.Equal(Strip(right), Strip(mended));
            Assert.Equal(WayBack(right), WayBack(mended));
        }, iter: 120);

    private static LineCorrected Correction(Recorder bay, string said, string right) =>
        Correction(bay, bay.Job.Entries.Last(entry => ActKinds.Read(entry, out _) is LineRecorded line && line.Text.StartsWith(said, StringComparison.Ordinal)).Id, right);

    private static LineCorrected Correction(Recorder bay, Guid line, string right) => new(line, right, LineReader.English.Read(right).Readings);

    /// <summary>With the lists in it told apart by what is in them.</summary>
    private static string Strip(Recorder bay) => JsonSerializer.Serialize(RecordedStrip.Of("it", bay.Job.Entries).Strip.Removals);

    private static List<string> WayBack(Recorder bay) =>
        [.. Planner.Make(bay.Job.Standing, GoalLeft.Of(bay.Job.Standing), PlanLimits.AtOnce).Plan!.Back.Select(step => $"{step.Kind}:{step.Target.Replace("part:", "", StringComparison.Ordinal)}")];
}
