namespace Lastoff.Core.Recording;

/// <summary>What a clause amounts to.</summary>
internal enum Shape
{
    /// <summary>A thing and what was done to it.</summary>
    Thing,
    /// <summary>The name of something, and nothing about it.</summary>
    Bare,
    /// <summary>What belongs to the thing before: a size, a count, a tray.</summary>
    Attributes,
    /// <summary>The part that the fastener before belongs to: “off the flange”.</summary>
    Host,
    /// <summary>A deed, and not what it was done to.</summary>
    DeedOnly,
    /// <summary>A flag about the thing before, or about a part.</summary>
    State,
    /// <summary>Words to keep.</summary>
    Remark,
    /// <summary>The machine was made still: words to keep, unless what stands around them tells that something came off.</summary>
    Still,
    /// <summary>The same of a key, which may be one that a wheel sat on.</summary>
    Key,
    /// <summary>What a hold is for: “so it can't turn”. Of anything else it is words to keep.</summary>
    Why,
    /// <summary>Words that only lead on to others: “okay, so”.</summary>
    Empty,
}

/// <summary>One clause as it was understood.</summary>
internal sealed record Heard(Clause Clause, Shape Shape, Reading Reading)
{
    /// <summary>What was done is said, and not only taken for granted.</summary>
    public bool SaysDeed { get; init; }
    /// <summary>The deed stands in front, so that it can be for more than one thing: “removed the fan, the cowl ..”.</summary>
    public bool IsVerbFirst { get; init; }
    /// <summary>The part it belongs to is said behind it: “off the bracket”.</summary>
    public bool SaysHost { get; init; }
    /// <summary>A fastener that nobody named, told by its size alone.</summary>
    public bool IsImplied { get; init; }
    public bool IsPlural { get; init; }
    /// <summary>The fluid that the clause names and of which it says nothing else, by its name.</summary>
    public string? Fluid { get; init; }
    /// <summary>A number that may be a count or a size, which what stands before has to tell.</summary>
    public Term? Open { get; init; }
}
