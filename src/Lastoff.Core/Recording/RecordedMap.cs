using Lastoff.Core.Estimating;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Recording;

/// <summary>The map that grows with a recording: a pure function of its entries, and good for one thing, the safe way back.</summary>
/// <remarks>
/// One recording cannot tell what was in the way from what merely came first. So everything waits for the part that came away last before it: the way
/// back is then the recording in reverse, but for joints that came undone with no part between them, and for what was drained or made safe: that was no
/// part's doing and waits for none, holds back what came off after it, and goes home last where nobody does it sooner.
/// </remarks>
public sealed class RecordedMap
{
    /// <summary>What such a map is called; no file has it.</summary>
    public const string MapName = "recorded";

    /// <summary>Whether it was told line by line.</summary>
    public static bool Is(Map map) => map.Name == MapName;

    /// <summary>Whether all that is known was told while recording, be it in this job or in those a map was learned from: what nobody told is then not known, and no default stands for it.</summary>
    public static bool IsAllTold(Map map) => Is(map) || map.Learned;

    /// <summary>From above is where everything is of which nobody told where it is.</summary>
    public static bool IsPlaceKnown(Map map, Position at) => !IsAllTold(map) || at != Position.Above;

    /// <summary>A tool that nobody told of need not be the hand.</summary>
    public static bool IsToolKnown(Map map, Tool tool) => !IsAllTold(map) || !tool.IsHand;

    /// <summary>Of a step: what a part was told to come off with, a puller say, is not what it goes on with, which nobody told.</summary>
    public static bool IsToolKnown(Map map, PlanStep step) => IsToolKnown(map, step.Tool) && !(IsAllTold(map) && step.Kind == StepKind.Fit);

    /// <summary>Whether a supply was told to be drained, which is what makes a proof for it.</summary>
    public static bool IsDrained(Map map, string supply) => IsAllTold(map) && map.Proofs.Any(proof => proof.For == supply);

    private readonly Dictionary<string, Part> _parts = [];
    private readonly Dictionary<string, Joint> _joints = [];
    private readonly Dictionary<string, Supply> _supplies = [];
    private readonly List<Proof> _proofs = [];
    private readonly RecordedWants _wants = new();
    /// <summary>The hoses that were told of with what clamps them.</summary>
    private readonly List<(string Hose, string Clamp)> _clamped = [];
    private readonly WentLater _later = new();
    private readonly AwayNow _away = new();
    /// <summary>What was said of each joint.</summary>
    private readonly Dictionary<string, Reading> _said = [];
    private readonly RecordedOpenings _openings = new();
    /// <summary>The fluids of which it was told how much came out.</summary>
    private readonly HashSet<string> _amounts = [];
    private readonly ToldTorques _torques = new();
    private readonly HashSet<string> _made = [];
    private readonly HashSet<string> _off = [];
    /// <summary>Parts laid aside, with the joints that were undone only then.</summary>
    private readonly Dictionary<string, List<string>> _aside = [];
    /// <summary>Joints that nobody said the part of, by the device that recorded them: they hold what comes away next.</summary>
    private readonly Dictionary<string, List<string>> _pending = [];

    private RecordedMap()
    {
    }

