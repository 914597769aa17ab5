namespace Lastoff.Core.Recording;

/// <summary>One or more tokens that mean one thing.</summary>
internal sealed class Term(WordKind kind, int start, int end)
{
    public WordKind Kind { get; } = kind;
    /// <summary>In the line.</summary>
    public int Start { get; } = start;
    public int End { get; } = end;
    /// <summary>What the word list says it stands for.</summary>
    public string Value { get; init; } = "";
    public double Number { get; init; }
    /// <summary>A number as “a pair”, which only counts.</summary>
    public bool IsGroup { get; init; }
    /// <summary>A number in letters.</summary>
    public bool IsSpoken { get; init; }
    public bool IsPlural { get; init; }
    public Size? Across { get; init; }
    public ThreadSize? Thread { get; init; }
    public Drive? Drive { get; init; }
    public Size? Length { get; init; }
    public string? Unit { get; init; }
    /// <summary>Its meaning has gone into a reading. What stays unused goes into the note.</summary>
    public bool IsUsed { get; set; }

    /// <summary>Whether it can be part of a name when it follows another word.</summary>
    public bool IsNameable => Is(WordKind.Word, WordKind.Parts, WordKind.Joints, WordKind.NamedJoints, WordKind.JointModifiers, WordKind.Tools, WordKind.Sundries, WordKind.Trays, WordKind.Containers);

    public bool Is(params ReadOnlySpan<WordKind> kinds) => kinds.Contains(Kind);

    public string Text(string line) => line[Start..End];

    public string Lower(string line) => Text(line).ToLowerInvariant();
}
