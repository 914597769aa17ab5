using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What came off after a joint was undone: where nothing else is known the way back is the recording in reverse, and a circlip is not in before the bearing behind it.</summary>
internal sealed class WentLater
{
    private readonly Dictionary<string, HashSet<string>> _after = [];

    /// <summary>An order of the plan and no guard: whoever knows better goes another way.</summary>
    public IEnumerable<HomeAfter> All => _after.Select(pair => new HomeAfter(pair.Key, pair.Value));

    /// <param name="undone">The joints that are undone as the part goes.</param>
    public void Went(string part, IEnumerable<string> undone)
    {
        foreach (var joint in undone)
        {
            if (!_after.TryGetValue(joint, out var parts))
            {
                _after[joint] = parts = [];
            }

            parts.Add(part);
        }
    }
}
