namespace Lastoff.Core.Maps;

/// <summary>Something that can be fitted, loose, aside (moved out of the way, still attached) or off.</summary>
public sealed record Part
{
    public required string Id { get; init; }
    public required string Name { get; init; }
    public Position At { get; init; } = Position.Above;
    public Tool Tool { get; init; } = Tool.Hand;
    public double OffMinutes { get; init; }
    public double OnMinutes { get; init; }
    /// <summary>Supplies that must be safe before it comes away: what runs out behind it, although no joint holds it.</summary>
    public IReadOnlyList<string> Needs { get; init; } = [];
    public Reach Reach { get; init; } = Reach.Free;
    /// <summary>How the part can be moved out of the way while some of its joints stay made; null when it cannot.</summary>
    public Aside? Aside { get; init; }
    /// <summary>The part this one is carried by: when that one comes off, this one goes with it.</summary>
    public string? RidesOn { get; init; }
    public string? Caution { get; init; }
    /// <summary>What there is to tell of it that is no caution, each a sentence or some.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
    public int Line { get; init; }
}

/// <summary>A part laid aside keeps the joints it <paramref name="Leaves"/> made.</summary>
public sealed record Aside(IReadOnlyList<string> Leaves, double AsideMinutes, double HomeMinutes);
