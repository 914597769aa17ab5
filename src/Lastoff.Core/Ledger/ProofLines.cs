namespace Lastoff.Core.Ledger;

/// <summary>What was proved and what was filled, a line each, for whoever takes the job or the machine over.</summary>
public static class ProofLines
{
    public static IEnumerable<string> Of(Standing standing) =>
        from proof in standing.Readings.Values
        orderby proof.Proof
        select $"“{standing.Net.Proofs[proof.Proof].Name}”: {Words(proof)}";

    /// <summary>"good: Tight, a leak of .. is ruled out", and who overruled the readings by what reason.</summary>
    public static string Words(ProofRecorded proof) => $"{ActKinds.Word(proof.Verdict)}: {proof.Reading.TrimEnd('.')}."
        + (proof.IsOverruled ? $" The readings say {ActKinds.Word(proof.Evidence!.Says)}; a person says {ActKinds.Word(proof.Verdict)}, because: {proof.Overruled!.Trim().TrimEnd('.')}." : "");

    public static IEnumerable<string> Filled(Standing standing) =>
        from filled in standing.Filled
        orderby filled.Target
        select $"“{standing.Net.Supplies[filled.Target].Name}” was filled: {(Times(standing, filled.Target) is { } times ? $"{times}; in it now: " : "")}{Words(filled)}.";

    /// <summary>"3 times, 3.45 L in all", of a fluid that was changed; null where it went in once.</summary>
    public static string? Times(Standing standing, string supply)
    {
        List<Moved> fills = [.. standing.Restored.Where(filled => filled.Target == supply)];
        var times = fills.Sum(filled => filled.Poured?.Fills ?? 1);
        var sum = FormattableString.Invariant($"{fills.Sum(filled => filled.Amount_L ?? 0):0.##} L");
        return fills.Count < 2 ? null
            : fills.TrueForAll(filled => filled.Amount_L is not null) ? $"{times} times, {sum} in all"
            : fills.Exists(filled => filled.Amount_L is not null) ? $"{times} times, {sum} in all of what was measured"
            : $"{times} times, how much is not on record";
    }

    /// <summary>"5.7 L of Si-OAT, 50 %; the mix is 49.8 % ± 1.2".</summary>
    public static string Words(Moved filled) =>
        (filled.Amount_L is { } litres ? FormattableString.Invariant($"{litres:0.##} L") : "an unmeasured amount")
        + (filled.Poured is { } poured ? $" of {poured.Words()}" : "")
        + (filled.Left_ppm is { } left ? FormattableString.Invariant($"; {left:0} ppm of what had got in are left, by calculation") : "");
}
