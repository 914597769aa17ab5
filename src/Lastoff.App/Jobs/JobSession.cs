using System.Runtime.InteropServices.JavaScript;
using Lastoff.App.Device;
using Lastoff.App.Exchange;
using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Jobs;

/// <summary>One job on the screen. Its entries give the job, the job its standing and plan, and those are all the screen shows.</summary>
public sealed class JobSession(Guid id, ShelvedMap? map, Store store, Courier courier, Desk desk, Person person) : IDisposable
{
    private const int MostTries = 5;

    private bool _isGoingBack;

    private bool _isRecording;
    private bool _isFirst;
    private CancellationTokenSource? _asking;
    /// <summary>A better plan that waits until the step in hand is done.</summary>
    private Plan? _better;
    private (string Why, Standing Before, Plan Had)? _surprise;
    private LinesByHand? _byHand;

    public event Action? Changed;

    public Guid Id => id;
    public OperationNet Net => Job.Net;
    public Job Job { get; private set; } = Read(map, []);
    public Standing Standing => Job.Standing;
    public IReadOnlyList<OpenItem> Open { get; private set; } = [];
    public Plan? Plan { get; private set; }
    /// <summary>Why there is no plan; null when there is one, or none is made yet.</summary>
    public string? NoPlan { get; private set; }
    /// <summary>What the last surprise did to the plan; null when there was none, or it has been seen.</summary>
    public PlanChange? Change { get; private set; }
    /// <summary>True while a plan is being worked out.</summary>
    public bool IsPlanning { get; private set; }
    /// <summary>True while the server looks for a better one.</summary>
    public bool IsAsking => _asking is not null;
    public bool IsBetterWaiting => _better is not null;
    public PlanStep? Next { get; private set; }
    public YesNext Yes => field ??= new YesNext(this, store);
    /// <summary>The step that somebody is at; null while the yes comes first, in a recording without one, and after the handover, when <see cref="Next"/> is only what would come.</summary>
    public PlanStep? InHand => Standing.HandedOver is not null || Yes.IsNext || (Job.IsRecorded && Standing.Agreed is null) ? null : Next;
    public Stage Stage => Stages.Of(Standing, Next, Yes.IsPutOff);
    public IReadOnlyList<OperationSet> Layers { get; private set; } = [];
    /// <summary>In the order in which they were taken.</summary>
    public IReadOnlyList<Photo> Photos { get; private set; } = [];
    public IEnumerable<Photo> PhotosOf(string target) => Photos.Where(photo => photo.Taken.About == target);

    /// <summary>What earlier jobs on this map taught, the newest first.</summary>
    public IReadOnlyList<Lesson> LearnedBefore { get; private set; } = [];

    /// <summary>What gave trouble at earlier jobs on this map.</summary>
    public IReadOnlyList<TroubleRate> TroubleBefore { get; private set; } = [];

    /// <summary>Which tray fasteners go into.</summary>
    public TrayInHand Trays { get; } = new(store, id);

    /// <summary>The proof that somebody takes before the one whose turn it is; null for none.</summary>
    public string? ProofFirst
    {
        get;
        set
        {
            field = value;
            Show();
        }
    }

    /// <summary>What was written into the next price, and left out of it: at first what was in the last one. It stays until a price is offered, here or elsewhere, so that a sheet closed by mistake loses nothing.</summary>
    public LinesByHand ByHand
    {
        get => _byHand ?? Standing.LatestPrice?.Priced.ByHand ?? LinesByHand.None;
        set => _byHand = value;
    }

    /// <summary>What a photo taken now is of: the step in hand, or in a recording what was told of last; null for the job as a whole.</summary>
    public string? AtHand => InHand?.Target ?? (Job.IsRecorded ? OutAndHome.Of(Job).Select(row => row.Act).OfType<Moved>().LastOrDefault()?.Target : null);

    /// <summary>The entry to take back next; null when there is none.</summary>
    public Entry? Last { get; private set; }
    /// <summary>Why the last act was not recorded; null when it was.</summary>
    public Refusal? Refusal { get; private set; }

    /// <summary>The litres that came out when a fluid was last made safe; null when nobody measured.</summary>
    public double? LitresOut(string supply) =>
        OutAndHome.Of(Job).Select(row => row.Act).OfType<Moved>().LastOrDefault(m => m.Move == Move.SupplySafe && m.Target == supply)?.Amount_L;

    public async Task LoadAsync()
    {
        store.Heard += Hear;
        courier.Changed += Ask;
        if (map is not null && await store.PlanAsync(id) is { } kept && kept.Map == map.Fingerprint)
        {
            (Plan, _isFirst) = (kept.Plan, kept.IsFirst);
        }

        // Before anything is shown: a yes that was put off must not lie under the thumb, not even for a moment.
        await Yes.LoadAsync();
        await ReadAsync();
        await Trays.LoadAsync();
        Ask();
        if (map is not null && Standing.HandedOver is null)
        {
            LearnedBefore = await OtherJobs.LessonsAsync(store, id, Net.Map.Name);
            TroubleBefore = await OtherJobs.TroubleAsync(store, id, Net.Map.Name);
            Changed?.Invoke();
        }
    }

