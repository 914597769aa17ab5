using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What lines say in passing that the job needs, each for what it must be there before: a renewal, as a map would have it.</summary>
internal sealed class RecordedWants
{
    private const string Mark = "wanted:";
    private const string NewPart = "New: ";

    private readonly List<Renewal> _all = [];
    /// <summary>What nobody said the end of yet.</summary>
    private readonly List<Renewal> _open = [];
    /// <summary>What came undone last, by the device that recorded it.</summary>
    private readonly Dictionary<string, string> _last = [];
    /// <summary>The line that told of it.</summary>
    private readonly Dictionary<string, Guid> _told = [];
    /// <summary>Of what was said to be for a thing that is not off: what that was called.</summary>
    private readonly Dictionary<string, string> _of = [];
    /// <summary>What was wanted before anything came undone: it belongs to what comes next.</summary>
    private readonly Dictionary<string, List<Renewal>> _waiting = [];
    /// <summary>What was told twice of one thing, which a ledger from before that was seen may have put in all the same.</summary>
    private readonly List<Renewal> _twins = [];
    private readonly HashSet<string> _fitted = [];
    /// <summary>What is wanted because it broke, by the identifier of what is to be had.</summary>
    private readonly HashSet<string> _broke = [];

    public IReadOnlyList<Renewal> All => [.. _all, .. _twins.Where(twin => _fitted.Contains(twin.Id)).DistinctBy(twin => twin.Id)];

    /// <summary>What a wanted thing is known by: the line that says so, and which of its readings.</summary>
    public static string IdOf(Guid entry, int number) => $"{Mark}{entry}:{number}";

    /// <summary>Whether both name the same thing, as far as words tell: “copper washer” and “washer”.</summary>
    public static bool IsCalled(string name, string other) =>
        RecordedThing.Plain(name) is var one && RecordedThing.Plain(other) is var two && (one.Contains(two, StringComparison.Ordinal) || two.Contains(one, StringComparison.Ordinal));

    /// <summary>Whether a line can mean this renewal: what was wanted only after it, it does not.</summary>
    public static bool IsMeant(Renewal renewal, string name, Guid line) =>
        IsCalled(renewal.Name, name) && (!renewal.Id.StartsWith(Mark, StringComparison.Ordinal) || Guid.Parse(renewal.Id[Mark.Length..renewal.Id.LastIndexOf(':')]).CompareTo(line) <= 0);

    public void Moved(RecordedThing thing, Guid entry, string device)
    {
        if (thing.Moved.Move == Move.SupplySafe)
        {
            return;
        }

        // “Output shaft seal torn”, and then “shaft seal pulled out”: the new one goes in for it, not beside it.
        if (thing.Moved.Move == Move.PartOff && _open.FindIndex(renewal => IsPart(renewal, thing.Name)) is >= 0 and var at)
        {
            Hang(at, _open[at] with { For = thing.Moved.Target, Kind = RenewalKind.Part });
        }

        // “New O-ring for the cover”, and then the cover comes off.
        for (var i = 0; i < _open.Count; i++)
        {
            if (_open[i].For == Renewal.Alone && thing.JointOf is null && _of.TryGetValue(_open[i].Id, out var of) && IsCalled(thing.Name, of))
            {
                Hang(i, _open[i] with { For = thing.Moved.Target });
            }
        }

        (_last[device], _told[device]) = (thing.Moved.Target, entry);
        foreach (var renewal in _waiting.GetValueOrDefault(device, []))
        {
            Add(renewal with { For = thing.Moved.Target });
        }

        _waiting.Remove(device);
    }

    private void Hang(int at, Renewal there) => (_all[_all.IndexOf(_open[at])], _open[at]) = (there, there);

    /// <summary>By the same name, or by two words of it: any “seal” may be another.</summary>
    private static bool IsPart(Renewal renewal, string part) => renewal.Kind == RenewalKind.Sundry && IsCalled(renewal.Name, part)
        && (RecordedThing.Plain(renewal.Name) == RecordedThing.Plain(part) || Math.Min(renewal.Name.Split(' ').Length, part.Split(' ').Length) > 1);