    /// <param name="entries">The entries of one job, in the order in which they count.</param>
    public static Map Of(IReadOnlyList<Entry> entries)
    {
        var map = new RecordedMap();
        JobOpened? opened = null;
        foreach (var (entry, act, _) in ToldLate.InOrder(entries))
        {
            switch (act)
            {
                case JobOpened first:
                    opened ??= first;
                    break;
                case LineRecorded line:
                    foreach (var thing in RecordedThing.Of(entry.Id, line))
                    {
                        map.Add(thing, entry.Id, entry.Device);
                    }

                    map._torques.Add(line, [.. map._said.Where(said => !map._made.Contains(said.Key)).Select(said => (said.Key, said.Value))]);
                    map._clamped.AddRange(RecordedThing.Clamped(entry.Id, line));
                    foreach (var (number, reading) in line.Readings.Index())
                    {
                        map._wants.Add(entry.Id, number, reading, entry.Device, map.OpenNow());
                    }

                    map._openings.Add(
                        RecordedCover.Of(line), entry.Device,
                        [.. map._parts.Values.Where(part => map._away.Is(part.Id))], [.. map._joints.Values.Where(joint => !map._made.Contains(joint.Id))]);
                    break;
                case Moved moved:
                    map.Follow(moved);
                    break;
                case RenewalFitted fitted:
                    map._wants.Follow(fitted);
                    break;
                case OpeningCovered covered:
                    map._openings.Follow(covered.Opening, covered);
                    break;
                case OpeningUncovered uncovered:
                    map._openings.Follow(uncovered.Opening, uncovered);
                    break;
            }
        }

        return map.Whole(opened?.Machine ?? "");
    }

    private Map Whole(string machine)
    {
        foreach (var joint in _pending.Values.SelectMany(pending => pending).ToList())
        {
            Hold(joint);
        }

        foreach (var (part, leaves) in _aside)
        {
            Lay(part, leaves);
        }

        foreach (var (opening, on) in _openings.Unseen)
        {
            Keep(on, $"What lays “{opening}” bare, not recorded", null);
        }

        return new Map
        {
            Name = MapName,
            Title = machine,
            Parts = [.. _parts.Values.Select(WithoutRestored)],
            Joints = [.. _joints.Values.Select(WithLengths).Select(_torques.Given)],
            Openings = _openings.All,
            Supplies = [.. _supplies.Values],
            Renewals = _wants.All,
            Proofs = _proofs,
            Homeward = Homeward(),
        };
    }

    /// <summary>What came off after a joint was undone goes home before it is made, a hose before the clamp on it, a fluid after everything that came off, then what was only shut or let off, then the lead of a spark plug, and the battery last of all (common practice, no source).</summary>
    private List<HomeAfter> Homeward()
    {
        var ofSpark = _said.Where(said => LineReader.IsOfSpark(said.Value)).Select(said => said.Key).ToList();
        HashSet<string> things = [.. _parts.Keys, .. _joints.Keys.Except(ofSpark)];
        List<HomeAfter> last = [.. _later.All, .. _clamped.Select(pair => new HomeAfter(pair.Clamp, new HashSet<string> { pair.Hose }))];
        var supplies = _supplies.Values.ToLookup(RankOf, supply => supply.Id);
        foreach (var thing in supplies[HomeRank.Filled].Concat(supplies[HomeRank.Opened]).Concat(ofSpark).Concat(supplies[HomeRank.SwitchedOn]))
        {
            last.Add(new HomeAfter(thing, things));
            things = [.. things, thing];
        }

        return last;
    }

    private HomeRank RankOf(Supply supply) => HomeRanks.Of(supply, _proofs.Exists(proof => proof.For == supply.Id));

    /// <summary>A supply that came back while the part was away, told of by a colleague who did not know, is no guard of it.</summary>
    private Part WithoutRestored(Part part) => _away.Is(part.Id) ? part with { Needs = _away.StillSafe(part.Needs) } : part;

    private Joint WithLengths(Joint joint) => _said.TryGetValue(joint.Id, out var said)
        && MixedLengths.Beside(said, _said.Where(other => other.Key != joint.Id && _joints[other.Key].Holds.SequenceEqual(joint.Holds)).Select(other => other.Value)) is { } mixed
            ? joint with { Caution = joint.Caution is { } caution ? $"{mixed} {caution}" : mixed }
            : joint;

