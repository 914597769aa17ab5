using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>The readings that hold, each with what it was judged from and how far off that may be.</summary>
internal static class ReadingTable
{
    public static Table Of(Standing standing) => new(
        "", [new("What was proved", 5), new("Verdict", 2), new("Reading", 7)],
        [.. standing.Readings.Values.OrderBy(proof => proof.Proof, StringComparer.Ordinal).Select(proof => RowOf(standing.Net, proof))]);

    private static Row RowOf(OperationNet net, ProofRecorded proof) => new(
    [
        new Said(NamesOf.Thing(net, proof.Proof), Datum.Of("proof", proof.Proof)),
        new Said(Words<Verdict>.Of(proof.Verdict), Datum.Of("verdict", Words<Verdict>.Of(proof.Verdict))),
        new Said(string.Join('\n', Lines(proof)), [.. Data(proof)]),
    ]);

    private static IEnumerable<string> Lines(ProofRecorded proof)
    {
        yield return proof.Reading;
        if (proof.Evidence is { } evidence)
        {
            yield return By(evidence);
        }

        if (proof.IsOverruled)
        {
            yield return $"The readings say {Words<Verdict>.Of(proof.Evidence!.Says)}; a person says {Words<Verdict>.Of(proof.Verdict)}, because: {proof.Overruled?.Trim()}";
        }
    }

    private static string By(Evidence evidence)
    {
        var unit = evidence.Unit.Length > 0 ? $" {evidence.Unit}" : "";
        return (evidence.Figure, evidence.Low, evidence.High) switch
        {
            ({ } figure, { } low, { } high) => $"By {evidence.Method}: {Number(figure)}{unit}, surely between {Number(low)} and {Number(high)}{unit}.",
            ({ } figure, _, _) => $"By {evidence.Method}: {Number(figure)}{unit}.",
            (null, { } low, { } high) => $"By {evidence.Method}: between {Number(low)} and {Number(high)}{unit}.",
            _ => $"By {evidence.Method}.",
        };
    }

    private static string Number(double value) => value.ToString("G4", CultureInfo.InvariantCulture);

    private static IEnumerable<Datum> Data(ProofRecorded proof)
    {
        yield return Datum.Of("reading", proof.Reading);
        if (proof.Evidence is not { } evidence)
        {
            yield break;
        }

        yield return Datum.Of("method", evidence.Method);
        yield return Datum.Of("unit", evidence.Unit);
        yield return Datum.Of("is_overruled", proof.IsOverruled);
        foreach (var (key, value) in new[] { ("figure", evidence.Figure), ("low", evidence.Low), ("high", evidence.High) })
        {
            if (value is { } number && double.IsFinite(number))
            {
                yield return Datum.Of(key, number);
            }
        }
    }
}
