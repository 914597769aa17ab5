using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What a surprise did to the plan: what is still to do, before it and after it.</summary>
/// <param name="Why">What the surprise was, as a sentence without its full stop.</param>
/// <param name="Dropped">Moves that the plan had ahead and has no longer, though nobody made them.</param>
/// <param name="Added">Moves it has ahead now and had not before.</param>
/// <param name="OtherWay">Moves that are now made from another place or with another tool.</param>
/// <param name="IsReordered">Whether the moves out that stay come in another order.</param>
public sealed record PlanChange(
    string Why,
    double MinutesBefore,
    double MinutesAfter,
    IReadOnlyList<PlanStep> Dropped,
    IReadOnlyList<PlanStep> Added,
    IReadOnlyList<PlanStep> OtherWay,
    bool IsReordered)
{
    /// <summary>What of the minutes before somebody told, at joints that were stuck already.</summary>
    public double ToldBefore { get; init; }

    /// <summary>The same of the minutes after it.</summary>
    public double ToldAfter { get; init; }

    /// <summary>The same change by a workshop's own times, so many to a minute of the map's; what somebody told is taken as it is.</summary>
    /// <param name="factor">Above zero.</param>
    public PlanChange At(double factor) => this with
    {
        MinutesBefore = ((MinutesBefore - ToldBefore) * factor) + ToldBefore,
        MinutesAfter = ((MinutesAfter - ToldAfter) * factor) + ToldAfter,
    };

    /// <summary>Compares what the plan at hand had ahead with what the plan made after the surprise has ahead.</summary>
    public static PlanChange Between(string why, Standing before, Plan plan, Standing after, Plan next)
    {
        var (had, has) = (NextStep.MovesAhead(before, plan), NextStep.MovesAhead(after, next));
        var (hadOut, hasOut) = (Out(had).Select(PlanDifference.Key).ToHashSet(), Out(has).Select(PlanDifference.Key).ToHashSet());
        var difference = PlanDifference.Between(had, has);
        return new PlanChange(
            why,
            NextStep.MinutesAhead(before, plan),
            NextStep.MinutesAhead(after, next),
            [.. difference.Dropped.Where(step => !IsSo(after, step) && !ComesWithItsWayOut(step, hadOut))],
            [.. difference.Added.Where(step => !ComesWithItsWayOut(step, hasOut))],
            [.. Out(difference.OtherWay)],
            !Out(had).Select(PlanDifference.Key).Where(hasOut.Contains).SequenceEqual(Out(has).Select(PlanDifference.Key).Where(hadOut.Contains)))
        {
            ToldBefore = Told(before, had),
            ToldAfter = Told(after, has),
        };
    }

    /// <summary>The change after the last surprise in these entries; null when all went as planned, or no plan leads on from there.</summary>
    /// <param name="entries">The job's entries in the order in which they count.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static PlanChange? Last(OperationNet net, IReadOnlyList<Entry> entries, PlanLimits limits, CancellationToken ct = default)
    {
        (string Why, Standing Before, Plan Plan, Standing After)? last = null;
        Plan? plan = null;
        foreach (var (before, act, after) in Fold.Steps(net, entries))
        {
            // Only what moves the machine or changes the goal asks for the plan that was at hand.
            if (before.Opened is null || act is not (Moved or GoalAdded or BackIn or JointStuck))
            {
                continue;
            }

            plan = plan is not null && NextStep.Fits(before, plan) ? plan
                : (plan is null ? Planner.Make(before, GoalLeft.Of(before), limits, ct) : Planner.Remake(before, GoalLeft.Of(before), plan, limits, ct)).Plan;
            if (plan is not null && Surprise.Of(before, act, plan) is { } why && !IsHarmless(act, after, plan))
            {
                last = (why, before, plan, after);
            }
        }

        return last is var (said, was, had, stands) && Planner.Remake(stands, GoalLeft.Of(stands), had, limits, ct).Plan is { } now
            ? Between(said, was, had, stands, now)
            : null;
    }

    /// <summary>A move before its turn, after which the plan at hand leads on as it did.</summary>
    private static bool IsHarmless(Act act, Standing after, Plan plan) => act is Moved { Despite: null } && NextStep.Fits(after, plan);

    /// <summary>What changed and why, in a few sentences.</summary>
    public string Sentence => $"{Why}. {Way} {Minutes}";

    /// <summary>What is still to do, before and after.</summary>
    public string Minutes => $"{MinuteWords.Of(MinutesBefore)} still to do "
        + (Math.Abs(MinutesAfter - MinutesBefore) < 0.05 ? "as before." : $"becomes {MinuteWords.Of(MinutesAfter)}.");

    /// <summary>What of the way changed.</summary>
    public string Way
    {
        get
        {
            var changes = new (string Heading, string Few)[]
            {
                ("Now", PlanDifference.Few(OtherWay, PlanDifference.Way)),
                ("Now also", PlanDifference.Few(Added, PlanDifference.Move)),
                ("No longer", PlanDifference.Few(Dropped, PlanDifference.Move)),
            }.Where(change => change.Few.Length > 0).Select(change => $"{change.Heading}: {change.Few}.").ToList();
            return changes.Count > 0 ? string.Join(" ", changes) : IsReordered ? "The order changes." : "The way stays the same.";
        }
    }

    private static double Told(Standing standing, IEnumerable<PlanStep> ahead) => ahead.Where(step => step.Kind == StepKind.Undo)
        .Sum(step => standing.Stuck.LastOrDefault(stuck => stuck.Joint == step.Target && stuck is { With: null, IsClosed: false })?.ExtraMinutes ?? 0);

    private static IEnumerable<PlanStep> Out(IEnumerable<PlanStep> steps) => steps.Where(step => step.Kind <= StepKind.Cover);

    /// <summary>What goes out comes back; only the way out is told.</summary>
    private static bool ComesWithItsWayOut(PlanStep step, HashSet<(StepKind, string)> outward) =>
        step.Kind.AsMove() is { } move && move.IsBack() && outward.Contains((move.Operation().Out().AsStep(), step.Target));

    /// <summary>Whether the move has been made meanwhile.</summary>
    private static bool IsSo(Standing standing, PlanStep step) =>
        step.Kind.AsMove() is { } move && standing.IsDone(move.Operation(), step.Target) != move.IsBack();
}
