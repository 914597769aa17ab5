using System.Text.Json.Serialization.Metadata;
using Lastoff.App.Device;
using Lastoff.App.Exchange;
using Lastoff.App.Jobs;
using Lastoff.Core.Estimating;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.App.PlanReading;

/// <summary>A job's plan on from where it stands, and all that is asked of it at the desk. The plan is there at once; the rest is the server's work, one question after the other.</summary>
public sealed class PlanQuestions : IDisposable
{
    private readonly Guid _id;
    private readonly ShelvedMap _map;
    private readonly Store _store;
    private readonly Courier _courier;
    private readonly Desk _desk;
    private readonly TimesHere _times;
    private readonly CancellationTokenSource _over = new();
    private readonly CancellationToken _isOver;
    private bool _hasAsked;

    /// <param name="job">As it stands now; what is recorded later makes the answers older than the job.</param>
    public PlanQuestions(Guid id, Job job, ShelvedMap map, Store store, Courier courier, Desk desk, TimesHere times)
    {
        (_id, Job, _map, _store, _courier, _desk, _times) = (id, job, map, store, courier, desk, times);
        _isOver = _over.Token;
        _store.Heard += Hear;
        _courier.Changed += Ask;
    }

    public event Action? Changed;

    public Job Job { get; }

    public OperationNet Net => Job.Net;

    /// <summary>Null until it is made, and when there is none.</summary>
    public Plan? Plan { get; private set; }

    /// <summary>Why there is no plan; null when there is one, or none is made yet.</summary>
    public string? NoPlan { get; private set; }

    /// <summary>What the plan takes by the times of the other jobs on this device; null when too few are timed.</summary>
    public PlanTimes? Times { get; private set; }

    /// <summary>Nothing is left to move, so there is nothing to ask.</summary>
    public bool IsThrough => Plan is { Out.Count: 0, Back.Count: 0 };

    /// <summary>The job has gone on since.</summary>
    public bool IsOlder { get; private set; }

    /// <summary>The questions wait until the server is reached and has all that this device has.</summary>
    public bool IsOutOfReach { get; private set; }

    public Inquiry<ForkedPlan> Forks { get; private set; } = Inquiry<ForkedPlan>.Open;

    public Inquiry<List<Extra>> Extras { get; private set; } = Inquiry<List<Extra>>.Open;

    public Inquiry<HandsPlan> TwoHands { get; private set; } = Inquiry<HandsPlan>.Open;

    public async Task StartAsync()
    {
        // The screen is painted before the planner takes the only thread.
        await Task.Delay(1);
        // Before anything is undone the plan of the job's own screen is this one.
        if (Job.Standing.Disturbed.Count == 0 && await _store.PlanAsync(_id) is { } kept && kept.Map == _map.Fingerprint && NextStep.Fits(Job.Standing, kept.Plan))
        {
            Plan = kept.Plan;
        }
        else
        {
            var made = Planner.Make(Job.Standing, GoalLeft.Of(Job.Standing), PlanLimits.AtOnce);
            (Plan, NoPlan) = (made.Plan, made.Refusal);
        }

        Changed?.Invoke();
        Ask();
        await TimeAsync();
    }

    /// <summary>Asks once more what got no answer.</summary>
    public void AskAgain()
    {
        _hasAsked = false;
        (Forks, Extras, TwoHands) = (Reopened(Forks), Reopened(Extras), Reopened(TwoHands));
        Ask();

        static Inquiry<T> Reopened<T>(Inquiry<T> asked) where T : class => asked.Found is null ? Inquiry<T>.Open : asked;
    }

    public void Dispose()
    {
        _store.Heard -= Hear;
        _courier.Changed -= Ask;
        _over.Cancel();
        _over.Dispose();
    }

    private void Hear(Guid job)
    {
        if (job == _id && !IsOlder)
        {
            IsOlder = true;
            Changed?.Invoke();
        }
    }

    private async void Ask()
    {
        var isOutOfReach = _courier.HasTried && !_courier.IsReached;
        if (isOutOfReach != IsOutOfReach)
        {
            IsOutOfReach = isOutOfReach;
            Changed?.Invoke();
        }

        if (_hasAsked || Plan is null || IsThrough || !_courier.IsReached || _courier.Waiting > 0)
        {
            return;
        }

        _hasAsked = true;
        try
        {
            Forks = await AskAsync(Forks, "forks", AppJson.Default.ForkedPlan);
            Plan = Forks.Found?.Plan ?? Plan;
            Changed?.Invoke();
            Extras = await AskAsync(Extras, "extras", AppJson.Default.ListExtra);
            Changed?.Invoke();
            TwoHands = await AskAsync(TwoHands, "two-hands", AppJson.Default.HandsPlan);
            await TimeAsync();
        }
        catch (OperationCanceledException)
        {
            // The page was left.
        }
    }

    /// <summary>What is answered already is not asked again.</summary>
    private async Task<Inquiry<T>> AskAsync<T>(Inquiry<T> had, string what, JsonTypeInfo<T> type) where T : class =>
        had.Found is not null ? had : (await _desk.AskAsync(_id, what, Job.Entries.Count, _map.Fingerprint, type, _isOver)).TryGet(out var found, out var why) ? new(found, null) : new(null, why);

    private async Task TimeAsync()
    {
        Times = Plan is { } plan && !IsThrough ? await _times.OfAsync(_id, Net, plan.WithoutTrouble()) : null;
        Changed?.Invoke();
    }
}
