namespace Lastoff.Core.Recording;

/// <summary>A stretch of a line, and whether it was understood or stands in a note.</summary>
public sealed record Stretch(int Start, int Length, bool IsUnderstood);

/// <summary>A line as it was written, and what it was understood to say.</summary>
/// <param name="Text">The line, unchanged.</param>
/// <param name="Readings">In the order of the line; none only when it is blank.</param>
/// <param name="Stretches">In order; together every sign of the line that is not blank.</param>
public sealed record RecordedLine(string Text, IReadOnlyList<Reading> Readings, IReadOnlyList<Stretch> Stretches);
