using System.Numerics;

namespace Lastoff.Core.Planning;

/// <summary>One direction seen as stays at places: in a stay tools are taken up one after another, and a tool may be carried over to the next stay.</summary>
/// <remarks>
/// Only the landmarks and the order forced among them count, and only set-ups: taking up a tool (always the same ticks; the bare hand is free),
/// going to another place. The landmarks are numbered anew from 0.
/// </remarks>
internal sealed class StayProblem
{
    public const int Hand = 0;
    private const int MostUses = 128;

    private StayProblem(int landmarks, int tools, int places)
    {
        Words = Math.Max(1, (landmarks + 63) / 64);
        Tools = tools;
        Places = places;
        All = new ulong[Words];
        Sole = new ulong[Words];
        Needs = new ulong[landmarks][];
        At = new StayUse[places][];
        With = new StayUse[tools][];
        Operations = new int[landmarks][];
        for (var i = 0; i < landmarks; i++)
        {
            Bits.Add(All, i);
        }
    }

    public int Words { get; }
    public int Tools { get; }
    public int Places { get; }
    /// <summary>The operations in the trip behind each landmark; one of them has to be done.</summary>
    public int[][] Operations { get; private set; }
    public ulong[] All { get; }
    /// <summary>Landmarks that only one tool at one place can do.</summary>
    public ulong[] Sole { get; }
    public ulong[][] Needs { get; }
    /// <summary>What can be done at each place, the bare hand first.</summary>
    public StayUse[][] At { get; }
    /// <summary>What can be done with each tool.</summary>
    public StayUse[][] With { get; }
    /// <summary>Every tool at every place where it has work, by number; the bare hand left out.</summary>
    public IReadOnlyList<StayUse> Uses { get; private set; } = [];
    public required Func<int, int> ToolOf { get; init; }
    public required Func<int, int> PlaceOf { get; init; }
    /// <summary>Ticks to take up a tool.</summary>
    public long Take { get; private init; }
    /// <summary>Ticks to go from one place to another.</summary>
    public required long[,] Go { get; init; }
    /// <summary>Where it begins, or -1 for anywhere.</summary>
    public int Start { get; private init; }
    /// <summary>Where it must end, or -1 for anywhere.</summary>
    public int End { get; private init; }

    /// <summary>The problem in this form, or null when its set-ups are not of this kind.</summary>
    public static StayProblem? Of(OneWay problem, Landmarks landmarks)
    {
        if (!problem.Triangle || problem.SetUpParts is not [var tools, var places] || HandOf(problem, tools) is not { } hand)
        {
            return null;
        }

        var passed = new StayLandmarks(problem, landmarks);
        var found = new StayProblem(passed.Operations.Length, tools.Change.GetLength(0), places.Change.GetLength(0))
        {
            Take = tools.Change.Cast<long>().Max(),
            Go = places.Change,
            ToolOf = key => tools.ClassOf[key] == hand ? Hand : tools.ClassOf[key] < hand ? tools.ClassOf[key] + 1 : tools.ClassOf[key],
            PlaceOf = key => places.ClassOf[key],
            Start = problem.StartKey == OneWay.AnyKey ? -1 : places.ClassOf[problem.StartKey],
            End = problem.EndKey == OneWay.AnyKey ? -1 : places.ClassOf[problem.EndKey],
        };
        found.Fill(problem, passed);
        return found.Uses.Count <= MostUses ? found : null;
    }

    /// <summary>Some steps of an order that follow each other, in this form: what may come before what among them, so that any such order can take their place.</summary>
    /// <param name="done">What is done before them.</param>
    /// <param name="start">The place of the step before them, or -1; and <paramref name="end"/> of the one after them.</param>
    public StayProblem Part(OneWay problem, IReadOnlyList<(OneWayStep Step, OneWayWay Way)> steps, ulong[] done, int start, int end)
    {
        var part = new StayProblem(steps.Count, Tools, Places) { Take = Take, Go = Go, ToolOf = ToolOf, PlaceOf = PlaceOf, Start = start, End = end };
        var work = new ulong[Tools, Places][];
        foreach (var (i, (step, way)) in steps.Index())
        {
            part.Operations[i] = [step.Operation];
            part.Needs[i] = new ulong[part.Words];
            var earlier = steps.Take(i).Index();
            foreach (var (before, _) in earlier.Where(one => Bits.Has(way.Must, one.Item.Step.Operation) || problem.PairedFirst[step.Operation] == one.Item.Step.Operation))
            {
                Bits.Add(part.Needs[i], before);
            }

            // Of several that would do, the one that came first goes on being the one.
            foreach (var set in way.OneOf.Where(set => !Bits.Overlap(set, done)))
            {
                Bits.Add(part.Needs[i], earlier.First(one => Bits.Has(set, one.Item.Step.Operation)).Index);
            }

            Bits.Add(work[ToolOf(way.Key), PlaceOf(way.Key)] ??= new ulong[part.Words], i);
            Bits.Add(part.Sole, i);
        }

        part.CloseNeeds();
        part.Fill(work);
        return part;
    }

    /// <summary>All of it that a search asks for, in one row: equal rows, equal problems. Which operation stands behind a landmark is not part of it, nor what costs the same for a whole trip.</summary>
    public ulong[] Contents() =>
    [
        (ulong)Needs.Length, (ulong)(Start + 1), (ulong)(End + 1), .. Sole, .. Needs.SelectMany(needs => needs),
        .. At.SelectMany(uses => uses).SelectMany(use => (ulong[])[(ulong)use.Tool, (ulong)use.Place, .. use.Work]),
    ];

