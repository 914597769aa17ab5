namespace Lastoff.Core.Recording;

/// <summary>A word, number or sign of a line.</summary>
/// <param name="Lower">In lower case.</param>
/// <param name="Start">In the line.</param>
/// <param name="Number">Its value when it is written in figures.</param>
/// <param name="IsGlued">No space stands before it.</param>
internal sealed record Token(string Lower, int Start, int Length, double? Number, bool IsFraction, bool IsGlued)
{
    public int End => Start + Length;
}
