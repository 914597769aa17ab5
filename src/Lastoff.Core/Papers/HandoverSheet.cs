using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>For the customer: what was wrong, why, what was done about it, what the readings say, and what to watch.</summary>
public static class HandoverSheet
{
    public static Paper Of(PaperSource source)
    {
        var standing = source.Standing;
        return JobHead.Paper(
            source, PaperKind.Handover, standing.HandedOver is null ? "Your machine so far" : "Handover", "For the customer",
            new Section("", [new Facts([.. Head(source), .. CaseBlocks.Machine(standing), JobHead.WhatWasWrong(standing), JobHead.Cause(standing), JobHead.Agreed(standing), .. JobHead.ComplaintNow(standing), JobHead.WhereItStands(standing)]), .. JobHead.Override(standing)]),
            new Section("How the cause was found", CaseBlocks.Evidence(standing)),
            new Section("What was done", new Bullets([.. Done(source)])),
            new Section("New parts and fluids", new Bullets([.. NewThings.Lines(standing), .. Fillings.Lines(source.Job)])),
            new Section("What the readings say", [ReadingTable.Of(standing)]),
            new Section("Not finished", new Bullets([.. NotFinished(standing)])),
            new Section("What to watch", new Bullets([.. Watch(standing)])),
            CaseBlocks.ReChecks(standing),
            new Section("", new Paragraph(JobHead.MakersFirst)));
    }

    /// <summary>Whose paper it is, and of which day.</summary>
    private static IEnumerable<Fact> Head(PaperSource source)
    {
        if (source.Terms is { } terms)
        {
            yield return PriceWords.From(terms);
        }

        if (CountedEntry.AllOf(source.Job.Entries).LastOrDefault(counted => counted is { Act: HandedOver, IsTakenBack: false }).Entry is { } handed)
        {
            yield return new("Handed over on", new Said(PaperTime.Day(handed.At), Datum.Of("at", handed.At)));
        }
    }

    private static IEnumerable<Said> Done(PaperSource source)
    {
        var standing = source.Standing;
        foreach (var part in standing.GoalParts.Order(StringComparer.Ordinal))
        {
            var name = NamesOf.Thing(standing.Net, part);
            yield return new Said(
                standing.Renewed.Contains(standing.Net.NewPart(part).Id) ? $"{name}: renewed" : standing.WasDisturbed(OperationKind.Off, part) ? $"{name}: taken off" : $"{name}: not reached yet",
                Datum.Of("part", part));
        }

        foreach (var joint in standing.GoalJoints.Order(StringComparer.Ordinal))
        {
            var name = NamesOf.Thing(standing.Net, joint);
            yield return new Said(standing.WasDisturbed(OperationKind.Undo, joint) ? $"{name}: got at" : $"{name}: not reached yet", Datum.Of("joint", joint));
        }

        foreach (var work in standing.File.Works)
        {
            yield return work.IsDone ? $"{NamesOf.Capital(work.What)}: done" : $"{NamesOf.Capital(work.What)}: not done yet";
        }

        foreach (var found in CountedEntry.AllOf(source.Job.Entries).Where(counted => !counted.IsTakenBack).Select(counted => counted.Act).OfType<JointStuck>().GroupBy(stuck => stuck.Joint))
        {
            // The last word on how long counts; that it broke, and what was seen, stays so whatever was said after it.
            var all = found.Last() with { Broke = found.Any(stuck => stuck.Broke), Text = found.LastOrDefault(stuck => stuck.Text.Length > 0)?.Text ?? "" };
            yield return standing.WasDisturbed(OperationKind.Undo, found.Key) ? DoneWords.WasStuck(standing.Net, all) : DoneWords.StuckWords(standing.Net, all);
        }

        // What failed and was mended is the customer's to know.
        foreach (var back in CountedEntry.AllOf(source.Job.Entries).Where(counted => !counted.IsTakenBack).Select(counted => counted.Act).OfType<BackIn>())
        {
            yield return new Said(
                $"“{NamesOf.Thing(standing.Net, back.Proof)}” did not hold at first; “{NamesOf.Thing(standing.Net, back.Joint)}” was opened again for it.",
                Datum.Of("proof", back.Proof), Datum.Of("joint", back.Joint));
        }

        var rows = OutAndHome.Of(source.Job);
        if (rows.Count > 0)
        {
            var home = rows.Count(row => row.Home is not null);
            yield return new Said(
                home == rows.Count ? $"{rows.Count} joints, parts, supplies and covers went out on the way, and every one came home."
                    : home == 0 ? $"{rows.Count} joints, parts, supplies and covers went out on the way; none of them came home so far."
                    : $"{rows.Count} joints, parts, supplies and covers went out on the way; {home} of them came home so far.",
                Datum.Of("out", (decimal)rows.Count), Datum.Of("home", (decimal)home));
        }
    }

    /// <summary>Before the handover the workshop is at it, but what the machine came without is to be known; after one with an override, whoever drives must know all.</summary>
    private static IEnumerable<Said> NotFinished(Standing standing) => standing.HandedOver is null
        ? standing.File.NotFound.Where(thing => thing.IsMissing).Select(thing => (Said)thing.Sentence)
        : OpenItems.Of(standing).Select(item => (Said)item.Sentence);

    /// <summary>Common practice, no source.</summary>
    private static IEnumerable<Said> Watch(Standing standing)
    {
        if (standing.HandedOver is null && OpenItems.Of(standing).Count > 0)
        {
            yield break;
        }

        foreach (var kind in standing.Net.Map.Supplies.Where(supply => standing.WasOpen(supply.Id)).Select(supply => supply.Kind).Distinct().Order())
        {
            if (ToWatch(kind, RoadMachine.Is(standing)) is { } sentence)
            {
                yield return sentence;
            }
        }
    }

    private static string? ToWatch(SupplyKind kind, bool isDriven) => kind switch
    {
        SupplyKind.Coolant when !isDriven => "Look at the coolant level with the machine cold after the first hours of work, and at the gauge meanwhile. Never open the cap while it is hot: it is under pressure and scalds.",
        SupplyKind.Oil when !isDriven => "Read the oil level after the first hours of work, standing level, and look under the machine for drips.",
        SupplyKind.Battery when !isDriven => "What is set by hand and lost without current, such as a clock, may have to be set again.",
        SupplyKind.HighVoltage when !isDriven => "If it trips, hums or smells of burning, switch it off, lock it off and call the workshop; open nothing that is under voltage.",
        SupplyKind.Coolant => "Look at the coolant level with the engine cold after the first drives, and at the gauge on the way. Never open the cap while it is hot: it is under pressure and scalds.",
        SupplyKind.Oil => "Read the oil level after the first drives, standing level, and look under the machine for drips.",
        SupplyKind.FuelPressure => "If you smell fuel, stop, switch off, keep flames away and call the workshop.",
        SupplyKind.Hydraulic => "Look for wet places from a distance. Never feel for a leak with a hand: a fine jet goes through skin.",
        SupplyKind.Battery => "Where there are any, clock, radio and window stops may have to be set again.",
        SupplyKind.HighVoltage => "If a warning of the high-voltage system lights, stop and call the workshop; touch no orange cable.",
        SupplyKind.Vacuum => "If the brake pedal feels hard or sinks, do not drive; call the workshop.",
        SupplyKind.Refrigerant or SupplyKind.Heat => null,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
