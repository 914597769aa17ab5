using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What a recording wanted new that the next job wants again: the gasket of the pump, and not the pump that was the fault itself, which is renewed where it is the goal.</summary>
internal sealed class RecordedRenewals
{
    private readonly Map? _map;
    private readonly IReadOnlyList<ToldMove> _out;
    /// <summary>What lay between two things and was scraped off: it is no part, and its new one is for what came off before it.</summary>
    private readonly Dictionary<string, string> _between = [];

    /// <param name="map">What grew with the recording; null of a job that has a map.</param>
    /// <param name="out">What came off, in order.</param>
    public RecordedRenewals(Map? map, IReadOnlyList<ToldMove> @out)
    {
        (_map, _out) = (map, @out);
        foreach (var renewal in map?.Renewals ?? [])
        {
            if (IsItself(renewal) && LineReader.LiesBetween(renewal.Name) && @out.TakeWhile(one => one.Moved.Target != renewal.For).LastOrDefault(one => one.Moved.Move is Move.PartOff or Move.PartAside && !IsBetween(one)) is { } before)
            {
                _between[renewal.For] = before.Moved.Target;
            }
        }
    }

    /// <summary>Whether it is nothing but what goes in new with another.</summary>
    public bool IsBetween(ToldMove one) => _between.ContainsKey(one.Moved.Target);

    /// <summary>What stands for a thing in the learned map: of what lay between, the part that it lay under.</summary>
    public string StandsFor(string target) => _between.GetValueOrDefault(target, target);

    /// <param name="nameOf">The name in the strip of what moved; null where it did not.</param>
    public IReadOnlyList<SeenRenewal> Of(IReadOnlyList<Entry> ordered, Func<string, string?> nameOf)
    {
        var broken = (from counted in CountedEntry.AllOf(ordered)
                      where counted is { Act: LineRecorded, IsTakenBack: false }
                      from reading in ((LineRecorded)counted.Act!).Readings.Index()
                      where reading.Item is { Deed: Deed.Wanted, Broken: true }
                      select RecordedWants.IdOf(counted.Entry.Id, reading.Index)).ToHashSet();
        return
        [
            .. from renewal in _map?.Renewals ?? []
               // A bolt that broke was bad luck: how often it was is said at its joint.
               where !(broken.Contains(renewal.Id) && _out.Any(one => one.Moved.Move == Move.JointUndone && RecordedWants.IsCalled(one.Name, renewal.Name)))
               let isItself = IsItself(renewal) && !_between.ContainsKey(renewal.For)
               where !isItself || LineReader.IsSeal(renewal.Name) || IsOld(renewal)
               let name = nameOf(StandsFor(renewal.For))
               where name is not null
               select new SeenRenewal(isItself ? name : renewal.Name, name, isItself ? RenewalKind.Part : LineReader.IsSeal(renewal.Name) ? RenewalKind.Seal : RenewalKind.Sundry, (int)renewal.Count),
        ];
    }

    /// <summary>Whether what is wanted is the part that came off.</summary>
    private bool IsItself(Renewal renewal) => _out.Any(one => one.Moved.Target == renewal.For && one.Moved.Move is Move.PartOff or Move.PartAside)
        && (renewal.Kind == RenewalKind.Part || RecordedThing.Plain(renewal.Name) == RecordedThing.Plain(_map!.Parts.First(part => part.Id == renewal.For).Name));

    private bool IsOld(Renewal renewal) => _out.Any(one => one.Moved.Target == renewal.For && one is { Line: { } line, Reading.Part: { } part } && LineReader.IsCalledOld(line.Text, part));
}
