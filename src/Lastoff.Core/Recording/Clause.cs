namespace Lastoff.Core.Recording;

/// <summary>How a clause hangs on the one before.</summary>
internal enum Joined { Stop, Then, Late, Comma, And }

/// <summary>The terms of a line that speak of one thing.</summary>
internal sealed record Clause(IReadOnlyList<Term> Terms, Joined Joined)
{
    /// <summary>It speaks of something else than the one before.</summary>
    public bool IsStart => Joined is Joined.Stop or Joined.Then or Joined.Late;

    /// <summary>From its first sign to its last, in the line.</summary>
    public (int Start, int End) Whole => (Terms[0].Start, Terms[^1].End);

    public bool Has(params ReadOnlySpan<WordKind> kinds)
    {
        foreach (var term in Terms)
        {
            if (kinds.Contains(term.Kind))
            {
                return true;
            }
        }

        return false;
    }
}
