using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Tests.Recording;

namespace Lastoff.Tests.Papers;

/// <summary>Every figure on a paper is the ledger's: what the paper says as data is compared with the entries and the standing, and the page with the data.</summary>
public class PaperFigureTests
{
    [Fact]
    public void What_was_stuck_and_broke_stands_once_on_the_handover_and_as_over()
    {
        var bench = Bench.Opened();
        bench.Do(new Agreed("The invented owner", "in person", "The upper diaphragm"));
        bench.Do(new JointStuck("diaphragm-screw", 20, false, "rusted"));
        Assert.Contains("“Diaphragm to its piston” is stuck, 20 min more (rusted)", Done());
        bench.Do(new JointStuck("diaphragm-screw", 50, false, "") { Broke = true });
        Assert.Contains("“Diaphragm to its piston” broke, 50 min more (rusted)", Done());
        bench.Do(new TakenBack(bench.Job.Entries[^1].Id));
        bench.Do(new Moved(Move.JointUndone, "diaphragm-screw", "it was so"));
        Assert.Contains("“Diaphragm to its piston” was stuck, 20 min more (rusted)", Done());
        Assert.Single(Done(), line => line.Contains("stuck", StringComparison.Ordinal));

        IReadOnlyList<string> Done() => [.. Read.List(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "What was done").Select(item => (string)item["text"]!)];
    }

    [Fact]
    public void The_record_has_every_entry_in_order_with_its_time_and_who_wrote_it()
    {
        var job = Bench.HandedOver().Job;
        var rows = Read.Rows(Record(job), "What was done, in order");
        Assert.Equal(job.Entries.Select(entry => entry.Id.ToString()), rows.Select(cells => (string)cells[1]!["entry"]!));
        Assert.Equal(job.Entries.Select(entry => entry.At), rows.Select(cells => DateTimeOffset.Parse((string)cells[0]!["at"]!, null)));
        Assert.Equal(job.Entries.Select(entry => entry.By), rows.Select(cells => (string)cells[2]!["text"]!));
        // Past midnight begins another day's table.
        Assert.Equal(["2 March 2026", "3 March 2026"], Read.Blocks(Record(job), "What was done, in order").Select(block => ((string)block["caption"]!).Replace('\u00A0', ' ')));
    }

    [Fact]
    public void What_was_taken_back_is_struck_and_nothing_else_is()
    {
        var job = Bench.HandedOver().Job;
        var gone = job.Entries.Where(entry => entry.Kind == ActKinds.TakenBack).Select(entry => (string)JsonNode.Parse(entry.Data.GetRawText())!["entry"]!).ToList();
        var struck = from block in Read.Blocks(Record(job), "What was done, in order")
                     from row in block["rows"]!.AsArray()
                     where (string)row!["kind"]! == "struck"
                     select (string)row["cells"]![1]!["entry"]!;
        Assert.Equal(gone, struck);
        Assert.Single(gone);
    }

    [Fact]
    public void Readings_say_verdict_figure_and_how_far_it_may_be_off()
    {
        var job = Bench.HandedOver().Job;
        var rows = Read.Rows(Record(job), "Readings");
        Assert.Equal(job.Standing.Readings.Keys.Order(StringComparer.Ordinal), rows.Select(cells => (string)cells[0]!["proof"]!));
        var reading = Assert.Single(rows, cells => (string)cells[0]!["proof"]! == "pressure-steps");
        Assert.Equal(("good", 1.25, 1.1, 1.4, "MPa"), ((string)reading[1]!["verdict"]!, (double)reading[2]!["figure"]!, (double)reading[2]!["low"]!, (double)reading[2]!["high"]!, (string)reading[2]!["unit"]!));
        Assert.Equal("As it should be\nBy pressure steps: 1.25 MPa, surely between 1.1 and 1.4 MPa.", (string)reading[2]!["text"]!);
    }

    [Fact]
    public void Another_label_than_the_map_asks_for_is_told_where_it_is_told_what_was_poured()
    {
        var job = Bench.HandedOver().Job;
        Assert.Contains(Read.Rows(Record(job), "What was done, in order"), cells => ((string)cells[1]!["text"]!).EndsWith("\nthe map asks for “pump oil SAE 30”", StringComparison.Ordinal));
        Assert.Contains(Read.List(Read.Json(new PaperSource(job).Make(PaperKind.Handover)), "New parts and fluids"), item => ((string)item["text"]!).EndsWith("\nthe map asks for “pump oil SAE 30”", StringComparison.Ordinal));
    }

