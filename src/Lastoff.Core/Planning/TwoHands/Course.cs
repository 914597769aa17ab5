using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>One direction of a trip for two people, compiled for the search.</summary>
/// <remarks>
/// The set of a state is, on the way out, what is done or begun; on the way back, what is undone and not begun. A proof is an operation of the way
/// back only, and all that it awaits needs it: read backwards, that is what is reversed before it.
/// </remarks>
internal sealed class Course
{
    private Course(HandsProblem problem, bool isOut, int size)
    {
        Problem = problem;
        IsOut = isOut;
        Size = size;
        Words = (size + 63) / 64;
        Start = new ulong[Words];
        Members = new ulong[Words];
        Forced = new ulong[Words];
        Ways = new CourseWay[size][];
        Array.Fill(Ways, []);
        FirstOf = new int[size];
        ThenOf = new int[size];
        Array.Fill(FirstOf, -1);
        Array.Fill(ThenOf, -1);
        Shared = new long[size];
    }

    public HandsProblem Problem { get; }
    public bool IsOut { get; }
    public int Size { get; }
    public int Words { get; }
    /// <summary>The set of the first state.</summary>
    public ulong[] Start { get; }
    /// <summary>What may be begun.</summary>
    public ulong[] Members { get; }
    /// <summary>What is begun on every such course.</summary>
    public ulong[] Forced { get; }
    public CourseWay[][] Ways { get; }
    /// <summary>Of a pair, for the second its first, or -1.</summary>
    public int[] FirstOf { get; }
    /// <summary>Of a pair, for the first its second, or -1.</summary>
    public int[] ThenOf { get; }
    /// <summary>What the second of a pair takes less when the first is undone as well.</summary>
    public long[] Shared { get; }
    public CourseLag[] Lags { get; private set; } = [];
    /// <summary>For every member what must have ended before it, whichever way is taken.</summary>
    public ulong[][] Before { get; private set; } = [];
    private ulong[][] Goals { get; set; } = [];

    /// <summary>The way out with these operations at most, or null when the goals cannot be met with them.</summary>
    public static Course? Out(HandsProblem problem, OperationSet allowed, IEnumerable<OperationSet> goals)
    {
        var trip = problem.Trip;
        var course = new Course(problem, true, problem.Operations);
        course.AddAll(course.Start, trip.Start);
        course.FillPairs();
        for (var i = 0; i < course.Size; i++)
        {
            course.Ways[i] = [.. trip.Ways[i].Select((way, at) => new CourseWay(at, problem.Holds[way.Key], way.Out, [.. way.Needs.Select(course.Pack)]))];
        }

        course.AddAll(course.Members, allowed.Except(trip.Start));
        course.KeepPossible();
        var asked = goals.Select(course.Pack).ToList();
        course.Goals = [.. asked.Where(goal => !Bits.Overlap(goal, course.Start))];
        if (!course.Goals.All(goal => Bits.Overlap(goal, course.Members)))
        {
            return null;
        }

        course.KeepWanted(asked);
        course.Lags = [.. trip.Lags.Where(lag => lag.Out > 0 && !trip.Start.Contains(lag.Before)).Select(lag => new CourseLag(lag.Before, lag.Then, lag.Out))];
        var before = MustBefore.Of(course);
        foreach (var goal in course.Goals)
        {
            Bits.AddAll(course.Forced, MustBefore.OfAny(course, before, goal));
        }

        course.Before = MustBefore.WithPairs(course, before);
        return course;
    }

    /// <summary>The way back from at most this much undone.</summary>
    /// <param name="sure">What is undone for certain; all of it when the course is to be searched and not only bounded.</param>
    public static Course Back(HandsProblem problem, OperationSet undone, OperationSet sure)
    {
        var trip = problem.Trip;
        var course = new Course(problem, false, problem.Operations + problem.Proofs.Count);
        course.FillPairs();
        course.AddAll(course.Members, undone);
        course.AddAll(course.Forced, sure);
        var owed = Enumerable.Range(0, problem.Proofs.Count).Where(p => problem.Proofs[p].By.Overlaps(sure)).ToList();
        var free = OutOfOrder(problem, undone, sure);
        foreach (var i in undone)
        {
            var proofs = owed.Where(p => problem.Proofs[p].NeedsAll || problem.Proofs[p].Awaits.Contains(i)).Select(p => course.One(problem.Operations + p)).ToList();
            var counted = problem.Proofs.Where(proof => proof.By.Contains(i)).Sum(proof => proof.Ticks);
            course.Ways[i] = [.. trip.Ways[i].Select((way, at) => new CourseWay(
                at, problem.Holds[way.Key], way.Back - counted, [.. free.Contains(i) ? [] : way.Needs.Select(need => course.Pack(need.Except(free).Intersect(undone))), .. proofs]))
                .Where(way => way.Needs.All(need => Bits.Count(need) > 0))];
        }

        foreach (var p in owed)
        {
            Bits.Add(course.Members, problem.Operations + p);
            Bits.Add(course.Forced, problem.Operations + p);
            // The machine runs for one reading at a time, and when every other has been taken; of one thing too one reading is taken at a time.
            var later = owed.Where(q => problem.Proofs[q].NeedsAll ? !problem.Proofs[p].NeedsAll || q > p : q > p && !problem.Proofs[p].NeedsAll && problem.Proofs[q].IsAlike(problem.Proofs[p]));
            var filled = problem.Proofs[p].Before.Intersect(undone);
            course.Ways[problem.Operations + p] = [new CourseWay(0, null, problem.Proofs[p].Ticks, [.. later.Select(q => course.One(problem.Operations + q)), .. filled.Select(course.One)])];
        }

        course.Lags = [.. trip.Lags.Where(lag => lag.Back > 0 && undone.Contains(lag.Then)).Select(lag => new CourseLag(lag.Then, lag.Before, lag.Back))];
        course.Before = MustBefore.Turned(course, MustBefore.WithPairs(course, MustBefore.Of(course)));
        Bits.AddAll(course.Start, course.Members);
        return course;
    }

