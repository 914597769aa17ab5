using Lastoff.App.Device;

namespace Lastoff.App.Jobs;

/// <summary>Whether the customer's yes is what comes next, or waits while what was agreed goes on. That it waits stays so over a reload: a yes that nobody gave must not lie under the thumb.</summary>
public sealed class YesNext(JobSession session, Store store)
{
    private const string Waiting = "asked";

    private string? _putOff;

    public bool IsPutOff => MayWait && _putOff == Asked;

    /// <summary>What was agreed goes on meanwhile; more does not. Nothing goes on before the first yes, and in a recording none is asked for before all is told.</summary>
    public bool MayWait => session.Standing.Agreed is not null || (session.Job.IsRecorded ? !IsAllTold : HasBegun);

    /// <summary>It is asked for now, before anything else.</summary>
    public bool IsNext =>
        (session.Standing.OverAgreed is not null || (session.Standing.Agreed is null && (!session.Job.IsRecorded || IsAllTold)))
        && !IsPutOff;

    private string Name => $"yes {session.Id}";

    /// <summary>What the yes is asked to: to another price, or more work, it is asked for anew, and once more when nothing else is left to do.</summary>
    private string Asked =>
        $"{session.Standing.LatestPrice?.Entry} {string.Join(' ', session.Standing.GoalParts.Concat(session.Standing.GoalJoints).Order(StringComparer.Ordinal).Concat(session.Standing.File.Works.Select(work => work.What)))} {session.Plan is not null && IsAllTold}";

    /// <summary>Something was agreed and is in hand: an opening that lies bare does not wait until the customer answers.</summary>
    private bool HasBegun => session.Standing.LastYes is not null && session.Standing.Disturbed.Count > 0;

    private bool IsAllTold => session.Next is null && !session.IsPlanning;

    public async Task LoadAsync() => _putOff = (await store.TextsAsync(Name)).GetValueOrDefault(Waiting);

    public Task PutOffAsync()
    {
        _putOff = Asked;
        return store.KeepTextsAsync(Name, new() { [Waiting] = Asked });
    }

    public Task AskAgainAsync()
    {
        _putOff = null;
        return store.KeepTextsAsync(Name, []);
    }
}
