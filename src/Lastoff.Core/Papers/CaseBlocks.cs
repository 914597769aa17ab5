using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>What is on file about a job beside the work, as blocks of a paper.</summary>
internal static class CaseBlocks
{
    /// <summary>How the machine came in; nothing where nobody wrote it down.</summary>
    public static IEnumerable<Fact> Machine(Standing standing)
    {
        if (standing.File.Machine is not { } machine)
        {
            yield break;
        }

        var counters = new List<(string Text, Datum Data)>();
        if (machine.Odometer_km is { } km)
        {
            counters.Add((string.Create(CultureInfo.InvariantCulture, $"{km:0.#} km"), Datum.Of("odometer_km", km)));
        }

        if (machine.Hours_h is { } hours)
        {
            counters.Add((string.Create(CultureInfo.InvariantCulture, $"{hours:0.#} h"), Datum.Of("hours_h", hours)));
        }

        foreach (var (name, said) in new (string, Said)[]
        {
            ("Serial number or VIN", new Said(machine.Vin, Datum.Of("vin", machine.Vin))),
            ("Plate", new Said(machine.Plate, Datum.Of("plate", machine.Plate))),
            ("Counters at arrival", new Said(string.Join(", ", counters.Select(counter => counter.Text)), [.. counters.Select(counter => counter.Data)])),
            ("Warning lamps at arrival", Said.Own(string.Join(", ", machine.Lamps))),
            ("Condition at arrival", Said.Own(machine.Condition)),
        })
        {
            if (said.Text.Length > 0)
            {
                yield return new Fact(name, said);
            }
        }
    }

    /// <summary>What was found on the way to the cause, cause by cause.</summary>
    public static Bullets Evidence(Standing standing) => new(
    [
        .. standing.File.Evidence.GroupBy(evidence => evidence.Suspect).SelectMany(suspect => suspect.Select(evidence => new Said(
            $"{suspect.Key}: {Found(evidence)}", Datum.Of("suspect", evidence.Suspect), Datum.Of("by", Words<EvidenceBy>.Of(evidence.By)), Datum.Of("speaks", Words<Speaks>.Of(evidence.Speaks))))),
    ]);

    public static Section ReChecks(Standing standing) => new("To be looked at again", new Table("", [new("When", 3), new("What", 9)],
    [
        .. standing.File.ReChecks.OrderBy(check => check.On).Select(check => new Row(
        [
            new Said(PaperTime.Of(check.On), Datum.Of("day", check.On)),
            check.Found is { } found ? $"{check.What}\nLooked at: {found}" : check.What,
        ])),
    ]));

    /// <summary>“Bracket bolts: one is behind the hose; take the long socket”.</summary>
    public static Said Lesson(OperationNet net, Learned learned) => learned.About is { } about ? Said.Own($"{NamesOf.Thing(net, about)}: {learned.Text}") : $"Learned: {learned.Text}";

    public static string Found(EvidenceFound evidence) => $"{evidence.Found} ({EvidenceWords.Of(evidence.By)}; {EvidenceWords.Of(evidence.Speaks)})";
}
