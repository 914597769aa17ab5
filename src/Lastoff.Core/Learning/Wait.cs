namespace Lastoff.Core.Learning;

/// <summary>One thing that waits for another in the learned map.</summary>
/// <param name="First">The name of what comes first.</param>
/// <param name="Then">The name of what waits for it.</param>
/// <param name="Times">How many strips kept this order, out of as many in which <paramref name="Then"/> came off this way.</param>
/// <param name="Sure">How sure it is, from 0 to 1, that the order is necessary and no chance; 1 when a person said so.</param>
public sealed record Wait(string First, string Then, int Times, double Sure)
{
    /// <summary>Below this a wait is in doubt and is named.</summary>
    public const double SureEnough = 0.95;

    public bool IsInDoubt => Sure < SureEnough;

    /// <summary>How many strips had both.</summary>
    public int Of { get; init; } = Times;

    /// <summary>A word about it is worth asking for: it was told so and otherwise, or one strip alone shows it and nothing else has the part come off.</summary>
    public bool IsAsked { get; init; }
}
