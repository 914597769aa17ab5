using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Estimating;

/// <summary>What the pieces of work of a job took, by the time marks of whoever did them.</summary>
/// <remarks>
/// What takes no minutes of its own on the map (a renewal, a clean face, a last look, a torque pass) is no mark: its time is part of the work that it belongs to, as it is in a plan.
/// Not timed is a joint that would not come undone, and work before which something may have had to run by itself.
/// </remarks>
public sealed class TimedJob
{
    /// <summary>The spread of single pieces of work before anything was timed: the standard deviation of the logarithm. Set down, no source.</summary>
    private const double WorkSpread = 0.45;

    private readonly OperationNet _net;
    private readonly string _job;
    private readonly ILookup<int, TripLag> _lagsOut;
    private readonly ILookup<int, TripLag> _lagsBack;
    private readonly Dictionary<string, Hand> _hands = [];
    private readonly Dictionary<int, DateTimeOffset> _ended = [];
    private readonly HashSet<string> _stuck = [];
    private OperationSet _done;

    private TimedJob(OperationNet net, string job)
    {
        (_net, _job, _done) = (net, job, net.Nothing);
        var lags = MapTrip.Lags(net);
        _lagsOut = lags.ToLookup(lag => lag.Then);
        _lagsBack = lags.ToLookup(lag => lag.Before);
    }

    /// <param name="entries">The entries of one job that stands on this map, in any order.</param>
    public static IReadOnlyList<TimedWork> Of(OperationNet net, IEnumerable<Entry> entries) => Of(net, EntryOrder.Of(entries), isRecorded: false);

    /// <param name="entries">The entries of one job without a map, in any order.</param>
    public static IReadOnlyList<TimedWork> OfRecording(IEnumerable<Entry> entries)
    {
        var ordered = EntryOrder.Of(entries);
        return Of(OperationNet.From(RecordedMap.Of(ordered)), ordered, isRecorded: true);
    }

    /// <summary>How long everybody together worked on a job, pauses left out: what was timed and what was not.</summary>
    public static double WorkedMinutes(Job job) => Read(job.Net, job.Entries, job.IsRecorded)._hands.Values.Sum(hand => hand.Worked());

    /// <summary>What everybody worked at, pauses left out, with what the map says it takes; also a joint that would not come undone, but nothing before which something may have had to run by itself.</summary>
    public static IReadOnlyList<TimedStep> Steps(Job job) =>
        [.. Read(job.Net, job.Entries, job.IsRecorded)._hands.Values.SelectMany(hand => hand.Timed(timing => timing != Timing.Waited))];

    private static IReadOnlyList<TimedWork> Of(OperationNet net, IReadOnlyList<Entry> ordered, bool isRecorded) =>
        [.. Read(net, ordered, isRecorded)._hands.Values.SelectMany(hand => hand.Timed(timing => timing == Timing.Plain)).Select(step => step.Took)];

    private static TimedJob Read(OperationNet net, IReadOnlyList<Entry> ordered, bool isRecorded)
    {
        var acts = CountedEntry.AllOf(ordered);
        var job = new TimedJob(net, acts.FirstOrDefault(a => a.Act is JobOpened).Entry?.Id.ToString() ?? "");
        foreach (var (entry, act, _) in acts.Where(a => a is { Act: not null, IsTakenBack: false }))
        {
            job.Count(entry, act is LineRecorded line ? isRecorded ? [.. RecordedThing.Of(entry.Id, line).Select(thing => thing.Moved)] : [] : [act!]);
        }

        return job;
    }

