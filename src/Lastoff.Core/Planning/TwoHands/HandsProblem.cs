using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>A round trip for two people: who does what and when, so that both are soonest through with the way out and then with the way back.</summary>
/// <remarks>
/// Both start alike, with the trip's first key. A step is its set-up and then its work, without a gap; in all that time its tool is in use and its
/// place taken. It begins when what it needs has ended; a set-up may fall into a wait that runs by itself. There is one of each tool: what
/// lies idle in one hand may be taken by the other, and the first is then bare-handed. Who waits stands aside. A step that moves the lift begins
/// when the other is idle, and the other begins nothing before that set-up is over. Nothing is done that neither a goal nor
/// something done already asks for, by whatever ways.
/// </remarks>
/// <param name="Trip">What can be done, and what each step takes. Its own set-ups are those of <paramref name="SetUp"/> for one person.</param>
/// <param name="Holds">For every key of the trip the tool in hand and the place.</param>
public sealed record HandsProblem(RoundTrip Trip, IReadOnlyList<Hold> Holds, HandsSetUp SetUp, Collisions Collisions)
{
    public IReadOnlyList<HandsProof> Proofs { get; init; } = [];

    public int Operations => Trip.Ways.Count;
}

/// <summary>A tool in hand, and where one stands.</summary>
public readonly record struct Hold(int Tool, Position At)
{
    /// <summary>The tool of who has none in hand. Everybody has it, and taking it costs nothing.</summary>
    public const int BareHand = 0;

    public bool IsUnderTheLift => At == Position.Below;
}

/// <summary>Ticks to take a tool, to change place, to move the lift; they add up. The lift is moved only when it is not where the step wants it.</summary>
public readonly record struct HandsSetUp(long Tool, long Place, long Lift);

/// <summary>A reading taken on the way back, bare of set-ups, from where one stands. Once owed, it is a step of its own for one of the two.</summary>
/// <remarks>Those that the same operations make owed, and that come before the same, are readings of one thing: they are taken one after the other, in their order.</remarks>
/// <param name="By">The operations any of which makes it owed. The trip counts its ticks with each of them, on the way back; a pair shares them.</param>
/// <param name="Awaits">What must be back before it, as far as it is undone.</param>
/// <param name="NeedsAll">It awaits everything else: the machine has to run for it.</param>
/// <param name="Before">What may come back only after it; the trip itself has what it awaits back before that.</param>
public sealed record HandsProof(OperationSet By, OperationSet Awaits, bool NeedsAll, long Ticks, OperationSet Before)
{
    /// <summary>Whether both are readings of one thing in one state, which are taken one after the other.</summary>
    public bool IsAlike(HandsProof other) => By == other.By && Before == other.Before;
}

/// <param name="Operation">An operation of the trip; a proof counts on from the last of them.</param>
/// <param name="Who">0 or 1.</param>
/// <param name="Start">Ticks from the start of this way, out or back, to the start of the set-up.</param>
public readonly record struct HandsStep(int Operation, int Way, int Who, long Start, long SetUp, long Work)
{
    public long End => Start + SetUp + Work;
}

/// <summary>A way out and a way back for two people, each in the order in which the steps begin.</summary>
/// <param name="LowerBound">No two people take fewer ticks, out and back together.</param>
/// <param name="OnePerson">The ticks of one person alone, by the same rules, in the best order known for one.</param>
/// <param name="Unproven">Why the search stopped before a proof, or null when no plan is quicker.</param>
public sealed record HandsSchedule(IReadOnlyList<HandsStep> Out, IReadOnlyList<HandsStep> Back, long LowerBound, long OnePerson, string? Unproven)
{
    public long Makespan => Length(Out) + Length(Back);

    public long PersonTicks => Out.Concat(Back).Sum(step => step.SetUp + step.Work);

    public static long Length(IReadOnlyList<HandsStep> steps) => steps.Select(step => step.End).DefaultIfEmpty(0).Max();
}