    [Fact]
    public void Every_pass_is_there_with_its_torque_and_the_wrench()
    {
        var job = Bench.HandedOver().Job;
        var acts = job.Entries.Select(entry => ActKinds.Read(entry, out _)).OfType<JointTightened>().ToList();
        Assert.True(acts.Count >= 4);
        var rows = Read.Rows(Record(job), "Tightened").Where(cells => cells[1]!["pass"] is not null).ToList();
        Assert.Equal(acts.Select(act => (act.Joint, act.Pass, act.Torque_Nm, act.Angle_deg)), rows.Select(cells =>
            ((string)cells[0]!["joint"]!, (int)cells[1]!["pass"]!, (double?)cells[2]!["torque_Nm"], (double?)cells[2]!["angle_deg"])));
        var full = Assert.Single(rows, cells => (double?)cells[2]!["torque_Nm"] == 40 && ((string)cells[1]!["text"]!).StartsWith("Pass 3", StringComparison.Ordinal));
        // 40 N·m is 29.5 ft·lb (NIST SP 811, appendix B.8: 1 lbf·ft is 1.355 818 N·m).
        Assert.Equal("40 N·m (read as 29.5 ft·lb)", (string)full[2]!["text"]!);
        Assert.Equal((Bench.Wrench.Name, 38.5, "2026-09-30"), ((string)full[3]!["wrench"]!, (double)full[3]!["setting_Nm"]!, (string)full[3]!["calibration_due"]!));
        Assert.Contains(Read.List(Record(job), "Tightened"), item => ((string)item["text"]!).Contains("another person, Invented Colleague", StringComparison.Ordinal));
    }

    [Fact]
    public void What_was_done_up_in_one_go_is_there_with_the_maps_figure()
    {
        var job = Bench.HandedOver().Job;
        var made = job.Entries.Select(entry => ActKinds.Read(entry, out _)).OfType<Moved>().Where(moved => moved.Move == Move.JointMade).Select(moved => Bench.Net.Joints[moved.Target]);
        var rows = Read.Rows(Record(job), "Tightened").Where(cells => cells[1]!["pass"] is null).ToList();
        Assert.Equal(
            made.Where(joint => joint.Torque is not null && joint.Passes.Count == 0).Select(joint => (joint.Id, joint.Torque!.Value.NewtonMetres)),
            rows.Select(cells => ((string)cells[0]!["joint"]!, (double)cells[2]!["asked_torque_Nm"]!)));
        var diaphragm = Assert.Single(rows, cells => (string)cells[0]!["text"]! == "Diaphragm to its piston");
        Assert.Equal(("In one go", "10 N·m by the map", "no wrench named"), ((string)diaphragm[1]!["text"]!, (string)diaphragm[2]!["text"]!, (string)diaphragm[3]!["text"]!));
    }

    [Fact]
    public void What_was_done_up_in_one_go_with_a_wrench_is_there_with_what_was_said_of_it()
    {
        var bench = Bench.Stripped();
        bench.DoAllTheSame(new Moved(Move.JointMade, "diaphragm-screw") { Torque_Nm = 9.5, With = Bench.Wrench });
        var cells = Assert.Single(Read.Rows(Record(bench.Job), "Tightened"), cells => (string)cells[0]!["text"]! == "Diaphragm to its piston");
        Assert.Equal(("9.5 N·m", 9.5, Bench.Wrench.Name), ((string)cells[2]!["text"]!, (double)cells[2]!["torque_Nm"]!, (string)cells[3]!["wrench"]!));
    }

    [Fact]
    public void What_had_to_go_in_new_twice_is_counted_twice()
    {
        var bench = Bench.Proved();
        var renewal = bench.Job.Standing.Renewed.Select(id => Bench.Net.RenewalNamed(id)!).First(renewal => Bench.Net.Joints.ContainsKey(renewal.For));
        bench.DoAllTheSame(new Moved(Move.JointUndone, renewal.For));
        // Out again, it is used up, and nothing new is in.
        Assert.Equal((1, 0), Counts());
        bench.DoAllTheSame(new RenewalFitted(renewal.Id));
        Assert.Equal((2, 2), Counts());

        (double Used, double In) Counts() => (
            (double)Read.Rows(Record(bench.Job), "New parts and sundries").Single(cells => (string)cells[0]!["renewal"]! == renewal.Id)[1]!["count"]! / renewal.Count,
            Read.List(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "New parts and fluids").Where(item => (string?)item["renewal"] == renewal.Id).Sum(item => (double)item["count"]!) / renewal.Count);
    }

