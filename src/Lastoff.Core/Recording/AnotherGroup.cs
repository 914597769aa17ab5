namespace Lastoff.Core.Recording;

/// <summary>A count and a size, or a count and a place, of a second group of the fasteners that were told before.</summary>
internal static class AnotherGroup
{
    /// <returns>Null where the clause tells more of the group before.</returns>
    public static Reading? Of(Heard heard, Reading before)
    {
        var said = heard.Reading;
        if (before is not { Kind: { } kind, Count: { } known })
        {
            return null;
        }

        // “Four 10 mil and one 13”.
        if (said.IsMeasured() && said.Count is not null && before.IsMeasured())
        {
            // “Six T20, four 10 mm”: heads of another sort are of another sort of fastener.
            return said with { Kind = before.Name is null && kind == Fasteners.Likely(before.Drive) && before.Drive is not null ? Fasteners.Likely(said.Drive) : kind, Deed = Deed.Undone };
        }

        // “Three from above, two from below”; of “six, two from below”, two are among the six.
        return heard.Open is { } number && said.At is not null && (before.At is not null || number.Number >= known)
            ? said with { Kind = kind, Count = (int)number.Number, Deed = before.Deed }
            : null;
    }

    /// <summary>“Two long bolts out, four short ones”: fasteners of the sort before that look otherwise. Of those before that were all told of together, they are some.</summary>
    public static Reading? ByLook(Heard heard, Reading? before, string line)
    {
        List<Term> terms = [.. heard.Clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        if (before is not { Kind: { } kind, Count: not null, Name: { } name } || terms is not [{ Kind: WordKind.Number } number, { Kind: WordKind.JointModifiers, Value: "plain" } look, ..] || terms.Count > 3 || terms.Count == 3 && !LineReader.IsOnes(terms[2].Lower(line))
            // “Two longer ones” are two of them.
            || name.Split(' ').Length != 2 || LineReader.SaysLengthsDiffer(look.Text(line)))
        {
            return null;
        }

        terms.ForEach(term => term.IsUsed = true);
        return heard.Reading with { Kind = kind, Count = (int)number.Number, Name = $"{look.Text(line)} {name.Split(' ')[^1]}", Part = before.Part, Deed = before.Deed, Across = null };
    }
}
