namespace Lastoff.Core.Recording;

/// <summary>“New O-ring needed, 110x4”, “shaft seal out, 25x40x7”: how wide a seal is and how thick, and no count of heads.</summary>
internal static class SealSize
{
    // No head is wider or smaller than these (set down, no source), and nobody counts so many.
    private const int MostHead_mm = 60;
    private const int LeastHead_mm = 4;
    private const string Stroke = "/";

    public static bool IsOf(Clause clause, string line, PhraseBook book) => clause.Whole is var (start, end)
        && IsSize(book.Cut(line[start..end]), book) && NamesSeal(book.Cut(line[..start]), book);

    /// <summary>Where the size of a shaft seal that stands at a token ends, bore by housing by width, of a seal that is named before; null for none.</summary>
    public static int? End(List<Token> tokens, int at, PhraseBook book) => EndOfThree(tokens, at, book) is { } end && NamesSeal(tokens[..at], book)
        // “Seal out, 8 x 20 x 6 bolts”.
        && !(end < tokens.Count && book.At(tokens, end) is { Kind: WordKind.Joints or WordKind.NamedJoints }) ? end : null;

    /// <summary>What a seal is called with the size that the line tells of it.</summary>
    public static string Named(string name, string line, PhraseBook book) => LineReader.IsSeal(name) && In(line, book) is { } size ? $"{name} {size}" : name;

    /// <summary>The size as the line says it; null where it says none.</summary>
    private static string? In(string line, PhraseBook book)
    {
        var tokens = book.Cut(line);
        var three = Enumerable.Range(0, tokens.Count).Select(at => End(tokens, at, book) is { } end ? line[tokens[at].Start..tokens[end - 1].End] : null).FirstOrDefault(said => said is not null);
        return three ?? FallenIn.Clauses(line).Select(clause => line[clause].Trim()).FirstOrDefault(said => IsSize(book.Cut(said), book));
    }

    private static bool NamesSeal(List<Token> before, PhraseBook book) =>
        Enumerable.Range(0, before.Count).Any(at => book.At(before, at, WordKind.Seals) is not null || book.Ends(before[at].Lower, WordKind.Seals));

    private static bool IsSize(List<Token> tokens, PhraseBook book) =>
        tokens is [{ Number: { } wide, IsFraction: false }, var by, { Number: { } thick, IsFraction: false }, .. var unit] && wide > thick && (wide > MostHead_mm || thick < LeastHead_mm)
        && IsBy(by, book) && unit.TrueForAll(word => IsMillimetre(word, book));

    private static int? EndOfThree(List<Token> tokens, int at, PhraseBook book)
    {
        // “25/40/7”: the first two are no fraction of an inch.
        var (bore, housing, next) = tokens[at] is { IsFraction: true } && tokens[at].Lower.Split(Stroke) is [var first, var second] && int.TryParse(first, out var one) && int.TryParse(second, out var two) ? (one, two, at + 1)
            : at + 2 < tokens.Count && tokens[at] is { Number: { } inner, IsFraction: false } && IsBy(tokens[at + 1], book) && tokens[at + 2] is { Number: { } outer, IsFraction: false } ? (inner, outer, at + 3)
            : (0d, 0d, tokens.Count);
        // A length would be the largest of the three.
        return next + 1 < tokens.Count && IsBy(tokens[next], book) && tokens[next + 1] is { Number: { } width, IsFraction: false } && bore > 0 && bore < housing && width < housing
            ? next + 2 < tokens.Count && IsMillimetre(tokens[next + 2], book) ? next + 3 : next + 2
            : null;
    }

    private static bool IsBy(Token sign, PhraseBook book) => sign.Lower == Stroke || book.Of(sign.Lower, WordKind.Times, WordKind.LengthLeads) is not null;

    private static bool IsMillimetre(Token word, PhraseBook book) => book.Of(word.Lower, WordKind.Units) is { Value: "mm" };
}