    /// <summary>What was moved otherwise than by a line: most of all, what came home.</summary>
    private void Follow(Moved moved)
    {
        switch (moved.Move)
        {
            case Move.SupplySafe:
                _away.IsSafe(moved.Target);
                break;
            case Move.SupplyRestored:
                _away.IsRestored(moved.Target);
                break;
            case Move.JointUndone:
                _made.Remove(moved.Target);
                break;
            case Move.JointMade:
                _made.Add(moved.Target);
                break;
            case Move.PartOff or Move.PartAside when _parts.ContainsKey(moved.Target) && !_away.Is(moved.Target):
                Goes(moved.Target);
                break;
            case Move.PartHome or Move.PartFitted:
                _away.ComesHome(moved.Target);
                break;
        }
    }

    private void Add(RecordedThing thing, Guid entry, string device)
    {
        _openings.Moved(thing, device);
        _wants.Moved(thing, entry, device);
        switch (thing.Moved.Move)
        {
            case Move.SupplySafe:
                AddSupply(thing);
                break;
            case Move.JointUndone:
                AddJoint(thing, device);
                break;
            default:
                AddPart(thing, device);
                break;
        }
    }

    private void AddSupply(RecordedThing thing)
    {
        var (id, kind) = (thing.Moved.Target, RecordedThing.SupplyOf(thing.Reading));
        var (safe, restore) = TradeMinutes.Of(kind);
        _supplies.TryAdd(id, new Supply
        {
            Id = id,
            Name = thing.Name,
            Kind = kind,
            At = thing.Reading.At ?? Position.Above,
            SafeMinutes = safe,
            RestoreMinutes = restore,
            Restore = RecordedThing.RestoreOf(thing.Reading),
        });
        if (thing.Moved.Amount_L is not null && _amounts.Add(id))
        {
            // “Oil drained”, and how much it was some lines later.
            _supplies[id] = _supplies[id] with { Restore = RecordedThing.RestoreOf(thing.Reading) };
        }

        if (thing.Reading.Deed == Deed.Drained && !_proofs.Exists(proof => proof.For == id))
        {
            _proofs.Add(new Proof($"look:{id}", $"No leak: {thing.Reading.Fluid ?? thing.Name}", ProofKind.LeakLook, id, TradeMinutes.LeakLook, null, 0) { WhenItRuns = true });
        }

        _away.IsSafe(id);
    }

    private void AddJoint(RecordedThing thing, string device)
    {
        var (id, reading, kind) = (thing.Moved.Target, thing.Reading, RecordedThing.KindOf(thing.Reading));
        var count = reading.Count is { } said and <= Moved.MostCounted ? said : 1;
        _said[id] = reading;
        var part = thing.JointOf;
        var (reach, safe) = part is not null && _off.Contains(part) ? _away.Before(part) : _away.Now(part);
        _joints[id] = new Joint
        {
            Id = id,
            Name = thing.Name,
            Kind = kind,
            Count = count,
            Holds = part is null ? [] : [part],
            Captive = reading.Captive || reading.Deed == Deed.Loose,
            // What broke is not put back.
            OneTime = reading.OneTime || reading.Broken,
            Clean = reading.Sealed || kind == JointKind.Face,
            At = reading.At ?? Position.Above,
            Tool = RecordedTool.Home(reading),
            Thread = reading.Thread?.ToString(),
            Torque = reading.Torque,
            UndoMinutes = TradeMinutes.Undo(kind, count),
            MakeMinutes = TradeMinutes.Make(kind, count),
            // The lead of a spark plug waits for the fluids as all else does, whatever was drained before it came off.
            Needs = LineReader.IsOfSpark(reading) ? [.. safe.Where(id => RankOf(_supplies[id]) == HomeRank.SwitchedOn)] : safe,
            Reach = reach,
            Caution = RecordedThing.CautionOf(reading),
        };
        _wants.Undone(_joints[id], RecordedThing.JointName(reading));
        if (part is null)
        {
            if (!LineReader.IsDrain(reading) && !LineReader.IsOfSpark(reading))
            {
                Waiting(device).Add(id);
            }

            return;
        }

        Keep(part, reading.Part!, null);
        if (_aside.TryGetValue(part, out var leaves) && !_off.Contains(part))
        {
            leaves.Add(id);
        }
    }

