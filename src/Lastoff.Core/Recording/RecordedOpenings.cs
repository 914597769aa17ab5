using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The openings that a recording tells of, each on what laid it bare.</summary>
internal sealed class RecordedOpenings
{
    private readonly Dictionary<string, Opening> _openings = [];
    private readonly Dictionary<string, string> _unseen = [];
    /// <summary>What came off last, by the device that recorded it.</summary>
    private readonly Dictionary<string, string> _bare = [];

    public IReadOnlyList<Opening> All => [.. _openings.Values];

    /// <summary>Openings that were covered before anything came off, with what must lie over them.</summary>
    public IEnumerable<(string Opening, string On)> Unseen => _unseen.Select(pair => (pair.Value, pair.Key));

    /// <summary>A part away or a hose off lays something bare; a bolt does only where nothing else did.</summary>
    public void Moved(RecordedThing thing, string device)
    {
        var isJoint = thing.Moved.Move == Move.JointUndone;
        if (thing.Moved.Move is Move.PartOff or Move.PartAside || isJoint && (RecordedThing.KindOf(thing.Reading) is JointKind.Hose or JointKind.Pipe || !_bare.ContainsKey(device)))
        {
            _bare[device] = thing.Moved.Target;
        }
    }

    public void Add(IReadOnlyList<RecordedCover> covers, string device, IReadOnlyDictionary<string, Part> parts, IReadOnlyDictionary<string, Joint> joints)
    {
        foreach (var cover in covers.Where(cover => cover.Act is OpeningCovered))
        {
            // Covered anew, it may be with something else; what lays it bare is the same.
            _openings[cover.Opening] = _openings.TryGetValue(cover.Opening, out var known)
                ? known with { Cover = cover.Cover }
                : new Opening(cover.Opening, cover.Name, Of(cover, parts, joints) ?? _bare.GetValueOrDefault(device) ?? Hidden(cover), cover.Cover, 0, 0);
        }
    }

    /// <summary>“Capped the feed pipe”: the pipe that was undone by this name, the last of them.</summary>
    private static string? Of(RecordedCover cover, IReadOnlyDictionary<string, Part> parts, IReadOnlyDictionary<string, Joint> joints) =>
        joints.Values.LastOrDefault(joint => joint.Kind is JointKind.Hose or JointKind.Pipe && IsCalled(joint.Name, cover.Name))?.Id
        ?? parts.Values.FirstOrDefault(part => IsCalled(part.Name, cover.Name))?.Id;

    // With its size behind it: “Feed pipe, 17 mm”.
    private static bool IsCalled(string thing, string name) => thing.Equals(name, StringComparison.OrdinalIgnoreCase) || thing.StartsWith($"{name},", StringComparison.OrdinalIgnoreCase);

    private string Hidden(RecordedCover cover)
    {
        var on = $"over:{cover.Opening}";
        _unseen[on] = cover.Name;
        return on;
    }
}
