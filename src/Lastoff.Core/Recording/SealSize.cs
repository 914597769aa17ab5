namespace Lastoff.Core.Recording;

/// <summary>“New O-ring needed, 110x4”: how wide a seal is and how thick, and no count of heads.</summary>
internal static class SealSize
{
    // No head is wider or smaller than these (set down, no source), and nobody counts so many.
    private const int MostHead_mm = 60;
    private const int LeastHead_mm = 4;

    public static bool IsOf(Clause clause, string line, PhraseBook book) => clause.Whole is var (start, end)
        && IsSize(book.Cut(line[start..end]), book) && book.Cut(line[..start]) is var before && Enumerable.Range(0, before.Count).Any(at => book.At(before, at, WordKind.Seals) is not null);

    /// <summary>The size as the line says it; null where it says none.</summary>
    public static string? In(string line, PhraseBook book) => FallenIn.Clauses(line).Select(clause => line[clause].Trim()).FirstOrDefault(said => IsSize(book.Cut(said), book));

    private static bool IsSize(List<Token> tokens, PhraseBook book) =>
        tokens is [{ Number: { } wide, IsFraction: false }, var by, { Number: { } thick, IsFraction: false }, .. var unit] && wide > thick && (wide > MostHead_mm || thick < LeastHead_mm)
        && book.Of(by.Lower, WordKind.Times, WordKind.LengthLeads) is not null && unit.TrueForAll(word => book.Of(word.Lower, WordKind.Units) is { Value: "mm" });
}
