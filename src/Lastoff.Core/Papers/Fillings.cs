using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Papers;

/// <summary>What fluids went in, on paper: for the workshop each filling, for the customer how much it came to and what is in it now.</summary>
internal static class Fillings
{
    /// <summary>Every filling on record, with what it came to where a fluid was changed.</summary>
    public static Table Table(Standing standing) => new("", [new("What", 4), new("With", 8)], [.. Supplies(standing).SelectMany(fills => Rows(standing, [.. fills]))]);

    /// <summary>For the customer, of what is filled now.</summary>
    public static IEnumerable<Said> Lines(Job job) =>
    [
        .. from fills in Supplies(job.Standing)
           where !job.Standing.IsDone(OperationKind.MakeSafe, fills.Key)
           select Line(job.Standing, fills.Last()),
        .. Unmeasured(job),
    ];

    /// <summary>Whether anything is on record of what went in.</summary>
    public static bool IsTold(Standing standing, string supply) => standing.Restored.Any(filled => filled.Target == supply && IsTold(filled));

    private static bool IsTold(Moved filled) => filled.Amount_L is not null || filled.Poured is not null || filled.Left_ppm is not null;

    private static IEnumerable<IGrouping<string, Moved>> Supplies(Standing standing) =>
        standing.Restored.Where(filled => IsTold(filled) || StepVerbs.IsFilled(standing.Net, filled.Target)).GroupBy(filled => filled.Target)
            .Where(fills => fills.Any(IsTold)).OrderBy(fills => fills.Key, StringComparer.Ordinal);

    private static Said Line(Standing standing, Moved last) => ProofLines.Times(standing, last.Target) is { } times
        ? new Said(
            DoneWords.Lines($"{NamesOf.Thing(standing.Net, last.Target)}: filled {times}", $"in it now: {ProofLines.Words(last)}", DoneWords.OtherLabel(standing.Net, last)),
            [Datum.Of("supply", last.Target), .. Sum(standing, last.Target), .. DoneWords.FilledData(last)])
        : new Said(DoneWords.FilledWords(standing.Net, last), [Datum.Of("supply", last.Target), .. DoneWords.FilledData(last)]);

    private static IEnumerable<Row> Rows(Standing standing, IReadOnlyList<Moved> fills)
    {
        var name = NamesOf.Thing(standing.Net, fills[0].Target);
        foreach (var (number, filled) in fills.Index())
        {
            var isOut = number < fills.Count - 1 || standing.IsDone(OperationKind.MakeSafe, filled.Target);
            yield return new Row(
            [
                new Said(name, Datum.Of("supply", filled.Target)),
                new Said(DoneWords.Lines(ProofLines.Words(filled), isOut ? "came out again" : ""), [.. DoneWords.FilledData(filled)]),
            ]);
        }

        if (ProofLines.Times(standing, fills[0].Target) is { } times)
        {
            yield return new Row([new Said(name, Datum.Of("supply", fills[0].Target)), new Said($"Filled {times}", [.. Sum(standing, fills[0].Target)])]);
        }
    }

    private static IEnumerable<Datum> Sum(Standing standing, string supply)
    {
        List<Moved> fills = [.. standing.Restored.Where(filled => filled.Target == supply)];
        yield return Datum.Of("times", (decimal)fills.Sum(filled => filled.Poured?.Fills ?? 1));
        if (fills.Exists(filled => filled.Amount_L is not null))
        {
            yield return Datum.Of("all_L", fills.Sum(filled => filled.Amount_L ?? 0));
        }
    }

    /// <summary>Without a map no renewal says that what was drained is fresh.</summary>
    private static IEnumerable<Said> Unmeasured(Job job) =>
        from supply in job.IsRecorded ? job.Net.Map.Supplies : []
        where job.Net.Map.Proofs.Any(proof => proof.Kind == ProofKind.LeakLook && proof.For == supply.Id)
            && !job.Standing.IsDone(OperationKind.MakeSafe, supply.Id) && !IsTold(job.Standing, supply.Id)
        orderby supply.Id
        select new Said($"{NamesOf.Thing(job.Net, supply.Id)}: filled, how much is not on record", Datum.Of("supply", supply.Id));
}