    /// <summary>Records an act: true once it is on the disk, false when it is refused, with the reason in <see cref="Refusal"/>.</summary>
    /// <param name="shot">The photo that the act names.</param>
    /// <param name="then">What was done with it in one: it follows at once, and the plan is looked at after both.</param>
    public async Task<bool> RecordAsync(Act act, Shot? shot = null, Func<Act>? then = null)
    {
        if (_isRecording)
        {
            return false;
        }

        _isRecording = true;
        var before = Standing;
        var isHalf = false;
        try
        {
            Refusal = null;
            if (!await DecideAsync(act, shot, isLast: then is null))
            {
                return false;
            }

            isHalf = then is not null;
            if (then is not null && !await DecideAsync(then(), null))
            {
                return false;
            }

            isHalf = false;
            return true;
        }
        catch (Exception e) when (e is JSException or InvalidOperationException)
        {
            Refusal = new Refusal(RefusalKind.Forbidden, Say($"This was not recorded, because the device could not write it down ({e.Message.TrimEnd('.')}); make room on the device and try again."));
            Changed?.Invoke();
            return false;
        }
        finally
        {
            _isRecording = false;
            if (isHalf)
            {
                await LookAsync(before, [act]);
            }
        }
    }

    /// <summary>Records an act of a form: null once it is on the disk, or else why it is not, to be told beside the form.</summary>
    public async Task<string?> TryAsync(Act act)
    {
        if (await RecordAsync(act))
        {
            return null;
        }

        var why = Refusal is { } refused ? Say(refused.Sentence) : Say("This was not recorded, because another entry is being written; try again.");
        ForgetRefusal();
        return why;
    }

    /// <summary>For a job without a map: from taking off to putting back, or the other way.</summary>
    public async Task TurnAsync(bool isGoingBack)
    {
        if (Job.IsRecorded && _isGoingBack != isGoingBack)
        {
            _isGoingBack = isGoingBack;
            await LookAsync(Standing, []);
        }
    }

    public void ForgetRefusal()
    {
        Refusal = null;
        Changed?.Invoke();
    }

    public void ForgetChange()
    {
        (Change, _surprise) = (null, null);
        Changed?.Invoke();
    }

    public void Dispose()
    {
        store.Heard -= Hear;
        courier.Changed -= Ask;
        _asking?.Cancel();
    }

    private async Task<bool> DecideAsync(Act act, Shot? shot, bool isLast = true)
    {
        for (var tries = 0; tries < MostTries; tries++)
        {
            var decision = Job.Decide(act, person.Pen());
            if (decision.Entry is not { } entry)
            {
                Refusal = decision.Refusal;
                Changed?.Invoke();
                return false;
            }

            if (await store.KeepAsync(id, entry, shot: shot))
            {
                var before = Standing;
                Take(Job.With(entry));
                courier.Call();
                if (isLast)
                {
                    await LookAsync(before, [act]);
                }

                return true;
            }

            await ReadAsync();
        }

        Refusal = new Refusal(RefusalKind.Forbidden, Say("This was not recorded, because another window of this app is writing in the same job; close it and try again."));
        Changed?.Invoke();
        return false;
    }

    private static Job Read(ShelvedMap? map, IEnumerable<Entry> entries) => map is null ? Job.Recorded(entries) : Job.From(map.Net, entries);

    private async void Hear(Guid job)
    {
        if (job == id)
        {
            await ReadAsync();
        }
    }

    /// <summary>A recorded job's map grows with it, and nothing may be shown that was read off an older one.</summary>
    private void Take(Job job)
    {
        if (job.Standing.LatestPrice?.Entry != Standing.LatestPrice?.Entry)
        {
            // The next price begins with what is in this one, whoever made it.
            _byHand = null;
        }

        var isOther = job.IsRecorded && job.Entries.Count(MakesMap) != Job.Entries.Count(MakesMap);
        Job = job;
        if (isOther)
        {
            (Plan, Next) = (null, null);
            Layers = Core.Planning.Layers.Of(Net, Strip());
        }

        static bool MakesMap(Entry entry) => entry.Kind is ActKinds.LineRecorded or ActKinds.LineCorrected or ActKinds.TakenBack;
    }

    private async Task ReadAsync()
    {
        var entries = await store.EntriesAsync(id);
        // An entry that was kept while they were read is not among them, and is not to vanish from the screen for it.
        var (before, known) = (Standing, Job.Entries.Select(e => e.Id).ToHashSet());
        if (entries.Any(entry => !known.Contains(entry.Id)))
        {
            Take(Read(map, entries.UnionBy(Job.Entries, entry => entry.Id)));
            await LookAsync(before, Job.Entries.Where(e => !known.Contains(e.Id)).Select(e => ActKinds.Read(e, out _)).OfType<Act>());
        }
    }

