using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Papers;

/// <summary>For a colleague who takes over in the middle: what is open, what is out and where it lies, and what comes next.</summary>
public static class StandingSheet
{
    /// <summary>What comes next is for the next hours; the plan itself is always live.</summary>
    private const int StepsAhead = 12;
    private const int LastNotes = 8;

    public static Paper Of(PaperSource source)
    {
        var standing = source.Standing;
        var open = OpenItems.Of(standing);
        return JobHead.Paper(
            source, PaperKind.Standing, "Where the job stands", "For whoever takes over",
            new Section("", new Facts([.. CaseBlocks.Machine(standing), JobHead.WhatWasWrong(standing), JobHead.Cause(standing), JobHead.Agreed(standing), JobHead.Goal(standing), JobHead.WhereItStands(standing)]), Safe(standing)),
            new Section("To be answered first", new Bullets([.. standing.Questions.Select(question => (Said)question.Sentence)])),
            new Section("Out, and where it lies", [Out(source)]),
            new Section("Not here yet", new Bullets([.. NotHere(standing)])),
            new Section("Covers in", new Bullets([.. CoversIn(standing)])),
            new Section("Look before it is hidden", new Bullets([.. LooksDue(source)])),
            new Section("What comes next", [.. Next(source)]),
            new Section("Stuck, and against the map", new Bullets([.. standing.Stuck.Select(stuck => (Said)Stuck.Words(standing.Net, stuck)), .. standing.AgainstTheMap.Concat(standing.BeyondAgreed).Concat(standing.Unread).Select(sentence => (Said)sentence)])),
            new Section("Between here and the handover", open.Count == 0 ? new Paragraph("Nothing is open.") : new Bullets([.. open.Select(OpenWords)])),
            new Section("Last notes", new Table("", [new("When", 3.5), new("Note", 9), new("By", 3)], [.. Notes(source)])),
            new Section("", new Paragraph(JobHead.MakersFirst)));
    }

    private static Said OpenWords(OpenItem item) => new(item.Sentence, Datum.Of("kind", Words<OpenKind>.Of(item.Kind)), Datum.Of("target", item.Target));

    private static Block Safe(Standing standing)
    {
        var safe = standing.Net.Map.Supplies.Where(supply => standing.IsDone(OperationKind.MakeSafe, supply.Id)).ToList();
        return safe.Count == 0
            // Gone home, everything is meant to be on.
            ? standing.HandedOver is not null ? new Bullets([]) : new Caution(standing.Net.Map.Supplies.Count == 0 ? "No supply is on the map: find out what must be made safe." : $"No supply is safe. Before work on it: {string.Join(", ", standing.Net.Map.Supplies.Select(supply => supply.Name))}.")
            : new Caution(new Said($"Made safe on record, to be proved again by whoever takes over: {string.Join(", ", safe.Select(supply => supply.Name))}.", [.. safe.Select(supply => Datum.Of($"safe:{supply.Id}", true))]));
    }

    private static Table Out(PaperSource source)
    {
        var standing = source.Standing;
        var trays = standing.InTrays.ToDictionary(set => set.Target);
        return new Table("", [new("What", 6), new("Where it lies", 3.6), new("Since", 3.5), new("By", 3)],
        [
            .. from row in OutAndHome.Of(source.Job)
               where row.Home is null && row.Act is Moved
               let moved = (Moved)row.Act
               select new Row(
               [
                   new Said($"{NamesOf.Thing(standing.Net, moved.Target)}, {moved.Move.Done()}", Datum.Of("target", moved.Target), Datum.Of("is", moved.Move.Done())),
                   moved.Move is Move.JointUndone or Move.PartOff && trays.Remove(moved.Target, out var set) ? InTray(standing, set) : moved.Move == Move.PartAside ? "laid aside, still attached" : "",
                   new Said(PaperTime.Of(row.Out.At), Datum.Of("at", row.Out.At)),
                   Said.Own(row.Out.By),
               ]),
            .. trays.Values.Where(set => set.IsLeftOver).Select(set => new Row([new Said($"{NamesOf.Thing(standing.Net, set.Target)}, left over", Datum.Of("target", set.Target)), InTray(standing, set), Said.Nothing, Said.Nothing])),
        ]);
    }

    private static Said InTray(Standing standing, TraySet set) => set.Count is { } count
        ? new($"in {set.Where}, {count} of them", Datum.Of("tray", set.Tray), Datum.Of("count", (decimal)count))
        : new(standing.Net.Parts.ContainsKey(set.Target) ? $"in {set.Where}" : $"in {set.Where}, not counted", Datum.Of("tray", set.Tray));

