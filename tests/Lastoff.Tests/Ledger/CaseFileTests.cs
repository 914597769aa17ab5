using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>What is on file about a job beside the work.</summary>
public class CaseFileTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    private static Bay Opened(int devices = 1) => new(Net, ["upper-diaphragm"], new TimeSpan[devices]);

    [Fact]
    public void Whoever_said_yes_is_known_after_more_work_came_in_and_until_the_yes_is_taken_back()
    {
        var bay = Opened();
        Assert.Null(bay.On(0).Standing.LastYes);
        Assert.Null(bay.Do(0, new Agreed("The owner", "by telephone", "All of it")));
        var yes = bay.On(0).Entries[^1].Id;
        Assert.Null(bay.Do(0, new GoalAdded(["regulator"], [])));
        Assert.Null(bay.On(0).Standing.Agreed);
        Assert.Equal(("The owner", "by telephone"), (bay.On(0).Standing.LastYes!.Who, bay.On(0).Standing.LastYes!.Way));
        Assert.Null(bay.Do(0, new TakenBack(yes)));
        Assert.Null(bay.On(0).Standing.LastYes);
    }

    [Fact]
    public void A_job_opens_before_anybody_knows_what_is_to_be_done()
    {
        var bay = new Bay(OperationNet.From(Demo.Map("orchard-sprayer-pump")), [], TimeSpan.Zero);
        Assert.True(bay.On(0).Standing.IsUndecided);
        Assert.Equal(WaitKind.Hand, Assert.Single(WaitsFor.Of(bay.On(0), DateTimeOffset.UnixEpoch)).Kind);
        Assert.NotNull(bay.Do(0, new GoalAdded([], [])));
        Assert.Null(bay.Do(0, new CauseNamed("The upper diaphragm is torn", "A new one")));
        Assert.Null(bay.Do(0, new GoalAdded(["upper-diaphragm"], [])));
        Assert.Equal(["upper-diaphragm"], bay.On(0).Standing.GoalParts);
        Assert.NotEmpty(Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!.Out);
    }

    [Fact]
    public void The_last_word_about_machine_cause_and_each_item_holds_and_all_evidence_stays()
    {
        var bay = Opened();
        Assert.Equal("A seal", bay.On(0).Standing.Cause);
        Act[] acts =
        [
            new MachineIdentified("", "INV 1", "", []),
            new MachineIdentified("11111111111111111", "INV 2", "a dent", ["oil", "charge"]) { Hours_h = 812.5, Odometer_km = 10 },
            new EvidenceFound("Torn diaphragm", EvidenceBy.FluidSample, "Milky", Speaks.For),
            new EvidenceFound("Cracked case", EvidenceBy.PressureHold, "Held", Speaks.Against),
            new CauseNamed("Torn diaphragm", "Renew it"),
            new ItemTold("Upper diaphragm", ItemState.Ordered, "at the counter") { Awaited = new DateOnly(2031, 5, 30) },
            new ItemTold("Upper diaphragm", ItemState.Here, ""),
        ];
        Assert.All(acts, act => Assert.Null(bay.Do(0, act)));
        var file = bay.On(0).Standing.File;
        Assert.Equal(("INV 2", 812.5, 10.0, "oil charge"), (file.Machine!.Plate, file.Machine.Hours_h!.Value, file.Machine.Odometer_km!.Value, string.Join(' ', file.Machine.Lamps)));
        // What a later hand left empty stays as it was said before.
        Assert.Null(bay.Do(0, new MachineIdentified("", "INV 3", "", [])));
        var machine = bay.On(0).Standing.File.Machine!;
        Assert.Equal(("11111111111111111", "INV 3", "a dent", 812.5), (machine.Vin, machine.Plate, machine.Condition, machine.Hours_h!.Value));
        Assert.Equal([Speaks.For, Speaks.Against], file.Evidence.Select(evidence => evidence.Speaks));
        Assert.Equal(("Torn diaphragm", "Renew it"), (bay.On(0).Standing.Cause, file.Cause!.Correction));
        Assert.Equal(ItemState.Here, file.Items["Upper diaphragm"].State);
        Assert.Empty(bay.On(0).Standing.Unread);
        // Written and read back, every act says what it said.
        Assert.Equal(acts.Select(act => act.ToData().ToJsonString()), bay.On(0).Entries.Skip(1).Take(acts.Length).Select(entry => ActKinds.Read(entry, out _)!.ToData().ToJsonString()));
    }

    [Fact]
    public void What_holds_up_the_start_holds_up_the_first_move_until_it_is_here_or_somebody_says_why_not()
    {
        var bay = Opened();
        var first = new Moved(Move.SupplySafe, "line-pressure");
        Assert.Null(bay.Do(0, new ItemTold("Upper diaphragm", ItemState.Ordered, "") { HoldsUpTheStart = true }));
        Assert.Equal("Nothing may come off before “Upper diaphragm” is here: so it was marked. Say that it is here, or why the work begins without it.", bay.Do(0, first)!.Sentence);
        Assert.Null(bay.Do(0, first with { Despite = "the field cannot wait" }));
        Assert.Contains("the field cannot wait", Assert.Single(bay.On(0).Standing.AgainstTheMap));

        var other = Opened();
        Assert.Null(other.Do(0, new ItemTold("Upper diaphragm", ItemState.Wrong, "for the other pump") { HoldsUpTheStart = true }));
        Assert.NotNull(other.Do(0, first));
        Assert.Null(other.Do(0, new ItemTold("Upper diaphragm", ItemState.Here, "") { HoldsUpTheStart = true }));
        Assert.Null(other.Do(0, first));
    }

    [Fact]
    public void Two_who_name_two_causes_without_knowing_of_each_other_are_asked()
    {
        var bay = Opened(devices: 2);
        Assert.Null(bay.Do(0, new CauseNamed("Torn diaphragm", "")));
        Assert.Null(bay.Do(1, new CauseNamed("Cracked case", "")));
        bay.Pass(0, 1);
        bay.Pass(1, 0);
        Assert.Equal(Describe.Everything(bay.On(0).Standing), Describe.Everything(bay.On(1).Standing));
        Assert.Contains(bay.On(0).Standing.Questions, question => question.Sentence.StartsWith("The cause", StringComparison.Ordinal));
    }

    [Fact]
    public void A_re_check_is_set_and_done_also_after_the_handover()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew it")));
        Assert.Null(bay.Do(0, new HandedOver("The owner", new Override("The foreman", "it is only a trial"))));
        Assert.NotNull(bay.Do(0, new CauseNamed("Another", "")));
        Assert.Null(bay.Do(0, new ReCheckSet("Drips", new DateOnly(2031, 6, 14))));
        var set = bay.On(0).Standing.File.ReChecks.Single();
        Assert.Equal(("Drips", new DateOnly(2031, 6, 14), null), (set.What, set.On, set.Found));
        Assert.Equal(RefusalKind.Unknown, bay.Do(0, new ReCheckDone(Guid.Empty, "Dry"))!.Kind);
        Assert.Null(bay.Do(0, new ReCheckDone(set.Entry, "Dry")));
        Assert.Equal("Dry", bay.On(0).Standing.File.ReChecks.Single().Found);
    }

    [Fact]
    public void What_fell_in_is_open_and_first_until_it_is_found_by_whomever()
    {
        var bay = Opened(devices: 2);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew it")));
        Assert.Null(bay.Do(0, new ThingLost("M6 washer", "bell housing")));
        Assert.Equal(["“M6 washer” is not found; it fell here: “bell housing”."], OpenItems.Of(bay.On(0).Standing).Where(item => item.Kind == OpenKind.Lost).Select(item => item.Sentence));
        Assert.Equal(OpenKind.Lost, OpenItems.Of(bay.On(0).Standing)[0].Kind);
        Assert.Contains("M6 washer", bay.Do(0, new HandedOver("The owner", null))!.Sentence, StringComparison.Ordinal);
        bay.Pass(0, 1);
        var thing = bay.On(1).Standing.File.NotFound.Single();
        Assert.Equal(RefusalKind.Unknown, bay.Do(1, new ThingFound(Guid.Empty, "M6 washer", "By the drain"))!.Kind);
        Assert.Null(bay.Do(1, new ThingFound(thing.Entry, thing.What, "By the drain, whole")));
        // The other has found it too, as far as they know.
        Assert.Null(bay.Do(0, new ThingFound(thing.Entry, thing.What, "With the magnet")));
        bay.Pass(1, 0);
        bay.Pass(0, 1);
        Assert.Equal(Describe.Everything(bay.On(0).Standing), Describe.Everything(bay.On(1).Standing));
        Assert.DoesNotContain(OpenItems.Of(bay.On(0).Standing), item => item.Kind == OpenKind.Lost);
    }

    [Fact]
    public void Found_with_one_tap_it_is_told_afterwards_where_it_was_and_once()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new ThingLost("M6 washer", "bell housing")));
        var thing = bay.On(0).Standing.File.NotFound.Single().Entry;
        Assert.Null(bay.Do(0, new ThingFound(thing, "M6 washer", ThingFound.NotSaid)));
        Assert.Null(bay.Do(0, new ThingFound(thing, "M6 washer", "By the drain, whole")));
        Assert.Equal("By the drain, whole", bay.On(0).Standing.File.Lost.Single().Found);
        Assert.Equal(RefusalKind.Already, bay.Do(0, new ThingFound(thing, "M6 washer", "On the floor"))!.Kind);
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    [Fact]
    public void What_somebody_answered_for_at_the_handover_can_still_be_found()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew it")));
        Assert.Null(bay.Do(0, new ThingLost("M6 washer", "bell housing")));
        Assert.Null(bay.Do(0, new HandedOver("The owner", new Override("The foreman", "it lies where nothing turns"))));
        Assert.Null(bay.Do(0, new ThingFound(bay.On(0).Standing.File.NotFound.Single().Entry, "M6 washer", "On the floor")));
        Assert.Empty(bay.On(0).Standing.File.NotFound);
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    [Fact]
    public void While_something_is_in_there_every_gate_that_is_open_says_so()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew it")));
        var net = bay.On(0).Standing.Net;
        var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
        Assert.Null(bay.Do(0, new ThingLost("M6 washer", "bell housing")));
        Assert.Empty(ClosingGate.Of(bay.On(0).Standing, all));
        var first = net.Operations.First(operation => net.CanDo(bay.On(0).Standing.Done, operation.Index));
        Assert.Null(bay.Do(0, new Moved(first.Kind.Out(), first.Target)));
        Assert.Contains(new GateCondition("“M6 washer” is out of “bell housing”.", false), ClosingGate.Of(bay.On(0).Standing, all));
    }

    [Fact]
    public void What_was_learned_stands_for_the_next_job_until_it_is_taken_back()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew it")));
        Assert.Null(bay.Do(0, new HandedOver("The owner", new Override("The foreman", "it is only a trial"))));
        Assert.Equal("Write down what was learned.", bay.Do(0, new Learned(" "))!.Sentence);
        Assert.Null(bay.Do(0, new Learned("The long socket reaches the last bolt", "head-bolts")));
        Assert.Null(bay.Do(0, new Learned("Order the oil the day before")));
        Assert.Equal(["head-bolts", null], bay.On(0).Standing.File.Lessons.Select(lesson => lesson.Learned.About));
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Standing.File.Lessons[0].Entry)));
        var job = Guid.NewGuid();
        var lesson = Assert.Single(Lesson.In(job, bay.On(0).Entries));
        Assert.Equal((job, "Order the oil the day before"), (lesson.Job, lesson.Learned.Text));
    }

    [Fact]
    public void A_day_that_was_called_off_is_called_off_in_the_calendar_too()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new AppointmentSet("It comes in", new DateTimeOffset(2031, 5, 29, 8, 0, 0, TimeSpan.FromHours(2)))));
        var set = bay.On(0).Standing.File.Appointments.Single().Entry;
        Assert.Null(bay.Do(0, new AppointmentSet("It comes in", new DateTimeOffset(2031, 5, 30, 8, 0, 0, TimeSpan.FromHours(2)))));
        Assert.Null(bay.Do(0, new TakenBack(set)));
        var diary = Core.Papers.Diary.Of(Guid.Empty, bay.On(0).Standing);
        Assert.Equal([(30, false), (29, true)], diary.Select(day => (day.Day.Day, day.IsCalledOff)));
        Assert.Equal(set, diary[1].Set);
        var written = Core.Papers.Calendar.Write(diary, DateTimeOffset.UnixEpoch);
        Assert.Contains($"UID:{set}@lastoff", written, StringComparison.Ordinal);
        Assert.Equal(1, written.Split("STATUS:CANCELLED").Length - 1);
    }

    [Fact]
    public void What_is_in_is_awaited_no_more_whether_or_not_anybody_said_that_it_came()
    {
        var bay = Opened();
        var seal = bay.Net.Map.Renewals[0];
        Assert.Null(bay.Do(0, new ItemTold(bay.Net.NameToBuy(seal), ItemState.Ordered, "") { Awaited = new DateOnly(2031, 5, 30) }));
        Assert.Single(Core.Papers.Diary.Of(Guid.Empty, bay.On(0).Standing));
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "all of it")));
        while (!bay.On(0).Standing.Renewed.Contains(seal.Id))
        {
            Assert.Null(bay.Do(0, NextStep.Of(bay.On(0).Standing, plan)!));
        }

        Assert.Empty(Core.Papers.Diary.Of(Guid.Empty, bay.On(0).Standing));
    }

    [Fact]
    public void Another_new_part_for_one_that_came_off_once_more_is_awaited_until_it_is_in()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "all of it")));
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step && step is not { Kind: StepKind.Make, Target: "diaphragm-screw" })
        {
            Assert.Null(bay.Do(0, step));
        }

        var diaphragm = Net.NewPart("upper-diaphragm");
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "upper-diaphragm")));
        Assert.Null(bay.Do(0, new ItemTold(Net.NameToBuy(diaphragm), ItemState.Ordered, "") { Awaited = new DateOnly(2031, 6, 2) }));
        Assert.Single(Core.Papers.Diary.Of(Guid.Empty, bay.On(0).Standing));
        Assert.Null(bay.Do(0, new RenewalFitted(diaphragm.Id)));
        Assert.Empty(Core.Papers.Diary.Of(Guid.Empty, bay.On(0).Standing));
        Assert.Null(bay.Do(0, new Moved(Move.PartFitted, "upper-diaphragm")));
        Assert.Equal(RefusalKind.Already, bay.Do(0, new RenewalFitted(diaphragm.Id))!.Kind);
    }

    [Fact]
    public void What_says_nothing_or_cannot_be_is_refused()
    {
        var bay = Opened();
        Act[] acts =
        [
            new EvidenceFound(" ", EvidenceBy.Look, "x", Speaks.For), new EvidenceFound("x", EvidenceBy.Look, "", Speaks.For), new CauseNamed("", "x"),
            new ItemTold("", ItemState.Here, ""), new ReCheckSet("", new DateOnly(2031, 1, 1)), new ThingLost("", "sump"), new ThingLost("nut", " "), new MachineIdentified("", "", "", []) { Odometer_km = -1 },
            new MachineIdentified("", "", "", []) { Hours_h = -0.5 },
            .. bay.On(0).Standing.Net.Map.Joints.Take(1).SelectMany(joint => new[] { 0, -20, 1e9 }, (joint, torque) => new Moved(Move.JointMade, joint.Id) { Torque_Nm = torque }),
        ];
        Assert.All(acts, act => Assert.Equal(RefusalKind.Forbidden, bay.Do(0, act)?.Kind));
    }

    [Fact]
    public void A_job_says_which_job_it_comes_back_from()
    {
        var before = Guid.Parse("0195a1b2-0000-7000-8000-000000000001");
        var decision = Job.From(Net, []).Decide(
            new JobOpened("orchard-sprayer-pump", "An invented sprayer", "It leaks again", "A seal", ["upper-diaphragm"], []) { ComebackOf = before },
            new Pen("device-0", "Person 0", new DateTimeOffset(2031, 3, 2, 8, 0, 0, TimeSpan.Zero), new byte[10]));
        Assert.Equal(before, JobOpened.In([decision.Entry!])!.ComebackOf);
    }

    [Fact]
    public void What_a_job_needs_is_every_renewal_of_its_plan_its_covers_and_its_tools_and_what_was_added()
    {
        var bay = Opened();
        var plan = Planner.Make(Net, Goal.Renewing("upper-diaphragm"), Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        Assert.Null(bay.Do(0, new ItemTold("Rags", ItemState.Missing, "")));
        Assert.Null(bay.Do(0, new ItemTold("Upper diaphragm", ItemState.Here, "")));
        var needed = Needed.Of(bay.On(0).Standing, plan);
        Assert.Equal(plan.Renewals.Sum(renewal => renewal.Count), needed.Where(item => item.Kind == NeededKind.New).Sum(item => item.Count), 1e-9);
        Assert.Equal(plan.Out.Count(step => step.Kind == StepKind.Cover), needed.Where(item => item.Kind == NeededKind.Cover).Sum(item => item.Count));
        // The torque wrench follows from the joints and is no tool of an operation.
        Assert.Equal(plan.Tools.Count(tool => !tool.IsHand) + 1, needed.Count(item => item.Kind == NeededKind.Tool));
        double[] torques_Nm = [.. plan.Back.Where(step => step.Kind == StepKind.Make).Select(step => Net.Joints[step.Target].Torque?.NewtonMetres).OfType<double>()];
        Assert.Equal(new Interval(torques_Nm.Min(), torques_Nm.Max()), needed.Single(item => item.Name == Needed.TorqueWrenchName).Torque_Nm);
        Assert.Equal(ItemState.Here, needed.Single(item => item.Name == "Upper diaphragm").State);
        // What is in is here, whatever was said of it.
        Assert.Equal(ItemState.Missing, needed.First(item => item.Kind == NeededKind.Cover).State);
        foreach (var step in plan.Out.Concat(plan.Back))
        {
            Assert.Null(bay.Do(0, step));
        }

        Assert.All(Needed.Of(bay.On(0).Standing, plan).Where(item => item.Kind is NeededKind.New or NeededKind.Cover), item => Assert.Equal(ItemState.Here, item.State));
        Assert.Equal(NeededKind.Other, needed.Single(item => item.Name == "Rags").Kind);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_is_here_counts_the_same_before_the_job_and_after_it_whether_anybody_said_that_it_is_here_or_not(bool isTold)
    {
        var bay = Opened();
        var plan = Planner.Make(Net, Goal.Renewing("upper-diaphragm"), Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        var before = Counted(plan).Select(item => item.Name).ToHashSet();
        Assert.Contains(Needed.ThreadLockName, before);
        foreach (var item in isTold ? Counted(plan) : [])
        {
            Assert.Null(bay.Do(0, new ItemTold(item.Name, ItemState.Here, "")));
        }

        foreach (var step in plan.Out.Concat(plan.Back))
        {
            Assert.Null(bay.Do(0, step));
        }

        // A plan that is made when all is back has nothing in it, as no plan has.
        var after = Counted(null);
        Assert.Equal(before, after.Select(item => item.Name).ToHashSet());
        Assert.All(after, item => Assert.Equal(ItemState.Here, item.State));

        List<Needed> Counted(Plan? by) => [.. Needed.Of(bay.On(0).Standing, by).Where(item => item.IsCounted)];
    }
}
