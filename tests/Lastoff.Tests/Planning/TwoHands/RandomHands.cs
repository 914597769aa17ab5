using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning.TwoHands;

/// <summary>Random problems for two people: alternatives, pairs, waits, readings, collisions, something done already.</summary>
internal static class RandomHands
{
    private static readonly Position[] Places = [Position.Front, Position.Above, Position.Below, Position.Left];

    public static Gen<HandsProblem> UpTo(int operations) => Gen.Byte.Array[0, 24 * operations].Select(bytes => Build(new Choices(bytes), operations));

    public static string Describe(HandsProblem problem) => string.Join('\n',
    [
        $"holds {string.Join(", ", problem.Holds)}; {problem.SetUp}; done {Set(problem.Trip.Start)}; goals {string.Join(' ', problem.Trip.Goals.Select(Set))}",
        .. problem.Trip.Ways.Select((ways, x) => $"{x}: {string.Join(" | ", ways.Select(way => $"out {way.Out} back {way.Back} hold {way.Key} needs {string.Join(' ', way.Needs.Select(Set))}"))}"),
        string.Join(' ', problem.Trip.Pairs),
        string.Join(' ', problem.Trip.Lags),
        string.Join(' ', problem.Proofs.Select(proof => $"proof of {Set(proof.By)} after {(proof.NeedsAll ? "all" : Set(proof.Awaits))} before {Set(proof.Before)}, {proof.Ticks}")),
    ]);

    private static string Set(OperationSet set) => $"({string.Join(',', set)})";

    private static HandsProblem Build(Choices choices, int operations)
    {
        var size = 2 + choices.Next(operations - 1);
        var setUp = new HandsSetUp(choices.Next(3), choices.Next(2), choices.Next(3));
        List<Hold> holds = [new Hold(Hold.BareHand, Position.Front)];
        for (var more = choices.Next(5); more > 0; more--)
        {
            holds.Add(new Hold(choices.Next(3), choices.Of(Places)));
        }

        var ways = new List<List<TripWay>>();
        var start = OperationSet.Empty(size);
        for (var x = 0; x < size; x++)
        {
            var own = new List<TripWay>();
            for (var w = choices.Next(3) / 2; w >= 0; w--)
            {
                var needs = Enumerable.Range(0, x == 0 ? 0 : choices.Next(3))
                    .Select(_ => OperationSet.Of(size, Enumerable.Range(0, 1 + choices.Next(2)).Select(_ => choices.Next(x))));
                own.Add(new TripWay([.. needs], choices.Next(5), choices.Next(5), choices.Next(holds.Count)));
            }

            ways.Add(own);
            if (choices.OneIn(6) && own.Any(way => way.Needs.All(need => need.Overlaps(start))))
            {
                start = start.With(x);
            }
        }

        // A wait is for something that every way needs.
        var lags = new List<TripLag>();
        for (var more = choices.Next(4); more > 0; more--)
        {
            var then = 1 + choices.Next(size - 1);
            var before = choices.Next(then);
            if (!start.Contains(then))
            {
                ways[then] = [.. ways[then].Select(way => way with { Needs = [.. way.Needs, OperationSet.Of(size, [before])] })];
                lags.Add(new TripLag(before, then, choices.Next(5), choices.Next(5)));
            }
        }

        var (pairs, proofs) = (new List<TripPair>(), new List<HandsProof>());
        if (choices.OneIn(2))
        {
            var then = 1 + choices.Next(size - 1);
            var pair = new TripPair(choices.Next(then), then, choices.Next(3), choices.Next(3));
            pairs.Add(pair);
            Cost(pair.First, pair.SharedOut, pair.SharedBack);
            Cost(pair.Then, pair.SharedOut, pair.SharedBack);
        }

        for (var more = choices.Next(3); more > 0; more--)
        {
            var (by, ticks) = (choices.Next(size), choices.Next(4));
            var of = pairs.Count > 0 && (pairs[0].First == by || pairs[0].Then == by) ? OperationSet.Of(size, [pairs[0].First, pairs[0].Then]) : OperationSet.Of(size, [by]);
            foreach (var x in of)
            {
                Cost(x, 0, ticks);
            }

            pairs = [.. pairs.Select(pair => of.Count == 2 ? pair with { SharedBack = pair.SharedBack + ticks } : pair)];
            // Taken before this is back again, when what rests on it is.
            var none = OperationSet.Empty(size);
            var resting = by + 1 < size ? by + 1 + choices.Next(size - by - 1) : by;
            if (of.Count == 2 || !choices.OneIn(3))
            {
                proofs.Add(new HandsProof(of, of.With(choices.Next(size)), choices.OneIn(3), ticks, none));
            }
            else if (resting == by || start.Contains(resting))
            {
                proofs.Add(new HandsProof(of, none, false, ticks, of));
            }
            else
            {
                ways[resting] = [.. ways[resting].Select(way => way with { Needs = [.. way.Needs, none.With(by)] })];
                proofs.Add(new HandsProof(of, none.With(resting), false, ticks, of));
            }
        }

        var goals = new[] { size - 1, choices.Next(size) }.Distinct().Select(x => OperationSet.Of(size, [x]));
        var trip = new RoundTrip([.. ways], [.. goals], start, SetUps(holds, setUp), 0) { Pairs = pairs, Lags = lags };
        var collisions = new Collisions([.. Enumerable.Range(0, choices.Next(3)).Select(_ => new PlacePair(choices.Of(Places), choices.Of(Places)))]);
        return new HandsProblem(trip, holds, setUp, collisions) { Proofs = proofs };

        void Cost(int x, long outward, long back) => ways[x] = [.. ways[x].Select(way => way with { Out = way.Out + outward, Back = way.Back + back })];
    }

    /// <summary>What the set-ups are for one person alone.</summary>
    private static long[,] SetUps(List<Hold> holds, HandsSetUp ticks)
    {
        var setUp = new long[holds.Count, holds.Count];
        for (var i = 0; i < setUp.Length; i++)
        {
            var (from, to) = (holds[i / holds.Count], holds[i % holds.Count]);
            setUp[i / holds.Count, i % holds.Count] = (to.Tool != from.Tool && to.Tool != Hold.BareHand ? ticks.Tool : 0)
                + (to.At != from.At ? ticks.Place : 0)
                + (to.IsUnderTheLift != from.IsUnderTheLift ? ticks.Lift : 0);
        }

        return setUp;
    }
}
