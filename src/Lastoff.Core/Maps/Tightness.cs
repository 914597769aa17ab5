using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

/// <summary>What the map says about how a threaded joint is tightened, beside its torque. Whatever is not stated is null or empty.</summary>
public sealed record Tightness
{
    /// <summary>The property class or SAE grade marked on the heads.</summary>
    public Strength? Strength { get; init; }
    /// <summary>Length of full thread engaged.</summary>
    public double? Engaged_mm { get; init; }
    /// <summary>What it is screwed into; its strength is the map's own where that states one.</summary>
    public BossMaterial? Into { get; init; }
    /// <summary>The clamp force the joint needs.</summary>
    public double? Hold_N { get; init; }
    public StatedCondition? Condition { get; init; }
    public Friction? Friction { get; init; }
    public FastenerAction Fastener { get; init; } = FastenerAction.Plain;
    public HolePattern? Holes { get; init; }
    /// <summary>The maker's order where the map gives one, else the computed one; by place among the bolts.</summary>
    public IReadOnlyList<int> Order { get; init; } = [];
    /// <summary>The passes it is tightened in, each of which is recorded; none when it is simply made.</summary>
    public IReadOnlyList<Pass> Passes { get; init; } = [];
    /// <summary>The share of a bolt's rise that its neighbour loses, the one after it, and so on, as measured on this joint.</summary>
    public IReadOnlyList<double> Interaction { get; init; } = [];
}
