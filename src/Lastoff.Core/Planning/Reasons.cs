using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Why each operation of a plan is done, in words: what it makes possible, what that makes possible, and so on to a goal.</summary>
internal sealed class Reasons
{
    private const int LongestChain = 4;

    private readonly OperationNet _net;
    private readonly OperationSet _goals;
    private readonly OperationSet _start;
    private readonly Dictionary<int, int> _opens = [];

    public Reasons(OperationNet net, OperationSet goals, OperationSet start, Trip trip)
    {
        _net = net;
        _goals = goals;
        _start = start;
        var done = start;
        foreach (var step in trip.Out)
        {
            var way = net.Operations[step.Operation].Ways[step.Way];
            foreach (var earlier in done)
            {
                if (!_opens.ContainsKey(earlier) && !way.IsOpen(done.Without(earlier)))
                {
                    _opens[earlier] = step.Operation;
                }
            }

            done = done.With(step.Operation);
        }
    }

    /// <summary>What the operation makes possible, what that does, and so on to a goal: their identifiers.</summary>
    public IReadOnlyList<string> Leads(int operation)
    {
        var chain = new List<string>();
        for (var i = operation; !_goals.Contains(i) && _opens.TryGetValue(i, out var next); i = next)
        {
            chain.Add(_net.Operations[next].Target);
        }

        return chain;
    }

    public string Out(int operation) =>
        _goals.Contains(operation) ? Goal(operation)
        : _opens.ContainsKey(operation) ? Chain(operation)
        : "it makes the way back shorter";

    public string Back(int operation)
    {
        var was = _net.Operations[operation].Kind switch
        {
            OperationKind.MakeSafe => "made safe",
            OperationKind.Undo => "undone",
            OperationKind.Aside => "laid aside",
            _ => "taken off",
        };
        return _start.Contains(operation) && !_opens.ContainsKey(operation)
            ? $"{was} on the way out"
            : $"{was}: {Out(operation)}";
    }

    private string Goal(int operation) => _net.Operations[operation].Kind == OperationKind.Off ? "to be renewed: a goal of the job" : "a goal of the job";

    private string Chain(int operation)
    {
        var links = new List<string>();
        for (var i = operation; ; i = _opens[i])
        {
            if (_goals.Contains(i) && i != operation)
            {
                links.Add(_net.Operations[i].Kind == OperationKind.Off ? "which is to be renewed" : "a goal of the job");
                break;
            }

            if (!_opens.TryGetValue(i, out var next))
            {
                break;
            }

            links.Add(Link(_net.Operations[i], _net.Operations[next]));
        }

        return links.Count <= LongestChain
            ? string.Join(", ", links)
            : string.Join(", ", links.Take(2).Append("and so on").Concat(links.TakeLast(2)));
    }

    private static string Link(Operation operation, Operation opens) => operation.Kind switch
    {
        OperationKind.MakeSafe => $"so that {opens.Name} is safe to {Verb(opens.Kind)}",
        OperationKind.Undo => $"to free {opens.Name}",
        _ => $"to get at {opens.Name}",
    };

    private static string Verb(OperationKind kind) => kind switch
    {
        OperationKind.MakeSafe => "make safe",
        OperationKind.Undo => "undo",
        OperationKind.Aside => "lay aside",
        _ => "take off",
    };
}
