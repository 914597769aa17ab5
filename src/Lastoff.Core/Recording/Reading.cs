using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What was done to the thing a line speaks of.</summary>
public enum Deed
{
    /// <summary>Nothing was done to it, or the line does not say: the words are kept.</summary>
    Note,
    /// <summary>A joint is undone.</summary>
    Undone,
    /// <summary>A joint is slackened and stays in, so it has to be made again all the same.</summary>
    Loose,
    /// <summary>A part is off the machine.</summary>
    Off,
    /// <summary>A part is moved out of the way and still attached.</summary>
    Aside,
    /// <summary>A supply is made safe.</summary>
    Safe,
    /// <summary>A fluid is let out.</summary>
    Drained,
    /// <summary>Nothing was done: it is said that the part or joint was in the way of another.</summary>
    InTheWay,
    /// <summary>It is said that it was not.</summary>
    NotInTheWay,
    /// <summary>An opening got a cover, plug or rag.</summary>
    Covered,
    /// <summary>The cover came out again.</summary>
    Uncovered,
    /// <summary>It is lost, torn or worn, and has to be had anew before it goes home.</summary>
    Wanted,
    /// <summary>What was wanted is there: new, or found again.</summary>
    Here,
}

/// <summary>One thing that was done, as far as the words say. What was not said is null or false; <see cref="ReadingText"/> writes it in one line.</summary>
public sealed record Reading
{
    public Deed Deed { get; init; }
    public JointKind? Kind { get; init; }
    /// <summary>How many, as said; 1 or more.</summary>
    public int? Count { get; init; }
    /// <summary>Across the flats of the head, or of the key that goes into it.</summary>
    public Size? Across { get; init; }
    public ThreadSize? Thread { get; init; }
    public Drive? Drive { get; init; }
    /// <summary>Of the shank, as said: “M8x40”, “45 long”.</summary>
    public Size? Length { get; init; }
    /// <summary>What the joint is called where its kind is not all: “pivot bolt”, “top hose”.</summary>
    public string? Name { get; init; }
    /// <summary>The part that came off or was laid aside, or that the joint belongs to; the opening that was covered; the thing that is wanted.</summary>
    public string? Part { get; init; }
    /// <summary>What it was, or was not, in the way of, or what the thing that is wanted belongs to; null when that was not said.</summary>
    public string? Of { get; init; }
    /// <summary>What went into an opening, or came out of it: “rag”, “cap”.</summary>
    public string? Cover { get; init; }
    public Position? At { get; init; }
    /// <summary>Where the fasteners were put: “2” for tray 2, “bag 3” for anything else.</summary>
    public string? Tray { get; init; }
    public bool Captive { get; init; }
    public bool LeftHand { get; init; }
    public bool OneTime { get; init; }
    public bool Broken { get; init; }
    public bool Seized { get; init; }
    public bool Sealed { get; init; }
    public Torque? Torque { get; init; }
    public string? Tool { get; init; }
    public SupplyKind? Supply { get; init; }
    public string? Fluid { get; init; }
    public double? Volume_L { get; init; }
    /// <summary>The words that stand in no other field.</summary>
    public string? Note { get; init; }
    /// <summary>What has to be asked before the reading is sure; null when nothing has.</summary>
    public Question? Question { get; init; }
}