    /// <param name="open">What is away or undone, what went last at the end.</param>
    public void Add(Guid entry, int number, Reading reading, string device, IReadOnlyList<(string Id, string Name)> open)
    {
        if (reading is { Deed: Deed.Here, Part: { } here })
        {
            // What a joint wants by itself is had once it is in.
            _open.RemoveAll(renewal => renewal.Kind != RenewalKind.Fastener && IsCalled(renewal.Name, here));
            _waiting.GetValueOrDefault(device)?.RemoveAll(renewal => IsCalled(renewal.Name, here));
        }

        if (reading is not { Deed: Deed.Wanted, Part: { } name })
        {
            return;
        }

        var target = (reading.Of is { } of ? Named(of) ?? Renewal.Alone : null) ?? Itself(entry, reading, name, open)
            ?? (IsOfLast(entry, reading, name, device) ? Last() : Named(name) ?? Renewal.Alone);
        var renewal = new Renewal(IdOf(entry, number), RecordedThing.Capital(name), RenewalKind.Sundry, target ?? "", reading.Count ?? 1, "", 0);
        if (reading.Broken)
        {
            _broke.Add(renewal.Id);
        }

        // “A new bolt for the pump”, where a pump bolt broke.
        if (reading.Of is { } whose && _open.Exists(had => _broke.Contains(had.Id) && renewal.Count <= had.Count && NameOf(had) == NameOf(renewal with { Name = $"{whose} {name}" })))
        {
            _twins.Add(renewal);
            return;
        }

        if (target is not null)
        {
            if (target == Renewal.Alone && reading.Of is { } unknown)
            {
                _of[renewal.Id] = unknown;
            }

            Add(renewal);
            return;
        }

        if (!_waiting.TryGetValue(device, out var waiting))
        {
            _waiting[device] = waiting = [];
        }

        waiting.Add(renewal);

        string? Named(string called) => open.LastOrDefault(thing => IsCalled(thing.Name, called)).Id;

        string? Last() => _last.TryGetValue(device, out var last) && open.Any(thing => thing.Id == last) ? last : open.Count > 0 ? open[^1].Id : last;
    }

    /// <summary>What is said in the line of a thing is of that, and so is what lies at whatever came undone last: a seal, or what holds it. A new belt has nothing to do with it.</summary>
    private bool IsOfLast(Guid entry, Reading wanted, string name, string device) =>
        wanted.Broken || _told.TryGetValue(device, out var told) && told == entry || LineReader.IsSeal(name) || LineReader.IsFastener(name);

    /// <summary>Fitted by a tap.</summary>
    public void Follow(RenewalFitted fitted)
    {
        _fitted.Add(fitted.Renewal);
        _open.RemoveAll(renewal => renewal.Id == fitted.Renewal);
    }

    /// <summary>A part broke: it is to be new, whoever says so once more.</summary>
    public void Broke(string id, string name)
    {
        var part = new Renewal($"new:{id}", NewPart + name, RenewalKind.Part, id, 1, "", 0);
        _broke.Add(part.Id);
        if (_open.Find(renewal => renewal.Kind == RenewalKind.Part && renewal.For == part.For) is { } said)
        {
            _broke.Add(said.Id);
            _twins.Add(part);
        }
        else if (_all.Exists(renewal => renewal.Id == part.Id))
        {
            _open.Add(part);
        }
        else
        {
            Add(part);
        }
    }

    /// <summary>Where a joint broke, or is done up once only, it wants new ones by itself, and what was said to be wanted before is they.</summary>
    public void Undone(Joint joint, string name)
    {
        if (!joint.OneTime)
        {
            return;
        }

        var own = new Renewal($"{joint.Id}.new", name, RenewalKind.Fastener, joint.Id, joint.Count, "", 0);
        _broke.Add(own.Id);
        foreach (var said in _open.Where(renewal => renewal.Kind == RenewalKind.Sundry && IsOfBroken(own, renewal)).ToList())
        {
            _twins.Add(said);
            _all.Remove(said);
            _open.Remove(said);
        }

        _open.Add(own);
    }

    /// <summary>“Pump is shot” where the pump is off; “hose off, clip lost” where the clip is of the same line; of several that one broke of, those.</summary>
    private static string? Itself(Guid entry, Reading wanted, string name, IReadOnlyList<(string Id, string Name)> open) =>
        open.LastOrDefault(thing => thing.Name.Equals(name, StringComparison.OrdinalIgnoreCase) || wanted.Broken && RecordedThing.Plain(thing.Name).StartsWith(RecordedThing.Plain(name), StringComparison.Ordinal) || thing.Id.Contains(entry.ToString(), StringComparison.Ordinal) && IsCalled(thing.Name, name)).Id;

    /// <summary>Said twice of one thing, it is wanted once.</summary>
    private void Add(Renewal renewal)
    {
        if (_open.Exists(other => IsSame(other, renewal)))
        {
            _twins.Add(renewal);
            return;
        }

        _all.Add(renewal);
        _open.Add(renewal);
    }

    private bool IsSame(Renewal had, Renewal said) => (had.For == said.For && RecordedThing.Plain(had.Name) == RecordedThing.Plain(said.Name)) || IsOfBroken(had, said);

    /// <summary>Where something broke, “a new bolt” is for the one that broke, if it is told right there or by two words of its name.</summary>
    private bool IsOfBroken(Renewal had, Renewal said)
    {
        var (one, other) = (NameOf(had), NameOf(said));
        return _broke.Contains(had.Id) && said.Count <= had.Count && (one == other || one.EndsWith($"-{other}", StringComparison.Ordinal) || other.EndsWith($"-{one}", StringComparison.Ordinal))
            && (had.For == said.For || (!_broke.Contains(said.Id) && one.Contains('-', StringComparison.Ordinal) && other.Contains('-', StringComparison.Ordinal)));
    }

    /// <summary>For one of them, with nothing that tells two ways of writing it apart.</summary>
    private static string NameOf(Renewal renewal) => RecordedThing.Plain(renewal.Name.StartsWith(NewPart, StringComparison.Ordinal) ? renewal.Name[NewPart.Length..] : renewal.Name).TrimEnd('s');
}