    private void AddPart(RecordedThing thing, string device)
    {
        var id = thing.Moved.Target;
        Keep(id, RecordedThing.PartName(thing.Reading), thing.Reading.At);
        if (!_away.Is(id))
        {
            var (reach, safe) = _away.KeptFor(id);
            _parts[id] = _parts[id] with { Reach = reach, Needs = safe, At = thing.Reading.At ?? _parts[id].At };
        }

        LeaveMade(id, thing.Moved.Move);
        foreach (var joint in Waiting(device))
        {
            if (_made.Contains(joint))
            {
                Hold(joint);
                continue;
            }

            Hold(joint, id);
            if (_away.Is(id))
            {
                var (reach, safe) = _away.Before(id);
                _joints[joint] = _joints[joint] with { Reach = reach, Needs = safe };
            }
        }

        Waiting(device).Clear();
        if (thing.Moved.Move == Move.PartOff)
        {
            _off.Add(id);
            // Laid aside and taken off with nothing undone between: it goes home by one way.
            if (_away.Is(id) && _aside.TryGetValue(id, out var leaves) && leaves.Count == 0)
            {
                _aside.Remove(id);
            }
        }
        else if (!(_off.Contains(id) && _away.Is(id)))
        {
            // What is off and hung up somewhere is no less off.
            _aside.TryAdd(id, []);
        }

        if (thing.Reading.Broken)
        {
            _wants.Broke(id, thing.Name);
        }

        if (!_away.Is(id))
        {
            Goes(id);
        }
    }

    private void Goes(string part)
    {
        _away.Goes(part);
        _later.Went(part, _joints.Keys.Where(joint => !_made.Contains(joint)));
    }

    /// <summary>Joints that are made while their part goes: of one that is off they hold something else, one that is aside they still hold.</summary>
    private void LeaveMade(string part, Move move)
    {
        foreach (var joint in _joints.Values.Where(joint => joint.Holds.Contains(part) && _made.Contains(joint.Id)).ToList())
        {
            if (move == Move.PartOff)
            {
                Hold(joint.Id);
            }
            else
            {
                _aside.TryAdd(part, []);
                if (!_aside[part].Contains(joint.Id))
                {
                    _aside[part].Add(joint.Id);
                }
            }
        }
    }

    /// <summary>Knows the part from now on.</summary>
    private void Keep(string id, string name, Position? at) => _parts.TryAdd(id, new Part
    {
        Id = id,
        Name = RecordedThing.Capital(name),
        At = at ?? Position.Above,
        OffMinutes = TradeMinutes.PartOff,
        OnMinutes = TradeMinutes.PartOn,
    });

    /// <summary>What a joint holds that nobody told of, or that holds nothing, as a drain plug does, is not guessed at.</summary>
    private void Hold(string joint, params IReadOnlyList<string> parts) => _joints[joint] = _joints[joint] with { Holds = parts };

    /// <summary>What nobody undid still holds a part that hangs aside.</summary>
    private void Lay(string part, List<string> leaves)
    {
        if (!_off.Contains(part) && leaves.Count == 0)
        {
            var still = $"still:{part}";
            _joints[still] = new Joint { Id = still, Name = $"What still holds “{_parts[part].Name}”, not recorded", Kind = JointKind.Tie, Holds = [part] };
            leaves.Add(still);
        }

        _parts[part] = _parts[part] with { Aside = new Aside(leaves, TradeMinutes.Aside, TradeMinutes.Home) };
    }

    /// <summary>What is away or undone now, by its name, what went last at the end.</summary>
    private IReadOnlyList<(string Id, string Name)> OpenNow() =>
        [.. _joints.Values.Where(joint => !_made.Contains(joint.Id)).Select(joint => (joint.Id, joint.Name)), .. _away.Parts.Select(part => (part, _parts[part].Name))];

    private List<string> Waiting(string device)
    {
        if (!_pending.TryGetValue(device, out var pending))
        {
            _pending[device] = pending = [];
        }

        return pending;
    }
}