    /// <summary>What remains to be begun, out of what is begun on every course.</summary>
    public ulong Left(int word, ulong[] set) => IsOut ? Forced[word] & ~set[word] : Forced[word] & set[word];

    public bool IsMet(ulong[] set)
    {
        foreach (var goal in Goals)
        {
            if (!Bits.Overlap(goal, set))
            {
                return false;
            }
        }

        return IsOut || Bits.Count(set) == 0;
    }

    /// <summary>The ticks of the work itself, with this set at hand before it begins.</summary>
    public long Work(int operation, CourseWay way, ulong[] set) =>
        FirstOf[operation] >= 0 && Bits.Has(set, FirstOf[operation]) ? way.Work - Shared[operation] : way.Work;

    /// <summary>The least that the operation can take.</summary>
    public long LeastWork(int operation)
    {
        var least = long.MaxValue;
        foreach (var way in Ways[operation])
        {
            least = Math.Min(least, way.Work);
        }

        var first = FirstOf[operation];
        return first >= 0 && (Bits.Has(Members, first) || Bits.Has(Start, first)) ? least - Shared[operation] : least;
    }

    public static bool IsOpen(CourseWay way, ulong[] done)
    {
        foreach (var need in way.Needs)
        {
            if (!Bits.Overlap(need, done))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>
    /// What was done against the map: it needs nothing, and nothing that was done in order rests on it. Where it is not yet known what all is undone,
    /// and something was done against the map, nothing is taken to rest on anything.
    /// </summary>
    private static OperationSet OutOfOrder(HandsProblem problem, OperationSet undone, OperationSet sure)
    {
        var trip = problem.Trip;
        if (undone == sure)
        {
            return undone.Except(InOrder(undone));
        }

        return InOrder(trip.Start) == trip.Start ? OperationSet.Empty(problem.Operations) : undone;

        OperationSet InOrder(OperationSet set) => OperationSet.Of(problem.Operations, TripOrder.Legal(trip, set).Select(step => step.Operation));
    }

    private void FillPairs()
    {
        foreach (var pair in Problem.Trip.Pairs)
        {
            FirstOf[pair.Then] = pair.First;
            ThenOf[pair.First] = pair.Then;
            Shared[pair.Then] = IsOut
                ? pair.SharedOut
                : pair.SharedBack - Problem.Proofs.Where(proof => proof.By.Contains(pair.First) && proof.By.Contains(pair.Then)).Sum(proof => proof.Ticks);
        }
    }

    private void KeepPossible()
    {
        var done = (ulong[])Start.Clone();
        for (var before = -1; before != Bits.Count(done);)
        {
            before = Bits.Count(done);
            for (var i = Bits.Next(Members, 0); i >= 0; i = Bits.Next(Members, i + 1))
            {
                var isBarred = ThenOf[i] >= 0 && Bits.Has(Start, ThenOf[i]);
                if (!isBarred && Array.Exists(Ways[i], way => IsOpen(way, done)))
                {
                    Bits.Add(done, i);
                }
            }
        }

        Bits.KeepOnly(Members, done);
    }

    /// <summary>Leaves out what neither a goal nor the way back of what is done could want, and ways that can never be open.</summary>
    private void KeepWanted(IEnumerable<ulong[]> goals)
    {
        var wanted = new ulong[Words];
        var waiting = new Stack<ulong[]>([.. goals, Start]);
        while (waiting.TryPop(out var set))
        {
            for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
            {
                if (!Bits.Has(wanted, i))
                {
                    Bits.Add(wanted, i);
                    foreach (var need in Ways[i].SelectMany(way => way.Needs))
                    {
                        waiting.Push(need);
                    }
                }
            }
        }

        Bits.KeepOnly(Members, wanted);
        for (var i = 0; i < Size; i++)
        {
            Ways[i] = Bits.Has(Members, i) ? [.. Ways[i].Where(way => way.Needs.All(need => Bits.Overlap(need, Members) || Bits.Overlap(need, Start)))] : [];
        }
    }

    private ulong[] Pack(OperationSet set)
    {
        var words = new ulong[Words];
        AddAll(words, set);
        return words;
    }

    private ulong[] One(int operation)
    {
        var words = new ulong[Words];
        Bits.Add(words, operation);
        return words;
    }

    private void AddAll(ulong[] words, OperationSet set)
    {
        foreach (var member in set)
        {
            Bits.Add(words, member);
        }
    }
}

/// <param name="Index">Its place among the ways of its operation.</param>
/// <param name="Hold">Null for a proof: as one stands.</param>
/// <param name="Needs">Of every set something must be undone: on the way out before the work, on the way back until it has ended.</param>
internal sealed record CourseWay(int Index, Hold? Hold, long Work, ulong[][] Needs);

/// <summary>The work of one begins at least so long after the other has ended.</summary>
internal readonly record struct CourseLag(int From, int To, long Ticks);