    private static IEnumerable<Said> NotHere(Standing standing) =>
        from item in standing.File.Items.Values
        where item.State != ItemState.Here
        orderby item.Awaited ?? DateOnly.MaxValue, item.Item
        select new Said(
            $"{item.Item}: {(item.State == ItemState.Ordered ? item.Awaited is { } day ? $"ordered, awaited on {PaperTime.Of(day)}" : "ordered" : item.State == ItemState.Wrong ? "the wrong one came" : "not here")}{(item.Note.Length > 0 ? $"; {item.Note}" : "")}",
            Datum.Of("state", Words<ItemState>.Of(item.State)));

    private static IEnumerable<Said> CoversIn(Standing standing) =>
        from opening in standing.Net.Map.Openings
        where standing.Covered.Contains(opening.Id) || standing.IsBare(opening)
        select standing.Covered.Contains(opening.Id)
            ? new Said($"{NamesOf.Capital(standing.CoverIn(opening))} in “{opening.Name}”", Datum.Of("opening", opening.Id), Datum.Of("covered", true))
            : new Said($"“{opening.Name}” is open and not covered: cover it now", Datum.Of("opening", opening.Id), Datum.Of("covered", false));

    private static IEnumerable<Said> LooksDue(PaperSource source)
    {
        var standing = source.Standing;
        foreach (var look in source.Plan?.LastLooks ?? [])
        {
            yield return new Said($"{NamesOf.Thing(standing.Net, look.Joint)}, before “{NamesOf.Thing(standing.Net, look.HiddenBy)}” goes on", Datum.Of("joint", look.Joint));
        }

        foreach (var joint in ReLook.Owed(standing))
        {
            yield return new Said($"{NamesOf.Capital(joint.Name)}, tightened in passes: once more before the proofs", Datum.Of("joint", joint.Id));
        }
    }

    private static IEnumerable<Block> Next(PaperSource source)
    {
        if (source.Plan is not { } plan || NextStep.Of(source.Standing, plan) is not { } first)
        {
            yield break;
        }

        List<PlanStep> ahead = [first, .. plan.Out.Concat(plan.Back).Where(step => !Takeover.IsSame(step, first))];
        yield return new Table("", [new("Do", 7), new("With, from where", 5), new("Minutes", 2, IsFigure: true)], [.. ahead.Take(StepsAhead).Select(step => StepRow(source.Standing.Net, step))]);
        if (ahead.Count > StepsAhead)
        {
            yield return new Paragraph($"Then {ahead.Count - StepsAhead} more; the plan on the phone goes on from here and is always live. All of it takes {MinuteWords.Of(plan.MinutesP50)} as a rule, and nine times in ten not more than {MinuteWords.Of(plan.MinutesP90)}.");
        }
    }

    private static Row StepRow(OperationNet net, PlanStep step) => new(
        [
            new Said($"{StepVerbs.Of(net, step.Kind, step.Target)}: {StepName(net, step)}{(net.NotesOf(step.Target) is { Count: > 0 } notes ? $" ({string.Join(' ', notes)})" : "")}", Datum.Of("step", Words<StepKind>.Of(step.Kind)), Datum.Of("target", step.Target)),
            $"{NamesOf.Capital(step.Tool.ToString())}, {Place(step.At)}",
            step.AllMinutes > 0 ? new Said(step.AllMinutes.ToString("0.#", CultureInfo.InvariantCulture), Datum.Of("minutes", step.AllMinutes)) : Said.Nothing,
        ],
        Caution: step.Caution);

    private static string StepName(OperationNet net, PlanStep step) =>
        step.Kind == StepKind.Renew ? NamesOf.Thing(net, step.Target) : step.Name.Length > 0 ? NamesOf.Capital(step.Name) : NamesOf.Thing(net, step.Target);

    private static string Place(Position at) => at switch
    {
        Position.Front => "at the front",
        Position.Rear => "at the rear",
        Position.Left => "on the left",
        Position.Right => "on the right",
        Position.Above => "from above",
        _ => "from below, on the lift",
    };

    private static IEnumerable<Row> Notes(PaperSource source) =>
        from counted in CountedEntry.AllOf(source.Job.Entries).Where(counted => counted is { IsTakenBack: false, Act: Noted or JointStuck or LineRecorded }).TakeLast(LastNotes)
        select new Row([new Said(PaperTime.Of(counted.Entry.At), Datum.Of("at", counted.Entry.At)), DoneWords.Of(source.Standing.Net, counted.Act!), Said.Own(counted.Entry.By)]);
}
