namespace Lastoff.Core.Planning.TwoHands;

/// <summary>The most that can flow through a network, by shortest augmenting layers.</summary>
internal sealed class MaxFlow(int nodes)
{
    private readonly List<int> _to = [];
    private readonly List<long> _left = [];
    private readonly List<int>[] _edges = [.. Enumerable.Range(0, nodes).Select(_ => new List<int>())];
    private readonly int[] _level = new int[nodes];
    private readonly int[] _next = new int[nodes];

    public void Add(int from, int to, long capacity)
    {
        _edges[from].Add(_to.Count);
        _to.Add(to);
        _left.Add(capacity);
        _edges[to].Add(_to.Count);
        _to.Add(from);
        _left.Add(0);
    }

    public long From(int source, int sink)
    {
        var flow = 0L;
        while (FillLevels(source, sink))
        {
            Array.Clear(_next);
            for (var more = Push(source, sink, long.MaxValue); more > 0; more = Push(source, sink, long.MaxValue))
            {
                flow += more;
            }
        }

        return flow;
    }

    private bool FillLevels(int source, int sink)
    {
        Array.Fill(_level, -1);
        _level[source] = 0;
        var waiting = new Queue<int>([source]);
        while (waiting.TryDequeue(out var node))
        {
            foreach (var edge in _edges[node])
            {
                if (_left[edge] > 0 && _level[_to[edge]] < 0)
                {
                    _level[_to[edge]] = _level[node] + 1;
                    waiting.Enqueue(_to[edge]);
                }
            }
        }

        return _level[sink] >= 0;
    }

    private long Push(int node, int sink, long most)
    {
        if (node == sink)
        {
            return most;
        }

        for (; _next[node] < _edges[node].Count; _next[node]++)
        {
            var edge = _edges[node][_next[node]];
            if (_left[edge] > 0 && _level[_to[edge]] == _level[node] + 1 && Push(_to[edge], sink, Math.Min(most, _left[edge])) is > 0 and var pushed)
            {
                _left[edge] -= pushed;
                _left[edge ^ 1] += pushed;
                return pushed;
            }
        }

        return 0;
    }
}
