using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>On which side a joint is, as its own clause says. “Left bolt” is a side; “left-hand bolt” may be a thread; “left engine mount” is the name of a part.</summary>
internal static class SideOfJoint
{
    /// <param name="head">The joint the clause is about; null when it names none.</param>
    public static Reading Said(Reading reading, IReadOnlyList<Term> terms, Term? head) => head is null ? reading : OfCount(Before(reading, terms, head), terms, head);

    private static Reading Before(Reading reading, IReadOnlyList<Term> terms, Term head)
    {
        for (var at = 0; at + 1 < terms.Count; at++)
        {
            if (!ReferenceEquals(terms[at + 1], head))
            {
                continue;
            }

            if (terms[at].Is(WordKind.LeftHand))
            {
                terms[at].IsUsed = true;
                return ClauseWalk.IsTurned(head) ? reading with { Question = reading.Question ?? new Question(Doubt.ThreadOrSide) } : reading with { At = reading.At ?? Position.Left };
            }

            if (terms[at].Is(WordKind.Sides) && ClauseWalk.KindOf(head) is not (JointKind.Hose or JointKind.Pipe) && Words<Position>.TryRead(terms[at].Value, out var side))
            {
                terms[at].IsUsed = true;
                return reading with { At = reading.At ?? side };
            }
        }

        return reading;
    }

    /// <summary>“Slackened the bolts, front two”.</summary>
    private static Reading OfCount(Reading reading, IReadOnlyList<Term> terms, Term head)
    {
        if (reading.At is not null || terms.Count < 2 || terms[^2] is not { Kind: WordKind.Sides, IsUsed: false } side || !terms[^1].Is(WordKind.Number)
            || head.Start > side.Start || !Words<Position>.TryRead(side.Value, out var at))
        {
            return reading;
        }

        side.IsUsed = true;
        return reading with { At = at };
    }
}