    [Fact]
    public void What_was_missing_is_on_the_papers_until_it_is_there()
    {
        var bench = Bench.Stripped();
        bench.Do(new ThingLost("one of its screws", "guard cone") { IsMissing = true });
        const string sentence = "“guard cone” lacks this: one of its screws.";
        Assert.Equal([sentence], NotFinished());
        Assert.Contains(Read.List(Record(bench.Job), "Still open"), item => (string)item["text"]! == sentence);
        bench.Do(new ThingFound(bench.Job.Entries[^1].Id, "one of its screws", "a new one"));
        Assert.Empty(NotFinished());

        IEnumerable<string> NotFinished() => Read.List(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "Not finished").Select(item => (string)item["text"]!);
    }

    [Fact]
    public void The_mains_of_a_machine_that_does_not_drive_are_no_vehicle_s_high_voltage()
    {
        var recorder = new Recorder().Say("mains off at the isolator").Say("cover off, two 13 bolts");
        Assert.True(recorder.GoesHome());
        Assert.Null(recorder.Do(new HandedOver("The invented owner", new Override("Invented Mechanic", "Nobody asked for proofs"))));
        var watch = string.Join('\n', Read.List(Read.Json(new PaperSource(recorder.Job).Make(PaperKind.Handover)), "What to watch").Select(item => (string)item["text"]!));
        Assert.Contains("If it trips, hums or smells of burning", watch, StringComparison.Ordinal);
        Assert.DoesNotContain("orange", watch, StringComparison.Ordinal);
    }

    [Fact]
    public void Drives_are_spoken_of_where_the_machine_came_in_with_a_distance_counter_or_a_vehicles_number()
    {
        Assert.Contains("after the first hours of work", Watch(new MachineIdentified("", "", "", []) { Hours_h = 812 }), StringComparison.Ordinal);
        Assert.Contains("after the first hours of work", Watch(new MachineIdentified("PUMP 17", "", "", [])), StringComparison.Ordinal);
        Assert.Contains("after the first drives", Watch(new MachineIdentified("", "", "", []) { Odometer_km = 120345 }), StringComparison.Ordinal);
        Assert.Contains("after the first drives", Watch(new MachineIdentified("1M8GDM9AXKP042788", "", "", [])), StringComparison.Ordinal);

        static string Watch(MachineIdentified machine)
        {
            var bench = Bench.Proved();
            bench.Do(machine);
            return string.Join('\n', Read.List(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "What to watch").Select(item => (string)item["text"]!));
        }
    }

    [Fact]
    public void The_customer_reads_the_count_of_the_record()
    {
        var job = Bench.HandedOver().Job;
        var done = Read.List(Read.Json(new PaperSource(job).Make(PaperKind.Handover)), "What was done").Single(item => item["out"] is not null);
        var balance = Read.Fact(Record(job), "Out and home");
        Assert.Equal(((int)balance["out"]!, (int)balance["home"]!), ((int)done["out"]!, (int)done["home"]!));
    }

