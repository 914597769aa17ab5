namespace Lastoff.Core.Joints;

public enum ThreadCondition { Dry, Oiled, ZincPlated, ThreadLocked }

/// <summary>How the threads go together, as somebody stated it; it is carried along with its source and never turned into another torque.</summary>
public sealed record StatedCondition(ThreadCondition Condition, string Source)
{
    /// <summary>
    /// The nut factor published for it, null where the published advice conflicts. Read in a fastener-coating newsletter; dry 0.20 and lubricated 0.15
    /// also in two fastener makers' tables.
    /// </summary>
    public double? NutFactor => Condition switch
    {
        ThreadCondition.Dry => 0.20,
        ThreadCondition.Oiled => 0.15,
        ThreadCondition.ZincPlated => 0.17,
        _ => null,
    };

    /// <summary>In two words, at a glance.</summary>
    public string Short => Condition switch
    {
        ThreadCondition.Dry => "dry threads",
        ThreadCondition.Oiled => "oil on the threads",
        ThreadCondition.ZincPlated => "zinc-plated, no oil",
        _ => "thread lock on it",
    };

    /// <summary>What the mechanic reads beside the figure.</summary>
    public string Sentence => Condition switch
    {
        ThreadCondition.Dry => $"Dry threads, as {Source} states; oil on them would stretch the bolt further at the same torque.",
        ThreadCondition.Oiled => $"Oiled threads, as {Source} states; dry threads would clamp less at the same torque.",
        ThreadCondition.ZincPlated => $"Zinc-plated threads without oil, as {Source} states.",
        _ => $"Thread-locked, as {Source} states; one published rule raises the torque by a tenth, another takes the wet adhesive for a lubricant, so the figure is left as it is: ask the maker.",
    };
}
