namespace Lastoff.Core.Recording;

/// <summary>A reading in the making.</summary>
internal sealed class Told(Reading reading, bool saysDeed, bool isVerbFirst, bool isPlural)
{
    public Reading Reading { get; set; } = reading;
    public bool SaysDeed { get; set; } = saysDeed;
    public bool IsVerbFirst { get; } = isVerbFirst;
    public bool IsPlural { get; } = isPlural;
    /// <summary>Stretches of the line, in order.</summary>
    public List<(int Start, int End)> Notes { get; } = [];
    public bool IsRemark { get; init; }
    /// <summary>The lead that was taken off, as it was called; null for anything else.</summary>
    public string? Lead { get; init; }
    /// <summary>“Unbolted”: the deed tells the kind of joint.</summary>
    public bool IsOfDeed { get; init; }

    /// <summary>What was not understood, each stretch by itself.</summary>
    public void Note(IReadOnlyList<Term> terms)
    {
        (int Start, int End)? open = null;
        // “In a bucket”: the word that leads to what is noted.
        int? lead = null;
        foreach (var term in terms)
        {
            if (!term.IsUsed)
            {
                open = (open?.Start ?? lead ?? term.Start, term.End);
            }
            else if (!term.Is(WordKind.Fillers, WordKind.Article))
            {
                if (open is { } note)
                {
                    Notes.Add(note);
                    open = null;
                }

                lead = term.Is(WordKind.From, WordKind.With) ? term.Start : null;
            }
        }

        if (open is { } last)
        {
            Notes.Add(last);
        }
    }
}
