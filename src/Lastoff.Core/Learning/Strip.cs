using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Learning;

/// <summary>One strip as it was recorded: what was made safe, undone, laid aside and taken off, in that order.</summary>
/// <param name="Name">What the recording is called, for sentences about it.</param>
public sealed record Strip(string Name, IReadOnlyList<Removal> Removals)
{
    /// <summary>The openings that something came off of, and that were covered.</summary>
    public IReadOnlyList<SeenOpening> Openings { get; init; } = [];

    /// <summary>What was wanted new for something that came off or was undone.</summary>
    public IReadOnlyList<SeenRenewal> Renewals { get; init; } = [];

    /// <summary>What part of the trade's minutes its timed work took; null where nothing was timed.</summary>
    public double? Pace { get; init; }

    /// <summary>What was wanted new, and nothing said for what.</summary>
    public IReadOnlyList<string> Wanted { get; init; } = [];

    /// <summary>What was written down for the next time, of the job as a whole.</summary>
    public IReadOnlyList<string> Lessons { get; init; } = [];

    /// <summary>The way back that this recording shows to be safe: itself in reverse.</summary>
    public IEnumerable<Removal> Back => Removals.Reverse();
}

/// <summary>An opening, with the name of what laid it bare and with what it was covered.</summary>
public sealed record SeenOpening(string Name, string On, string Cover);

/// <summary>What was wanted new, with the name of what it is for.</summary>
public sealed record SeenRenewal(string Name, string For, RenewalKind Kind, int Count);

/// <summary>One thing that came off or was undone.</summary>
/// <param name="Name">What the recorder called it. Two removals of one sort and one name are of the same thing.</param>
public sealed record Removal(OperationKind Kind, string Name)
{
    /// <summary>What sort of joint was undone; of no meaning for anything else.</summary>
    public JointKind Joint { get; init; } = JointKind.Bolt;

    /// <summary>What sort of supply was made safe; of no meaning for anything else.</summary>
    public SupplyKind Supply { get; init; } = SupplyKind.Battery;
    public int Count { get; init; } = 1;
    public Tool Tool { get; init; } = Tool.Hand;
    public Position At { get; init; } = Position.Above;

    /// <summary>How long it took; null when it was not timed.</summary>
    public double? Minutes { get; init; }

    /// <summary>How long its way back took; null when that was not timed.</summary>
    public double? BackMinutes { get; init; }

    /// <summary>As a map writes it, “M8”; null when nobody said.</summary>
    public string? Thread { get; init; }

    /// <summary>As it was said or done up; null when nobody told.</summary>
    public Torque? Torque { get; init; }
    public bool Captive { get; init; }
    public bool OneTime { get; init; }

    /// <summary>Its faces must be clean and dry before it is made.</summary>
    public bool Clean { get; init; }

    /// <summary>What to heed at every machine of the sort, each a sentence or some.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>The lines that tell more of it than has a place here, as they were said.</summary>
    public IReadOnlyList<string> Told { get; init; } = [];

    /// <summary>What was written down about it for the next time.</summary>
    public IReadOnlyList<string> Lessons { get; init; } = [];

    /// <summary>Where it or its fasteners lay, “2” or “bag 3”; null when nobody told.</summary>
    public string? Tray { get; init; }

    /// <summary>A fluid that was let out.</summary>
    public bool Drained { get; init; }

    /// <summary>What of a fluid came out or went in again, whichever was more; null when nobody said.</summary>
    public double? Amount_L { get; init; }

    /// <summary>The fluid that it is the way out of, as a drain plug is; null for all else.</summary>
    public string? LetsOut { get; init; }

    /// <summary>The plugs that a fluid was let out by, as they were told.</summary>
    public IReadOnlyList<Removal> LetOutBy { get; init; } = [];

    /// <summary>What ran out by itself when it came off.</summary>
    public IReadOnlyList<RanOut> RanOut { get; init; } = [];

    /// <summary>Parts that went away on this one, fitted to it as they were.</summary>
    public IReadOnlyList<string> TookAlong { get; init; } = [];
    public Trouble? Trouble { get; init; }

    internal Sort Sort => Kind switch { OperationKind.MakeSafe => Sort.Supply, OperationKind.Undo => Sort.Joint, _ => Sort.Part };
}

public enum TroubleKind { Broke, Seized }

/// <summary>What went wrong with a thing when it was undone.</summary>
/// <param name="ExtraMinutes">What it took on top of the work; null when that was not timed.</param>
public sealed record Trouble(TroubleKind Kind, double? ExtraMinutes);

/// <summary>What a person says of an order, which outranks whatever the recordings show.</summary>
/// <param name="InTheWay">True: <paramref name="First"/> was in the way of <paramref name="Then"/>, or held it, or had to be safe for it. False: it was not.</param>
public sealed record Said(string First, string Then, bool InTheWay);

/// <summary>The three sorts of things that a map has operations for, and what else in it has an identifier.</summary>
internal enum Sort { Supply, Joint, Part, Opening, Renewal, Proof }