    /// <summary>One entry, which may tell of several things at once.</summary>
    private void Count(Entry entry, IReadOnlyList<Act> acts)
    {
        var hand = _hands.TryGetValue(entry.By, out var known) ? known : _hands[entry.By] = new Hand();
        var pieces = new List<Piece>();
        var timing = Timing.Plain;
        foreach (var act in acts)
        {
            switch (act)
            {
                case JointStuck stuck:
                    _stuck.Add(stuck.Joint);
                    break;
                case Moved moved when _net.TryFind(moved.Move.Operation(), moved.Target, out var operation):
                    timing = Waited(moved.Move, operation, hand.Latest) ? Timing.Waited
                        : moved.Move == Move.JointUndone && _stuck.Remove(moved.Target) && timing == Timing.Plain ? Timing.Stuck
                        : timing;
                    Add(moved.Move, operation);
                    _ended[operation] = entry.At;
                    _done = moved.Move.IsBack() ? _done.Without(operation) : _done.With(operation);
                    break;
                case OpeningCovered covered when _net.Openings.TryGetValue(covered.Opening, out var opening):
                    AddPlain(StepKind.Cover, covered.Opening, opening.CoverMinutes);
                    break;
                case OpeningUncovered uncovered when _net.Openings.TryGetValue(uncovered.Opening, out var opening):
                    AddPlain(StepKind.Uncover, uncovered.Opening, opening.CoverMinutes);
                    break;
                case ProofRecorded recorded when _net.Proofs.TryGetValue(recorded.Proof, out var proof):
                    AddPlain(StepKind.Prove, recorded.Proof, proof.Minutes);
                    break;
            }
        }

        if (pieces.Sum(piece => piece.Work.TradeMinutes) > 0)
        {
            hand.Mark(entry.At, pieces, timing);
        }

        void Add(Move move, int index)
        {
            var operation = _net.Operations[index];
            var way = _net.OpenWay(_done.Without(index), index) ?? operation.Ways[0];
            var minutes = (move.IsBack() ? operation.BackMinutes : operation.OutMinutes) * way.Times;
            AddPiece(move.AsStep(), operation.Target, way.Tool, way.At, minutes + hand.SetUp(_net.Map.SetUp, way.Tool, way.At));
        }

        void AddPlain(StepKind kind, string target, double minutes) => AddPiece(kind, target, Tool.Hand, hand.At, minutes);

        void AddPiece(StepKind kind, string target, Tool tool, Position at, double minutes) =>
            pieces.Add(new Piece(kind, target, PlanTimes.WorkOf(_net, kind, target, tool, at, minutes, entry.By, _job)));
    }

    /// <summary>Whether what it needs may still have run by itself after the person's last mark.</summary>
    private bool Waited(Move move, int operation, DateTimeOffset? latest)
    {
        return move.IsBack() ? _lagsBack[operation].Any(lag => Ran(lag.Then, lag.Back)) : _lagsOut[operation].Any(lag => Ran(lag.Before, lag.Out));

        bool Ran(int first, long ticks) => ticks > 0 && latest is { } since && _ended.TryGetValue(first, out var ended) && ended.AddMinutes(ticks / MapTrip.TicksPerMinute) > since;
    }

    private enum Timing { Plain, Stuck, Waited }

    private sealed record Piece(StepKind Kind, string Target, Work Work);

    /// <summary>One person at work: where they stand, with which tool, and when they were last done with something.</summary>
    private sealed class Hand
    {
        private readonly List<(Mark Mark, IReadOnlyList<Piece> Pieces, Timing Timing)> _marks = [];
        private Tool _tool = Tool.Hand;

        public Position At { get; private set; } = Position.Front;

        public DateTimeOffset? Latest => _marks.Count == 0 ? null : _marks[^1].Mark.At;

        /// <summary>The minutes to take the tool and go to the place.</summary>
        public double SetUp(SetUpMinutes minutes, Tool tool, Position at)
        {
            var takes = minutes.ToolChange(_tool, tool) + minutes.PlaceChange(At, at);
            (_tool, At) = (tool, at);
            return takes;
        }

        public void Mark(DateTimeOffset at, IReadOnlyList<Piece> pieces, Timing timing) =>
            _marks.Add((new Mark(new Work(pieces.Sum(piece => piece.Work.TradeMinutes), pieces[0].Work.Traits), at), pieces, timing));

        public double Worked() => Marks.Cut([.. _marks.Select(mark => mark.Mark)], WorkSpread).Where(stretch => !stretch.IsPause).Sum(stretch => stretch.Minutes);

        /// <summary>The time of an entry about several things is shared out among them as the trade would.</summary>
        public IEnumerable<TimedStep> Timed(Predicate<Timing> counts) =>
            from stretch in Marks.Cut([.. _marks.Select(mark => mark.Mark)], WorkSpread)
            let mark = _marks.Find(mark => ReferenceEquals(mark.Mark.Work, stretch.Work))
            where counts(mark.Timing) && stretch.IsTimed
            from piece in mark.Pieces
            where piece.Work.TradeMinutes > 0
            select new TimedStep(piece.Kind, piece.Target, new TimedWork(piece.Work, stretch.Minutes * piece.Work.TradeMinutes / stretch.Work.TradeMinutes));
    }
}
