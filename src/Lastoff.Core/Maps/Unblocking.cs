namespace Lastoff.Core.Maps;

/// <summary>Works out what of a net can be done at all, from a whole machine, as things come out of each other's way.</summary>
internal sealed class Unblocking
{
    private readonly OperationNet _net;
    private readonly int[][] _waysOf;
    private readonly List<(int Operation, int Way)> _ways = [];
    private readonly List<int> _wayOfNeed = [];
    private readonly List<int> _needsOfWay = [];
    private readonly int[][] _needsWith;

    public Unblocking(OperationNet net)
    {
        _net = net;
        var needsWith = net.Operations.Select(_ => new List<int>()).ToArray();
        _waysOf = new int[net.Operations.Count][];
        foreach (var operation in net.Operations)
        {
            _waysOf[operation.Index] = new int[operation.Ways.Count];
            foreach (var (w, way) in operation.Ways.Index())
            {
                _waysOf[operation.Index][w] = _ways.Count;
                var needs = 0;
                foreach (var need in way.Needs)
                {
                    foreach (var member in need)
                    {
                        needsWith[member].Add(_wayOfNeed.Count);
                    }

                    _wayOfNeed.Add(_ways.Count);
                    needs++;
                }

                _needsOfWay.Add(needs);
                _ways.Add((operation.Index, w));
            }
        }

        _needsWith = [.. needsWith.Select(n => n.ToArray())];
    }

    /// <param name="Done">Whether each operation can be done.</param>
    /// <param name="Late">The ways that were not open yet when their operation had to be done for anything else to go on.</param>
    public sealed record Outcome(bool[] Done, IReadOnlyList<(int Operation, int Way)> Late);

    /// <summary>Does all that can be done, leaving operations of several ways until all of these are open or nothing else is left.</summary>
    /// <param name="assumed">Taken as done from the start.</param>
    /// <param name="except">Never done, not even if assumed.</param>
    public Outcome Run(IEnumerable<int> assumed, int? except = null)
    {
        var done = new bool[_net.Operations.Count];
        var met = new bool[_wayOfNeed.Count];
        var lacking = _needsOfWay.ToArray();
        var closed = _waysOf.Select(ways => ways.Count(way => lacking[way] > 0)).ToArray();
        var late = new List<(int, int)>();
        var open = new Stack<int>();
        var partly = new Queue<int>();

        void Do(int operation)
        {
            if (done[operation] || operation == except)
            {
                return;
            }

            done[operation] = true;
            foreach (var need in _needsWith[operation].Where(need => !met[need]))
            {
                met[need] = true;
                var way = _wayOfNeed[need];
                if (--lacking[way] == 0)
                {
                    Opened(_ways[way].Operation);
                }
            }
        }

        void Opened(int operation)
        {
            if (--closed[operation] == 0)
            {
                open.Push(operation);
            }
            else
            {
                partly.Enqueue(operation);
            }
        }

        foreach (var operation in Enumerable.Range(0, done.Length))
        {
            if (closed[operation] == 0)
            {
                open.Push(operation);
            }
            else if (closed[operation] < _waysOf[operation].Length)
            {
                partly.Enqueue(operation);
            }
        }

        foreach (var operation in assumed)
        {
            Do(operation);
        }

        while (true)
        {
            if (open.TryPop(out var next))
            {
                Do(next);
            }
            else if (partly.TryDequeue(out next))
            {
                if (!done[next] && next != except)
                {
                    late.AddRange(_waysOf[next].Where(way => lacking[way] > 0).Select(way => _ways[way]));
                    Do(next);
                }
            }
            else
            {
                return new Outcome(done, late);
            }
        }
    }
}
