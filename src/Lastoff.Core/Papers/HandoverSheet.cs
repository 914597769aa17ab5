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
            new Section("", [new Facts([.. CaseBlocks.Machine(standing), JobHead.WhatWasWrong(standing), JobHead.Cause(standing), JobHead.Agreed(standing), JobHead.WhereItStands(standing)]), .. JobHead.Override(standing)]),
            new Section("How the cause was found", CaseBlocks.Evidence(standing)),
            new Section("What was done", new Bullets([.. Done(source)])),
            new Section("New parts and fluids", new Bullets([.. Renewed(standing), .. Filled(standing)])),
            new Section("What the readings say", [ReadingTable.Of(standing)]),
            new Section("Not finished", new Bullets([.. NotFinished(standing)])),
            new Section("What to watch", new Bullets([.. Watch(standing)])),
            CaseBlocks.ReChecks(standing),
            new Section("", new Paragraph(JobHead.MakersFirst)));
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

        var rows = OutAndHome.Of(source.Job).Where(row => row.Act is Moved).ToList();
        if (rows.Count > 0)
        {
            var home = rows.Count(row => row.Home is not null);
            yield return new Said(
                home == rows.Count ? $"{rows.Count} joints, parts and supplies were undone on the way, and every one is back."
                    : home == 0 ? $"{rows.Count} joints, parts and supplies were undone on the way; none of them is back so far."
                    : $"{rows.Count} joints, parts and supplies were undone on the way; {home} of them back so far.",
                Datum.Of("out", (decimal)rows.Count), Datum.Of("home", (decimal)home));
        }
    }

    private static IEnumerable<Said> Renewed(Standing standing) =>
        from id in standing.Renewed.Order(StringComparer.Ordinal)
        let renewal = standing.Net.RenewalNamed(id)
        // What was poured says more than what was to be.
        where renewal is not null && !standing.Filled.Any(filled => filled.Target == renewal.For && filled.Amount_L is not null)
        select new Said($"{NamesOf.Thing(standing.Net, id)} ({DoneWords.RenewalCount(renewal)})", Datum.Of("renewal", id), Datum.Of("count", renewal.Count), Datum.Of("unit", renewal.Unit));

    private static IEnumerable<Said> Filled(Standing standing) =>
        from filled in standing.Filled
        orderby filled.Target
        select new Said(DoneWords.FilledWords(standing.Net, filled), [Datum.Of("supply", filled.Target), .. DoneWords.FilledData(filled)]);

    /// <summary>Before the handover the workshop is at it; after one with an override, whoever drives must know.</summary>
    private static IEnumerable<Said> NotFinished(Standing standing) =>
        standing.HandedOver is null ? [] : OpenItems.Of(standing).Select(item => (Said)item.Sentence);

    /// <summary>Common practice, no source.</summary>
    private static IEnumerable<Said> Watch(Standing standing)
    {
        if (standing.HandedOver is null && OpenItems.Of(standing).Count > 0)
        {
            yield break;
        }

        foreach (var kind in standing.Net.Map.Supplies.Where(supply => standing.WasOpen(supply.Id)).Select(supply => supply.Kind).Distinct().Order())
        {
            if (ToWatch(kind) is { } sentence)
            {
                yield return sentence;
            }
        }
    }

    private static string? ToWatch(SupplyKind kind) => kind switch
    {
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
