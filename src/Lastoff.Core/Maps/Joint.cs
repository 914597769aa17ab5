using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

public enum JointKind { Bolt, Nut, Stud, Screw, Connector, Hose, Pipe, Clip, Clamp, Tie, Face }

/// <summary>Anything undone to free a part: a fastener group, connector, hose, pipe, clip, clamp, tie, or a sealed or bonded face.</summary>
public sealed record Joint
{
    public required string Id { get; init; }
    public required string Name { get; init; }
    public required JointKind Kind { get; init; }
    public int Count { get; init; } = 1;
    /// <summary>The parts that cannot come away while this joint is made.</summary>
    public required IReadOnlyList<string> Holds { get; init; }
    /// <summary>The fastener stays in its part when undone: nothing to put in a tray.</summary>
    public bool Captive { get; init; }
    /// <summary>The fastener must be new on the way back.</summary>
    public bool OneTime { get; init; }
    /// <summary>Its faces must be clean and dry before it is made.</summary>
    public bool Clean { get; init; }
    public Position At { get; init; } = Position.Above;
    public Tool Tool { get; init; } = Tool.Hand;
    public string? Thread { get; init; }
    /// <summary>The maker's tightness, which outranks any computed one.</summary>
    public Torque? Torque { get; init; }
    /// <summary>How it is tightened, beside the torque; null when the map says nothing of it.</summary>
    public Tightness? Tighten { get; init; }
    /// <summary>Where its fasteners lay the last time, as it was said: “2” for tray 2, or “bag 3”; null when nobody told.</summary>
    public string? Tray { get; init; }
    public double UndoMinutes { get; init; }
    public double MakeMinutes { get; init; }
    /// <summary>How long it cures by itself once it is made, before the supplies it needs may be restored.</summary>
    public double CuresMinutes { get; init; }
    /// <summary>The supplies that must be safe before this joint is undone.</summary>
    public IReadOnlyList<string> Needs { get; init; } = [];
    public Reach Reach { get; init; } = Reach.Free;
    /// <summary>What may go wrong when it is undone; null when nothing is known to.</summary>
    public Risk? Risk { get; init; }
    public string? Caution { get; init; }
    /// <summary>What there is to tell of it that is no caution, each a sentence or some.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
    public int Line { get; init; }

    /// <summary>A bolt or the like, and no line, clip or face.</summary>
    public bool IsFastener => Kind is JointKind.Bolt or JointKind.Nut or JointKind.Stud or JointKind.Screw;

    /// <summary>It is screwed up, so somebody asks how tight: a fastener, what has a thread, and a hose or pipe with a union that takes a spanner.</summary>
    public bool IsThreaded => IsFastener || Thread is not null || (Kind is JointKind.Hose or JointKind.Pipe && Tool.Drive?.StartsWith("hex ", StringComparison.Ordinal) == true);

    /// <summary>The passes it is tightened in, each of which is recorded; none when it is simply made.</summary>
    public IReadOnlyList<Pass> Passes => Tighten?.Passes ?? [];

    /// <summary>What its bolts are called: by the holes where the map gives them, else by number.</summary>
    public IReadOnlyList<string> Bolts => Tighten?.Holes is { } pattern
        ? [.. pattern.Holes.Select(hole => hole.Name)]
        : [.. Enumerable.Range(1, Count).Select(number => $"{number}")];
}
