namespace Lastoff.Core.Recording;

/// <summary>A line that may say that what fell into the machine is out again: “fished the washer out with a magnet”. It may be another washer, so it is asked.</summary>
/// <param name="What">What fell in, as that was said.</param>
/// <param name="Rest">What else the line says.</param>
public sealed record FoundAgain(string What, string Rest)
{
    private static readonly char[] s_signs = [',', ';', '.', ':', ' '];

    /// <summary>The first clause of the line that says so.</summary>
    /// <param name="lost">What is in the machine, what fell in last at the front.</param>
    internal static FoundAgain? Read(string line, PhraseBook book, IReadOnlyList<string> lost) =>
        FallenIn.Clauses(line).Select(clause => (Clause: clause, What: Of(line[clause], book, lost))).FirstOrDefault(told => told.What is not null) is (var clause, { } what)
            ? new FoundAgain(what, $"{line[..clause.Start].TrimEnd(s_signs)}{line[clause.End..]}".Trim(s_signs))
            : null;

    private static string? Of(string clause, PhraseBook book, IReadOnlyList<string> lost)
    {
        var tokens = Tokenizer.Cut(clause);
        List<string> name = [];
        string? regained = null;
        // “With a magnet”, “from the gearbox”, up to the word that says that it is out.
        var isHow = false;
        for (var at = 0; at < tokens.Count; at++)
        {
            if (book.At(tokens, at, WordKind.Regained) is { } found)
            {
                regained = regained == BySelf ? regained : found.Value;
                isHow = false;
                at += found.Words.Count - 1;
            }
            else if (book.At(tokens, at)?.Kind is WordKind.NotDone or WordKind.And || (book.At(tokens, at, WordKind.Nots) ?? book.At(tokens, at, WordKind.None)) is not null)
            {
                return null;
            }
            else if ((book.At(tokens, at, WordKind.With) ?? book.At(tokens, at, WordKind.From) ?? book.At(tokens, at, WordKind.Inside)) is not null)
            {
                isHow |= name.Count > 0;
            }
            else if (!isHow && book.Of(tokens[at].Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers) is null)
            {
                name.Add(tokens[at].Lower);
            }
        }

        return regained is null ? null
            // “Found it”: what fell in last. Of what was stuck it is said that it came out, too.
            : regained == BySelf && name.TrueForAll(word => book.Of(word, WordKind.Pronouns, WordKind.Ones) is not null) ? lost.FirstOrDefault()
            : lost.FirstOrDefault(what => IsCalled(Words(what), name)) ?? (regained == BySelf ? lost.FirstOrDefault(what => Words(what).Exists(name.Contains)) : null);

        static List<string> Words(string what) => [.. Tokenizer.Cut(what).Select(token => token.Lower)];
    }

    private const string BySelf = "by_itself";

    /// <summary>“The nut” is the M6 nut, and “M6 nut” the nut.</summary>
    private static bool IsCalled(List<string> what, List<string> name) => what.Count > 0 && name.Count > 0 && what[^1] == name[^1] && (what.TrueForAll(name.Contains) || name.TrueForAll(what.Contains));
}
