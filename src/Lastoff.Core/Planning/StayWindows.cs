namespace Lastoff.Core.Planning;

/// <summary>Improves a long order a stretch at a time: the steps of a window are put into their best order between what comes before and what comes after.</summary>
/// <remarks>A window begins and ends as if bare-handed, which may not be so; what comes of it is priced in the whole order, and taken only when it costs less there.</remarks>
internal sealed class StayWindows
{
    /// <summary>How many steps a window holds: about as many as a search proves in little time. The windows of the next round lie half way between.</summary>
    private static readonly int[] Widths = [32, 64];

    private const int StatesOfAWindow = 2000;

    private const int TableEntries = 50;

    private readonly OneWay _problem;
    private readonly StayProblem _stays;
    private readonly Patience _patience;
    private readonly HashSet<string> _tried;
    private OneWayResult _best;

    private StayWindows(OneWay problem, StayProblem stays, OneWayResult best, HashSet<string> tried, Patience patience)
    {
        _problem = problem;
        _stays = stays;
        _best = best;
        _tried = tried;
        _patience = patience;
    }

    /// <param name="tried">The windows gone over so far in this trip, each by its direction, its steps and those on both sides of it.</param>
    public static OneWayResult Improve(OneWay problem, StayProblem stays, OneWayResult best, HashSet<string> tried, Patience patience)
    {
        var windows = new StayWindows(problem, stays, best, tried, patience);
        foreach (var width in Widths)
        {
            windows.Round(width);
        }

        return windows._best;
    }

    private bool IsOn => _best.LowerBound < _best.Cost && !_patience.IsOver;

    /// <summary>Moves windows over the order until none of them gets better any more.</summary>
    private void Round(int width)
    {
        var unchanged = 0;
        for (var from = 0; unchanged < 2 && IsOn; from = width / 2 - from)
        {
            var cost = _best.Cost;
            for (var at = from; at < _best.Order.Count && IsOn; at += width)
            {
                Improve(at, Math.Min(width, _best.Order.Count - at));
            }

            unchanged = _best.Cost < cost ? 0 : unchanged + 1;
        }
    }

    private void Improve(int at, int count)
    {
        var from = Math.Max(0, at - 1);
        if (!_tried.Add($"{_problem.StartKey} " + string.Join(' ', _best.Order.Skip(from).Take(at + count + 1 - from).Select(step => $"{step.Operation}.{step.Way}"))))
        {
            return;
        }

        var done = (ulong[])_problem.Start.Clone();
        foreach (var step in _best.Order.Take(at))
        {
            Bits.Add(done, step.Operation);
        }

        var steps = _best.Order.Skip(at).Take(count).Select(step => (step, WayOf(step))).ToList();
        var part = _stays.Part(_problem, steps, done, at == 0 ? _stays.Start : PlaceOf(at - 1), at + count == _best.Order.Count ? _stays.End : PlaceOf(at + count));
        var found = new StaySearch(part, TableEntries, StatesOfAWindow, _patience).Run(StatesOfAWindow, long.MaxValue);
        _best = _best with { States = _best.States + found.States };
        if (found.Order is { } order)
        {
            List<OneWayStep> changed = [.. _best.Order.Take(at), .. order.Steps().Select(step => steps[step.Landmark].step), .. _best.Order.Skip(at + count)];
            if (OneWayOrder.CostOf(_problem, changed) is { } cost && cost < _best.Cost)
            {
                _best = _best with { Order = changed, Cost = cost };
            }
        }
    }

    private int PlaceOf(int at) => _stays.PlaceOf(WayOf(_best.Order[at]).Key);

    private OneWayWay WayOf(OneWayStep step) => Array.Find(_problem.Ways[step.Operation], way => way.Index == step.Way)!;
}
