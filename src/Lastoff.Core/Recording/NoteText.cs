namespace Lastoff.Core.Recording;

/// <summary>Writes the note of a reading from the stretches of the line that no field took.</summary>
internal sealed class NoteText(string line, IReadOnlyList<Term> terms)
{
    public string? Of(IReadOnlyList<(int Start, int End)> notes) =>
        notes.Count == 0 ? null : string.Join(", ", Joint(notes).Select(note => line[note.Start..note.End]));

    /// <summary>Notes with nothing between them but signs and joining words are one.</summary>
    private IEnumerable<(int Start, int End)> Joint(IEnumerable<(int Start, int End)> notes)
    {
        (int Start, int End)? open = null;
        foreach (var note in notes)
        {
            if (open is { } before && note.Start >= before.End && IsJoining(before.End, note.Start))
            {
                open = (before.Start, note.End);
                continue;
            }

            if (open is { } whole)
            {
                yield return whole;
            }

            open = note;
        }

        if (open is { } last)
        {
            yield return last;
        }
    }

    private bool IsJoining(int from, int to)
    {
        for (var at = FirstAt(from); at < terms.Count && terms[at].Start < to; at++)
        {
            if (!terms[at].Is(WordKind.Comma, WordKind.And, WordKind.From, WordKind.With, WordKind.Fillers, WordKind.Article) && terms[at] is not { Kind: WordKind.Stops, Value.Length: > 0 })
            {
                return false;
            }
        }

        return true;
    }

    private int FirstAt(int start)
    {
        var (low, high) = (0, terms.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = terms[middle].Start < start ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>What no clause had room for and no note has: it goes into the last one.</summary>
    public IEnumerable<Term> Rest(IReadOnlyList<Told> told)
    {
        var noted = told.SelectMany(one => one.Notes).OrderBy(note => note.Start).ToArray();
        var at = 0;
        foreach (var term in terms)
        {
            while (at < noted.Length && noted[at].End <= term.Start)
            {
                at++;
            }

            if (!term.IsUsed && (at == noted.Length || noted[at].Start > term.Start))
            {
                yield return term;
            }
        }
    }
}
