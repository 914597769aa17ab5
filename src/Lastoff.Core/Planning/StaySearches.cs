namespace Lastoff.Core.Planning;

/// <summary>The searches of stays that a trip has begun, each to be gone on with where its problem comes up again.</summary>
/// <remarks>
/// It comes up often: the same direction is looked at shortly, then longer, and most choices leave one of the two as it was. What a search keeps stays until the
/// trip is settled, so all of them together keep no more states than the trip may.
/// </remarks>
internal sealed class StaySearches
{
    private readonly Dictionary<ProblemKey, StaySearch> _begun = [];
    private readonly Dictionary<(int Entries, ProblemKey Problem), long> _roots = [];

    /// <summary>The windows of long orders that were gone over.</summary>
    public HashSet<string> Windows { get; } = [];

    /// <param name="limit">How many states the search may keep, counted from its beginning.</param>
    /// <param name="tableEntries">How many entries a table of its bound may have.</param>
    /// <param name="known">What set-ups are known to cost at most.</param>
    public StayResult Run(StayProblem problem, int limit, int tableEntries, long known, Patience patience)
    {
        var key = new ProblemKey(problem.Contents());
        if (!_begun.TryGetValue(key, out var search) || !search.CanGoOn(known, tableEntries))
        {
            _begun[key] = search = new StaySearch(problem, tableEntries, limit, patience);
        }

        return search.Run(limit, known);
    }

    /// <summary>What set-ups cost at least, by a bound that takes little.</summary>
    public long LeastOf(StayProblem problem, int tableEntries, int states, Patience patience)
    {
        var key = (tableEntries, new ProblemKey(problem.Contents()));
        if (!_roots.TryGetValue(key, out var least))
        {
            _roots[key] = least = new StayBound(problem, tableEntries, states, patience).Root;
        }

        return least;
    }

    /// <summary>Two problems are one when all that a search asks of them is the same.</summary>
    private readonly struct ProblemKey(ulong[] contents) : IEquatable<ProblemKey>
    {
        private readonly ulong[] _contents = contents;

        public bool Equals(ProblemKey other) => _contents.AsSpan().SequenceEqual(other._contents);

        public override bool Equals(object? obj) => obj is ProblemKey other && Equals(other);

        public override int GetHashCode() => (int)Bits.Hash(_contents);
    }
}
