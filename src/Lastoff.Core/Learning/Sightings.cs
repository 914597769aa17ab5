using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What can have happened to a thing by a moment of a strip. <see cref="Clear"/> is a part out of the way, off, aside or gone with another;
/// <see cref="Off"/> is kept apart from it only for parts that were seen laid aside.</summary>
internal enum Happening { Safe, Undone, Clear, Off }

/// <summary>Something happened to a thing of this name.</summary>
internal readonly record struct Event(Happening What, string Name)
{
    /// <summary>Whether a map can say that this must happen before the other one. Of what it cannot say, nothing on a machine makes it so by itself.</summary>
    public bool CanHoldUp(Event other) => Name != other.Name && (What, other.What) switch
    {
        (Happening.Safe, Happening.Safe or Happening.Undone or Happening.Clear) => true,
        (Happening.Undone, Happening.Clear or Happening.Off) => true,
        (Happening.Clear or Happening.Off, Happening.Safe or Happening.Undone or Happening.Clear) => true,
        _ => false,
    };
}

/// <summary>When everything happened in every strip.</summary>
internal sealed class Sightings
{
    private const int Never = int.MaxValue;

    /// <summary>From when on it was so, in each strip; and when somebody did it, which for a part gone with another is never.</summary>
    private readonly Dictionary<Event, (int[] So, int[] Done)> _when = [];
    private readonly Dictionary<(Sort, string), List<(int Strip, Removal Removal)>> _of = [];
    private readonly Dictionary<string, List<string>> _carriers = [];
    private readonly HashSet<string> _laidAside;

    public Sightings(IReadOnlyList<Strip> strips)
    {
        Strips = strips.Count;
        Openings = [.. strips.SelectMany(strip => strip.Openings).DistinctBy(opening => (opening.Name.ToUpperInvariant(), opening.On))];
        _laidAside = [.. strips.SelectMany(strip => strip.Removals).Where(removal => removal.Kind == OperationKind.Aside).Select(removal => removal.Name)];
        foreach (var (number, strip) in strips.Index())
        {
            foreach (var (at, removal) in strip.Removals.Index())
            {
                Add(number, at, removal);
            }
        }

        Wanted = [.. strips.SelectMany(strip => strip.Wanted).Distinct(StringComparer.OrdinalIgnoreCase)];
        Lessons = [.. strips.SelectMany(strip => strip.Lessons).Distinct()];
        Renewals =
        [
            .. from seen in strips.Index().SelectMany(strip => strip.Item.Renewals.Select(renewal => (Strip: strip.Index, Renewal: renewal)))
               group seen by (RecordedThing.Plain(seen.Renewal.Name), seen.Renewal.For) into same
               let of = new[] { Sort.Part, Sort.Joint, Sort.Supply }.Where(sort => _of.ContainsKey((sort, same.Key.For))).SelectMany(sort => Of(sort, same.Key.For)).Select(one => one.Strip).Distinct().Count()
               where of > 0
               select (same.First().Renewal with { Count = same.Max(seen => seen.Renewal.Count) }, same.Select(seen => seen.Strip).Distinct().Count(), of),
        ];

        // Of a part that only ever went with another nothing is known but that.
        foreach (var rider in _carriers.Keys.Where(rider => !_of.ContainsKey((Sort.Part, rider))))
        {
            _when.Remove(new Event(Happening.Clear, rider));
        }
    }

    public int Strips { get; }

    /// <summary>Every opening once, as it was first covered.</summary>
    public IReadOnlyList<SeenOpening> Openings { get; }

    /// <summary>What was written down for the next time, of the job as a whole.</summary>
    public IReadOnlyList<string> Lessons { get; }

    /// <summary>What was wanted new, and nothing said for what.</summary>
    public IReadOnlyList<string> Wanted { get; }

    /// <summary>Everything that was wanted new, with how often it was, of the times that what it is for came off.</summary>
    public IReadOnlyList<(SeenRenewal Renewal, int Times, int Of)> Renewals { get; }

    /// <summary>Everything that ever happened, in the order in which it was first seen.</summary>
    public IEnumerable<Event> Events => _when.Keys;

    public IEnumerable<string> Named(Sort sort) => _of.Keys.Where(key => key.Item1 == sort).Select(key => key.Item2);

    public IReadOnlyList<(int Strip, Removal Removal)> Of(Sort sort, string name) => _of[(sort, name)];

    public bool WasLaidAside(string part) => _laidAside.Contains(part);

    /// <summary>The part it was seen to go with, nearest first when those go with each other; null when it never did.</summary>
    public string? CarrierOf(string part) => _carriers.TryGetValue(part, out var carriers)
        ? carriers.OrderByDescending(carrier => carriers.Count(other => GoesWith(carrier, other))).FirstOrDefault(carrier => carrier != part && !GoesWith(carrier, part))
        : null;

    public bool Happens(Event what, int strip) => _when[what].Done[strip] != Never;

    public bool IsBefore(Event first, Event then, int strip) => _when[first].So[strip] < _when[then].Done[strip];

    private bool GoesWith(string part, string carrier) => _carriers.TryGetValue(part, out var carriers) && carriers.Contains(carrier);

    private void Add(int strip, int at, Removal removal)
    {
        if (!_of.TryGetValue((removal.Sort, removal.Name), out var seen))
        {
            _of.Add((removal.Sort, removal.Name), seen = []);
        }

        seen.Add((strip, removal));
        Note(new Event(removal.Sort switch { Sort.Supply => Happening.Safe, Sort.Joint => Happening.Undone, _ => Happening.Clear }, removal.Name), strip, at, isDone: true);
        if (removal.Kind == OperationKind.Off && _laidAside.Contains(removal.Name))
        {
            Note(new Event(Happening.Off, removal.Name), strip, at, isDone: true);
        }

        foreach (var rider in removal.TookAlong)
        {
            Note(new Event(Happening.Clear, rider), strip, at, isDone: false);
            if (!_carriers.TryGetValue(rider, out var carriers))
            {
                _carriers.Add(rider, carriers = []);
            }

            carriers.Add(removal.Name);
        }
    }

    /// <summary>Only the first time counts: what was done again later in the strip could be done before.</summary>
    private void Note(Event what, int strip, int at, bool isDone)
    {
        if (!_when.TryGetValue(what, out var when))
        {
            _when.Add(what, when = (new int[Strips], new int[Strips]));
            Array.Fill(when.So, Never);
            Array.Fill(when.Done, Never);
        }

        when.So[strip] = Math.Min(when.So[strip], at);
        if (isDone)
        {
            when.Done[strip] = Math.Min(when.Done[strip], at);
        }
    }
}