    [Fact]
    public void Without_a_map_nothing_is_said_that_nobody_told()
    {
        var bay = new Recorder().Say("drained 1.2 litres of gear oil").Say("circlip off").Say("seal is shot").Say("valve cover off, eight 10 mil bolts").Say("gasket of the valve cover is shot", minutes: 30);
        foreach (var renewal in bay.Job.Net.Map.Renewals)
        {
            Assert.Null(bay.Do(new RenewalFitted(renewal.Id)));
        }

        Assert.True(bay.GoesHome());
        var fors = Read.Rows(Record(bay.Job), "New parts and sundries").ToDictionary(cells => (string)cells[0]!["text"]!, cells => (string)cells[2]!["text"]!);
        Assert.Equal("", fors["Seal"]);
        Assert.Equal("Valve cover", fors["Gasket"]);
        Assert.DoesNotContain("Took longer than the map says", PaperHtml.Write(new PaperSource(bay.Job).Make(PaperKind.Record)), StringComparison.Ordinal);
        Assert.Contains(Read.List(Read.Json(new PaperSource(bay.Job).Make(PaperKind.Handover)), "New parts and fluids"), item => ((string)item["text"]!).StartsWith("Gear oil: filled", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void What_is_new_what_was_filled_and_what_came_home_are_the_standings()
    {
        var job = Bench.HandedOver().Job;
        var (record, handover) = (Record(job), Read.Json(new PaperSource(job).Make(PaperKind.Handover)));
        var renewals = job.Standing.Renewed.Order(StringComparer.Ordinal).ToList();
        Assert.Equal(renewals, Read.Rows(record, "New parts and sundries").Select(cells => (string)cells[0]!["renewal"]!));
        // Of the oil what was measured.
        Assert.Equal(renewals.Select(id => id == "fresh-oil" ? 1.15 : Bench.Net.RenewalNamed(id)!.Count), Read.Rows(record, "New parts and sundries").Select(cells => (double)cells[1]!["count"]!));
        // The oil is on the customer's paper once, as it was poured.
        Assert.Equal(renewals.Where(id => id != "fresh-oil"), Read.List(handover, "New parts and fluids").Where(item => item["renewal"] is not null).Select(item => (string)item["renewal"]!));
        Assert.Equal(1.15, (double)Assert.Single(Read.Rows(record, "Filled"), cells => (string)cells[0]!["supply"]! == "pump-oil")[1]!["amount_L"]!);
        Assert.Equal(1.15, (double)Assert.Single(Read.List(handover, "New parts and fluids"), item => (string?)item["supply"] == "pump-oil")["amount_L"]!);
        var balance = Read.Fact(record, "Out and home");
        Assert.Equal(((int)balance["out"]!, (int)balance["covers_put_in"]!), ((int)balance["home"]!, (int)balance["covers_taken_out"]!));
        Assert.Equal((OutAndHome.Of(job).Count, job.Standing.CoversPutIn), ((int)balance["out"]!, (int)balance["covers_put_in"]!));
    }

    [Fact]
    public void The_seal_is_each_devices_last_line()
    {
        var job = Bench.HandedOver().Job;
        var ends = Read.Blocks(Record(job), "Seal").Single()["seal"]!.AsArray();
        Assert.Equal(2, ends.Count);
        foreach (var end in ends)
        {
            var last = job.LastOf((string)end!["device"]!)!;
            Assert.Equal((last.Seq, last.Id.ToString(), last.Hash), ((long)end["entries"]!, (string)end["last"]!, (string)end["sha256"]!));
        }
    }

    [Fact]
    public void The_standing_sheet_says_what_is_out_where_it_lies_and_every_open_item()
    {
        var job = Bench.Stripped().Job;
        var plan = Planner.Make(job.Standing, GoalLeft.Of(job.Standing), PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        var sheet = Read.Json(new PaperSource(job) { Plan = plan }.Make(PaperKind.Standing));
        Assert.Equal(OpenItems.Of(job.Standing).Select(item => item.Sentence), Read.List(sheet, "Between here and the handover").Select(item => (string)item["text"]!));
        Assert.Equal(
            OutAndHome.Of(job).Where(row => row.Home is null).Select(row => row.Act).OfType<Moved>().Select(moved => moved.Target),
            Read.Rows(sheet, "Out, and where it lies").Select(cells => (string)cells[0]!["target"]!));
        Assert.Equal(
            job.Standing.InTrays.Select(set => (set.Target, set.Tray, set.Count)).Order(),
            Read.Rows(sheet, "Out, and where it lies").Where(cells => cells[1]!["tray"] is not null).Select(cells => ((string)cells[0]!["target"]!, (string)cells[1]!["tray"]!, (int?)cells[1]!["count"])).Order());
        Assert.Equal(job.Standing.Covered.Order(), Read.List(sheet, "Covers in").Select(item => (string)item["opening"]!).Order());
        Assert.Equal(plan.LastLooks.Select(look => look.Joint), Read.List(sheet, "Look before it is hidden").Select(item => (string)item["joint"]!));
        var first = NextStep.Of(job.Standing, plan)!;
        Assert.Equal(first.Target, (string)Read.Rows(sheet, "What comes next")[0][0]!["target"]!);
    }

    [Fact]
    public void A_question_stands_before_everything_else_that_is_to_be_done()
    {
        var bench = Bench.Stripped();
        var joint = bench.Job.Standing.InTrays.First(set => set.Count > 1);
        bench.DoAllTheSame(new Moved(Move.JointMade, joint.Target) { Count = joint.Count - 1 });
        var job = bench.Job;
        Assert.NotEmpty(job.Standing.Questions);
        var sheet = Read.Json(new PaperSource(job).Make(PaperKind.Standing));
        Assert.Equal(job.Standing.Questions.Select(question => question.Sentence), Read.List(sheet, "To be answered first").Select(item => (string)item["text"]!));
        Assert.Contains(Read.Rows(sheet, "Out, and where it lies"), cells => ((string)cells[0]!["text"]!).EndsWith("left over", StringComparison.Ordinal));
    }

    [Fact]
    public void An_override_is_on_the_customers_paper_with_name_reason_and_what_is_open()
    {
        var bench = Bench.Stripped();
        bench.Do(new HandedOver("The invented owner", new Override("Invented Mechanic", "The owner fetches it on a trailer")));
        var paper = new PaperSource(bench.Job).Make(PaperKind.Handover);
        Assert.Contains("Invented Mechanic answers for it, because: The owner fetches it on a trailer", PaperHtml.Write(paper), StringComparison.Ordinal);
        Assert.Equal(OpenItems.Of(bench.Job.Standing).Select(item => item.Sentence), Read.List(Read.Json(paper), "Not finished").Select(item => (string)item["text"]!));
    }

    /// <summary>No map has a proof of it.</summary>
    [Fact]
    public void What_became_of_the_complaint_is_on_the_customers_paper_and_on_the_record()
    {
        var bench = Bench.Proved();
        bench.Do(new HandedOver("The invented owner", null) { ComplaintNow = "The oil stays clear" });
        // Written to a file and read again, as another device has it.
        var job = Job.From(Bench.Net, LedgerFile.Read(LedgerFile.Write(bench.Job.Entries), "ledger").Entries);
        Assert.Equal("The oil stays clear", (string)Read.Fact(Read.Json(new PaperSource(job).Make(PaperKind.Handover)), "The complaint now")["text"]!);
        Assert.Contains("the complaint: The oil stays clear", string.Join('\n', Read.Texts(Record(job))), StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_without_a_map_has_its_papers_too()
    {
        var text = File.ReadAllText(Path.Combine(Tests.Program.LastoffProgram.Repository, "demo", "spray-pump-1.recording.jsonl"));
        var job = Job.Recorded(LedgerFile.Read(text, "recording").Entries);
        foreach (var kind in Enum.GetValues<PaperKind>())
        {
            var paper = new PaperSource(job).Make(kind);
            Assert.NotEmpty(paper.Sections);
            Assert.NotNull(Read.Html(paper));
        }

        Assert.Equal(job.Entries.Count, Read.Rows(Record(job), "What was done, in order").Count);
    }

    [Theory]
    [InlineData(PaperKind.Labels)]
    [InlineData(PaperKind.Standing)]
    [InlineData(PaperKind.Record)]
    [InlineData(PaperKind.Handover)]
    [InlineData(PaperKind.Estimate)]
    [InlineData(PaperKind.Invoice)]
    public void The_page_says_every_text_that_the_data_says(PaperKind kind)
    {
        foreach (var job in new[] { Bench.Opened().Job, Bench.Stripped().Job, Bench.HandedOver().Job, PricePaperTests.Changed().Job })
        {
            var plan = Planner.Make(job.Standing, GoalLeft.Of(job.Standing), PlanLimits.Quick, TestContext.Current.CancellationToken).Plan;
            var paper = new PaperSource(job) { Plan = plan }.Make(kind);
            // The page keeps a figure and its unit on one line.
            var page = Read.Html(paper).Value.Replace('\u00A0', ' ');
            var texts = Read.Texts(Read.Json(paper)).ToList();
            Assert.True(texts.Count > 3);
            Assert.All(texts, text => Assert.Contains(text.Replace('\u00A0', ' '), page, StringComparison.Ordinal));
        }
    }

    private static JsonNode Record(Job job) => Read.Json(new PaperSource(job).Make(PaperKind.Record));
}