    public bool IsLeft(ReadOnlySpan<ulong> done, ReadOnlySpan<ulong> work) => !Bits.IsSubset(work, done);

    public bool IsAvailable(int landmark, ReadOnlySpan<ulong> done) => Bits.IsSubset(Needs[landmark], done);

    /// <summary>Whether any of some work can be done now.</summary>
    public bool IsAnyAvailable(ReadOnlySpan<ulong> done, ulong[] work)
    {
        for (var word = 0; word < work.Length; word++)
        {
            for (var rest = work[word] & ~done[word]; rest != 0; rest &= rest - 1)
            {
                if (IsAvailable((word << 6) + BitOperations.TrailingZeroCount(rest), done))
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Does all of some work that can be done; returns whether that was anything.</summary>
    public bool Do(Span<ulong> done, ulong[] work, StayOrder? order = null)
    {
        var any = false;
        for (var moved = true; moved;)
        {
            moved = false;
            for (var word = 0; word < Words; word++)
            {
                for (var rest = work[word] & ~done[word]; rest != 0; rest &= rest - 1)
                {
                    var i = (word << 6) + BitOperations.TrailingZeroCount(rest);
                    if (IsAvailable(i, done))
                    {
                        Bits.Add(done, i);
                        order?.Add(i);
                        any = moved = true;
                    }
                }
            }
        }

        return any;
    }

    /// <summary>Whether one more use does all that is left of this work, and some of it can be done in no other way. Then this use is needed, and best made at once.</summary>
    public bool IsLastUse(ReadOnlySpan<ulong> done, ulong[] work)
    {
        var sole = 0UL;
        for (var word = 0; word < work.Length; word++)
        {
            var left = work[word] & ~done[word];
            sole |= left & Sole[word];
            for (var rest = left; rest != 0; rest &= rest - 1)
            {
                // Nothing needs itself in the end, so what needs only what is done or is of this use can all be done in some order.
                var needs = Needs[(word << 6) + BitOperations.TrailingZeroCount(rest)];
                for (var i = 0; i < needs.Length; i++)
                {
                    if ((needs[i] & ~(done[i] | work[i])) != 0)
                    {
                        return false;
                    }
                }
            }
        }

        return sole != 0;
    }

    /// <summary>The class of the bare hand: nothing is paid to change to it, and from it the same is paid for every tool. Read backwards, the other way round.</summary>
    private static int? HandOf(OneWay problem, SetUpPart tools)
    {
        var outward = problem.EndKey == OneWay.AnyKey;
        var hand = tools.ClassOf[outward ? problem.StartKey : problem.EndKey];
        var take = tools.Change.Cast<long>().Max();
        for (var a = 0; a < tools.Change.GetLength(0); a++)
        {
            for (var b = 0; b < tools.Change.GetLength(0); b++)
            {
                if (tools.Change[a, b] != (a == b || (outward ? b : a) == hand ? 0 : take))
                {
                    return null;
                }
            }
        }

        return hand;
    }

    private void Fill(OneWay problem, StayLandmarks landmarks)
    {
        Operations = landmarks.Operations;
        var work = new ulong[Tools, Places][];
        foreach (var (landmark, operations) in Operations.Index())
        {
            Needs[landmark] = new ulong[Words];
            foreach (var before in landmarks.Before[landmark])
            {
                Bits.Add(Needs[landmark], before);
            }

            if (operations is [var then] && Array.FindIndex(Operations, other => other is [var first] && first == problem.PairedFirst[then]) is >= 0 and var paired)
            {
                Bits.Add(Needs[landmark], paired);
            }

            int[] keys = [.. operations.SelectMany(operation => problem.Ways[operation]).Select(way => way.Key).Distinct()];
            foreach (var key in keys)
            {
                Bits.Add(work[ToolOf(key), PlaceOf(key)] ??= new ulong[Words], landmark);
            }

            if (keys.Length == 1)
            {
                Bits.Add(Sole, landmark);
            }
        }

        CloseNeeds();
        Fill(work);
    }

    /// <summary>What a need needs is needed too: without that, a pair would be missing from what rests on its second.</summary>
    private void CloseNeeds()
    {
        for (var moved = true; moved;)
        {
            moved = false;
            foreach (var needs in Needs)
            {
                var had = Bits.Count(needs);
                for (var before = Bits.Next(needs, 0); before >= 0; before = Bits.Next(needs, before + 1))
                {
                    Bits.AddAll(needs, Needs[before]);
                }

                moved |= Bits.Count(needs) > had;
            }
        }
    }

    private void Fill(ulong[,][] work)
    {
        var uses = new List<StayUse>();
        for (var tool = 0; tool < Tools; tool++)
        {
            for (var place = 0; place < Places; place++)
            {
                if (work[tool, place] is { } own)
                {
                    uses.Add(new StayUse(tool, place, tool == Hand ? -1 : uses.Count(use => use.Tool != Hand), own));
                }
            }
        }

        for (var place = 0; place < Places; place++)
        {
            At[place] = [.. uses.Where(use => use.Place == place)];
        }

        for (var tool = 0; tool < Tools; tool++)
        {
            With[tool] = [.. uses.Where(use => use.Tool == tool)];
        }

        Uses = [.. uses.Where(use => use.Tool != Hand)];
    }
}

/// <summary>A tool, or the bare hand, at a place where it has work.</summary>
/// <param name="Number">Its number among those that are not the bare hand's; -1 for the bare hand.</param>
internal sealed record StayUse(int Tool, int Place, int Number, ulong[] Work);