    /// <summary>Reads off the standing what the screen shows, and makes a new plan when the old one no longer leads to the end.</summary>
    /// <param name="before">Where the job stood before these acts.</param>
    private async Task LookAsync(Standing before, IEnumerable<Act> acts)
    {
        (Change, _surprise) = (null, null);
        Open = OpenItems.Of(Standing);
        Last = Job.LastToTakeBack(person.Device);
        Photos = Core.Ledger.Photos.Of(Job);
        if (Job.IsRecorded && !_isGoingBack)
        {
            // Nobody asks for the way back while things still come off.
            Plan = null;
        }
        else if (Plan is not null && NextStep.Fits(Standing, Plan))
        {
            await TakeOverAsync();
        }
        else
        {
            await PlanAsync(before, acts);
        }

        Show();
    }

    private void Show()
    {
        Next = Plan is null ? null : NextStep.Of(Standing, Plan);
        if (Next is { Kind: StepKind.Prove } && ProofFirst is { } first && NextStep.ProofsNow(Standing).Any(proof => proof.Id == first))
        {
            Next = NextStep.ToProve(Net, Plan!, first);
        }

        Layers = Core.Planning.Layers.Of(Net, Strip());
        Changed?.Invoke();
    }

    private async Task PlanAsync(Standing before, IEnumerable<Act> acts)
    {
        // A recorded job's map is another after every line, and no plan of an older one is held against it.
        var had = Job.IsRecorded ? null : Plan;
        _asking?.Cancel();
        (_asking, _better, IsPlanning) = (null, null, true);
        Changed?.Invoke();
        // The screen is painted before the planner takes the only thread.
        await Task.Delay(1);
        if (Job.IsRecorded && !_isGoingBack)
        {
            // The hand has turned to taking off again meanwhile.
            IsPlanning = false;
            return;
        }

        var goal = GoalLeft.Of(Standing);
        var planned = had is null ? Planner.Make(Standing, goal, PlanLimits.AtOnce) : Planner.Remake(Standing, goal, had, PlanLimits.AtOnce);
        (Plan, NoPlan, IsPlanning) = (planned.Plan, planned.Refusal, false);
        _isFirst = planned.Plan?.ProvenOptimal == false;
        if (had is not null && before.Opened is not null && acts.Select(act => Surprise.Of(before, act, had)).LastOrDefault(why => why is not null) is { } why)
        {
            _surprise = (why, before, had);
        }

        Tell();
        Show();
        // And it shows the plan before that is written down.
        await Task.Delay(1);
        await KeepPlanAsync();
        Ask();
    }

    /// <summary>Asks the server for a better plan than the first one, once it has all that this device has.</summary>
    private async void Ask()
    {
        // Of a job without a map there is one way back, and it is found here.
        if (map is null || Plan is not { } first || !_isFirst || IsAsking || IsPlanning || !courier.IsReached || courier.Waiting > 0)
        {
            return;
        }

        using var asking = new CancellationTokenSource();
        _asking = asking;
        Changed?.Invoke();
        var found = await desk.PlanAsync(id, Job.Entries.Count, map.Fingerprint, asking.Token);
        if (_asking == asking)
        {
            _asking = null;
            if (found is not null && ReferenceEquals(Plan, first))
            {
                (_better, _isFirst) = (found, false);
                await TakeOverAsync();
            }

            Show();
        }
    }

    /// <summary>Lets a better plan in, but not under the hands of someone at work: the step on the screen stays until it is done.</summary>
    private async Task TakeOverAsync()
    {
        if (_better is not { } better || Plan is not { } had)
        {
            return;
        }

        var isInHand = InHand is { } shown && NextStep.Of(Standing, had) is { } next && Takeover.IsSame(next, shown);
        if (!Takeover.IsBetter(Standing, had, better))
        {
            _better = null;
        }
        else if (Takeover.LeavesInHand(Standing, isInHand ? Next : null, better))
        {
            var (why, before) = ("A shorter way was found", Standing);
            if (Standing.Disturbed.Count > 0 && PlanChange.Between(why, before, had, Standing, better) is var change && change.MinutesAfter < change.MinutesBefore)
            {
                _surprise ??= (why, before, had);
            }

            (Plan, _better) = (better, null);
            Tell();
        }

        await KeepPlanAsync();
    }

    /// <summary>Says what became of the plan since it was last as the person knew it.</summary>
    private void Tell() =>
        Change = _surprise is var (why, before, had) && Plan is not null ? PlanChange.Between(why, before, had, Standing, Plan) : null;

    private async Task KeepPlanAsync()
    {
        // The map of a recorded job is another after every line, so its plan is made anew.
        if (Plan is not null && map is not null)
        {
            try
            {
                await store.KeepPlanAsync(id, new KeptPlan(map.Fingerprint, Plan, _isFirst || _better is not null));
            }
            catch (JSException)
            {
                // Without room for it the plan is only made again at the next start.
            }
        }
    }

    private OperationSet Strip() => OperationSet.Of(Net.Operations.Count, Standing.Disturbed.Concat(
        from step in Plan?.Out ?? []
        let move = step.Kind.AsMove()
        where move is not null
        select Net.Find(move.Value.Operation(), step.Target)));
}
