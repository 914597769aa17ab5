namespace Lastoff.Core.Ledger;

/// <summary>What is on file about a job beside the work: the machine, the way to the cause, what has to be here, and what is to be looked at again.</summary>
public sealed record CaseFile
{
    public static CaseFile Empty { get; } = new();

    /// <summary>Null until somebody wrote it down.</summary>
    public MachineIdentified? Machine { get; private init; }

    /// <summary>In the order in which it was found.</summary>
    public IReadOnlyList<EvidenceFound> Evidence { get; private init; } = [];

    /// <summary>Null while what was written when the job was opened holds.</summary>
    public CauseNamed? Cause { get; private init; }

    /// <summary>What was last said of each thing, by its name.</summary>
    public IReadOnlyDictionary<string, ItemTold> Items { get; private init; } = new Dictionary<string, ItemTold>();

    /// <summary>In the order in which they were set.</summary>
    public IReadOnlyList<(Guid Entry, AppointmentSet Set)> Appointments { get; private init; } = [];

    public IReadOnlyList<ReCheck> ReChecks { get; private init; } = [];

    /// <summary>What fell into the machine, in the order in which it did.</summary>
    public IReadOnlyList<LostThing> Lost { get; private init; } = [];

    /// <summary>What is in there still.</summary>
    public IEnumerable<LostThing> NotFound => Lost.Where(thing => thing.Found is null);

    /// <summary>What fell in and is in there still.</summary>
    public IEnumerable<LostThing> StillInside => NotFound.Where(thing => !thing.IsMissing);

    /// <summary>The work that the map does not know, in the order in which it was taken in.</summary>
    public IReadOnlyList<OwnWork> Works { get; private init; } = [];

    /// <summary>What of it is not done.</summary>
    public IEnumerable<OwnWork> WorkLeft => Works.Where(work => !work.IsDone);

    /// <summary>What is to be known the next time, in the order in which it was written.</summary>
    public IReadOnlyList<(Guid Entry, Learned Learned)> Lessons { get; private init; } = [];

    /// <summary>What was said beside the work and taken back.</summary>
    public IReadOnlyList<(Guid Entry, Act Act)> TakenBack { get; private init; } = [];

    /// <summary>What the start waits for.</summary>
    public IEnumerable<ItemTold> HoldingUp => Items.Values.Where(item => item.HoldsUpTheStart && item.State != ItemState.Here);

    /// <summary>The file as it stands without an entry that was taken back.</summary>
    internal CaseFile Without(Guid entry, Act act) => this with { TakenBack = [.. TakenBack, (entry, act)] };

    /// <summary>The file with one act more; the same when the act is about something else.</summary>
    internal CaseFile With(Guid entry, Act act) => act switch
    {
        MachineIdentified machine => this with { Machine = machine.Over(Machine) },
        EvidenceFound evidence => this with { Evidence = [.. Evidence, evidence] },
        CauseNamed cause => this with { Cause = cause },
        ItemTold item => this with { Items = new Dictionary<string, ItemTold>(Items) { [item.Item] = item } },
        AppointmentSet set => this with { Appointments = [.. Appointments, (entry, set)] },
        ReCheckSet set => this with { ReChecks = [.. ReChecks, new ReCheck(entry, set.What, set.On, null)] },
        ReCheckDone done => this with { ReChecks = [.. ReChecks.Select(check => check.Entry == done.ReCheck ? check with { Found = done.Found } : check)] },
        ThingLost lost => this with { Lost = [.. Lost, new LostThing(entry, lost.What, lost.Where, null) { IsMissing = lost.IsMissing }] },
        ThingFound found => this with { Lost = [.. Lost.Select(thing => thing.Entry == found.Thing ? thing with { Found = found.How } : thing)] },
        // Of two who told it in the same words, it is one work.
        WorkTold told => this with { Works = Works.Any(work => work.What == told.What) ? [.. Works.Select(work => work.What == told.What ? work.And(told) : work)] : [.. Works, new OwnWork(told.What, [], IsDone: false).And(told)] },
        WorkDone done => this with { Works = [.. Works.Select(work => work.What == done.What ? work with { IsDone = true } : work)] },
        Learned learned => this with { Lessons = [.. Lessons, (entry, learned)] },
        _ => this,
    };
}
