using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What is away and what is safe as a recording goes on: it stands in the way of what is told next.</summary>
internal sealed class AwayNow
{
    /// <summary>The parts that are away, in the order in which they went.</summary>
    private readonly List<string> _parts = [];
    /// <summary>What was in the way of each part, and what was safe, when it went.</summary>
    private readonly Dictionary<string, (Reach Reach, IReadOnlyList<string> Safe)> _before = [];
    /// <summary>The supplies that are safe.</summary>
    private readonly SortedSet<string> _safe = new(StringComparer.Ordinal);

    /// <summary>What went last at the end.</summary>
    public IReadOnlyList<string> Parts => _parts;

    public bool Is(string part) => _parts.Contains(part);

    public void Goes(string part) => _parts.Add(part);

    public void ComesHome(string part) => _parts.Remove(part);

    public void IsSafe(string supply) => _safe.Add(supply);

    public void IsRestored(string supply) => _safe.Remove(supply);

    /// <summary>What is in the way of something at this moment, and what is safe for it.</summary>
    /// <param name="of">The part that goes now or whose joint is undone; null for none.</param>
    public (Reach Reach, IReadOnlyList<string> Safe) Now(string? of) =>
        // Put home against the order, a part can lie under one that waits for it; nothing waits for itself.
        (_parts.FindLast(part => !WaitsFor(part, of)) is { } last ? new Reach([last], [], []) : Reach.Free, [.. _safe]);

    /// <summary>The same, kept for what is told of the part later.</summary>
    public (Reach Reach, IReadOnlyList<string> Safe) KeptFor(string part) => _before[part] = Now(part);

    /// <summary>A joint that is told of after its part was undone before it. A supply that came back since is no guard of it any more.</summary>
    public (Reach Reach, IReadOnlyList<string> Safe) Before(string part) =>
        Is(part) && _before.TryGetValue(part, out var before) ? (before.Reach, StillSafe(before.Safe)) : Now(part);

    public IReadOnlyList<string> StillSafe(IEnumerable<string> supplies) => [.. supplies.Where(_safe.Contains)];

    private bool WaitsFor(string part, string? other)
    {
        for (var seen = new HashSet<string>(); seen.Add(part);)
        {
            if (part == other)
            {
                return true;
            }

            if (!_before.TryGetValue(part, out var before) || before.Reach.Clear is not [var next])
            {
                return false;
            }

            part = next;
        }

        return false;
    }
}
