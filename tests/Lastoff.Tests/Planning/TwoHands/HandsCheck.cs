using Lastoff.Core.Maps;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Tests.Planning.TwoHands;

/// <summary>Goes through a schedule against the rules, by its times alone; says what is wrong, or null.</summary>
internal static class HandsCheck
{
    public static string? Fault(HandsProblem problem, HandsSchedule plan) =>
        OutFault(problem, plan.Out) ?? BackFault(problem, plan.Out, plan.Back) ?? TimesFault(problem, plan.Out) ?? TimesFault(problem, plan.Back);

    private static string? OutFault(HandsProblem problem, IReadOnlyList<HandsStep> steps)
    {
        var trip = problem.Trip;
        foreach (var (at, step) in steps.Index())
        {
            var way = trip.Ways[step.Operation][step.Way];
            bool IsDone(int i) => trip.Start.Contains(i) || steps.Take(at).Any(other => other.Operation == i && other.End <= step.Start);
            bool IsBegun(int i) => trip.Start.Contains(i) || steps.Take(at).Any(other => other.Operation == i);
            var shared = trip.Pairs.Where(pair => pair.Then == step.Operation && IsBegun(pair.First)).Sum(pair => pair.SharedOut);
            if (IsBegun(step.Operation) || !way.Needs.All(need => need.Any(IsDone)) || step.Work != way.Out - shared)
            {
                return $"{step} is done twice, too early, or takes another time";
            }

            if (trip.Pairs.Any(pair => pair.First == step.Operation && IsBegun(pair.Then) || pair.Then == step.Operation && IsBegun(pair.First) && !IsDone(pair.First))
                || trip.Lags.Any(lag => lag.Then == step.Operation && steps.Any(other => other.Operation == lag.Before && step.Start + step.SetUp < other.End + lag.Out)))
            {
                return $"{step} comes out of turn in a pair, or before a wait is over";
            }
        }

        return trip.Goals.All(goal => goal.Any(i => trip.Start.Contains(i) || steps.Any(step => step.Operation == i))) ? null : "a goal is not met";
    }

    private static string? BackFault(HandsProblem problem, IReadOnlyList<HandsStep> outward, IReadOnlyList<HandsStep> steps)
    {
        var trip = problem.Trip;
        var undone = trip.Start.Concat(outward.Select(step => step.Operation)).ToHashSet();
        var owed = Enumerable.Range(0, problem.Proofs.Count).Where(p => problem.Proofs[p].By.Any(undone.Contains)).Select(p => trip.Ways.Count + p).ToList();
        if (!steps.Select(step => step.Operation).Order().SequenceEqual(undone.Concat(owed).Order()))
        {
            return "not all that is undone is reversed once, or a proof is missing";
        }

        foreach (var (at, step) in steps.Index())
        {
            // What begins later, and not before this has ended.
            bool StaysUndone(int i) => steps.Skip(at + 1).Any(other => other.Operation == i && other.Start >= step.End);
            bool IsBack(int i) => !undone.Contains(i) && i < trip.Ways.Count || steps.Take(at).Any(other => other.Operation == i && other.End <= step.Start);
            if (step.Operation >= trip.Ways.Count)
            {
                var proof = problem.Proofs[step.Operation - trip.Ways.Count];
                var awaited = proof.NeedsAll
                    ? Enumerable.Range(0, trip.Ways.Count).Concat(owed.Where(q => !problem.Proofs[q - trip.Ways.Count].NeedsAll))
                    : proof.Awaits.Concat(owed.Where(q => q < step.Operation && !problem.Proofs[q - trip.Ways.Count].NeedsAll && problem.Proofs[q - trip.Ways.Count].By == proof.By && problem.Proofs[q - trip.Ways.Count].Before == proof.Before));
                if (step.Work != proof.Ticks || !awaited.All(IsBack))
                {
                    return $"proof {step} is taken too early, or takes another time";
                }

                continue;
            }

            if (!owed.Where(q => problem.Proofs[q - trip.Ways.Count].Before.Contains(step.Operation)).All(IsBack))
            {
                return $"{step} is back before a proof that must come first";
            }

            var way = trip.Ways[step.Operation][step.Way];
            var counted = problem.Proofs.Where(proof => proof.By.Contains(step.Operation)).Sum(proof => proof.Ticks);
            var shared = trip.Pairs.Where(pair => pair.Then == step.Operation && undone.Contains(pair.First)).Sum(pair =>
                pair.SharedBack - problem.Proofs.Where(proof => proof.By.Contains(pair.First) && proof.By.Contains(pair.Then)).Sum(proof => proof.Ticks));
            if (!way.Needs.All(need => need.Any(StaysUndone)) || step.Work != way.Back - counted - shared)
            {
                return $"{step} loses what it needs before it has ended, or takes another time";
            }

            if (trip.Pairs.Any(pair => pair.First == step.Operation && !IsBack(pair.Then))
                || trip.Lags.Any(lag => lag.Before == step.Operation && steps.Any(other => other.Operation == lag.Then && step.Start + step.SetUp < other.End + lag.Back)))
            {
                return $"{step} comes out of turn in a pair, or before a wait is over";
            }
        }

        return null;
    }

    /// <summary>Set-ups as they must be, nobody at two things at once, nobody in the other's way.</summary>
    private static string? TimesFault(HandsProblem problem, IReadOnlyList<HandsStep> steps)
    {
        var start = problem.Holds[problem.Trip.StartKey];
        var at = new[] { start.At, start.At };
        var tool = new[] { start.Tool, start.Tool };
        var liftIsUp = start.At == Position.Below;
        Hold? Of(HandsStep step) => step.Operation < problem.Trip.Ways.Count ? problem.Holds[problem.Trip.Ways[step.Operation][step.Way].Key] : null;
        foreach (var (i, step) in steps.Index())
        {
            if (i > 0 && step.Start < steps[i - 1].Start || steps.Take(i).Any(other => other.Who == step.Who && other.End > step.Start))
            {
                return $"{step} begins out of order, or while the same person is at work";
            }

            var setUp = 0L;
            if (Of(step) is { } hold)
            {
                var movesLift = (hold.At == Position.Below) != liftIsUp;
                setUp = (hold.Tool != 0 && tool[step.Who] != hold.Tool ? problem.SetUp.Tool : 0)
                    + (at[step.Who] != hold.At ? problem.SetUp.Place : 0)
                    + (movesLift ? problem.SetUp.Lift : 0);
                foreach (var other in steps.Where((other, j) => j != i && other.Start < step.End && step.Start < other.End && other.Who != step.Who))
                {
                    if (Of(other) is { } theirs && (hold.Tool != 0 && theirs.Tool == hold.Tool || problem.Collisions.Between(hold.At, theirs.At)))
                    {
                        return $"{step} and {other} are in each other's way";
                    }

                    if (movesLift && other.Start < step.Start + step.SetUp)
                    {
                        return $"the lift moves for {step} beside {other}";
                    }
                }

                (at[step.Who], tool[step.Who], liftIsUp) = (hold.At, hold.Tool, hold.At == Position.Below);
                tool[1 - step.Who] = tool[1 - step.Who] == hold.Tool ? 0 : tool[1 - step.Who];
            }

            if (setUp != step.SetUp)
            {
                return $"the set-up of {step} should be {setUp}";
            }
        }

        return null;
    }
}
