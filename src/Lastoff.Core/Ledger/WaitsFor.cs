using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

/// <summary>What sort of thing a job waits for.</summary>
public enum WaitKind
{
    /// <summary>People whose entries do not fit together must say how it is.</summary>
    Settling,
    /// <summary>The customer's yes: to the work, or to a price of it.</summary>
    Yes,
    /// <summary>A part, seal, fluid or tool that is not here.</summary>
    Item,
    /// <summary>A day that was agreed: the machine comes in, or is fetched.</summary>
    Day,
    /// <summary>Photos that the ledger names and the server does not have.</summary>
    Photos,
    /// <summary>Somebody who goes on with the work, or begins it.</summary>
    Hand,
    /// <summary>Nothing is open: it only has to be handed over.</summary>
    HandOver,
}

/// <summary>One thing that a job waits for before it goes on, and whom.</summary>
/// <param name="Whom">The people by their names; empty for the customer, for whoever delivers, and where it is nobody's yet.</param>
/// <param name="Since">When it was offered, ordered or last worked on; null when nobody said.</param>
public sealed record WaitsFor(WaitKind Kind, IReadOnlyList<string> Whom, DateTimeOffset? Since)
{
    /// <summary>The sum that a yes is wanted to; null when no price is made.</summary>
    public Money? Sum { get; init; }

    /// <summary>How it stands with what is not here.</summary>
    public ItemTold? Item { get; init; }

    /// <summary>The day that was agreed.</summary>
    public AppointmentSet? Day { get; init; }

    /// <summary>What is in question, in one sentence.</summary>
    public string? Question { get; init; }

    /// <summary>How many photos are on their way.</summary>
    public int Photos { get; init; }

    /// <summary>What an open job waits for, what holds up most first; empty once it is handed over.</summary>
    /// <param name="now">The clock of whoever reads it.</param>
    public static IReadOnlyList<WaitsFor> Of(Job job, DateTimeOffset now)
    {
        var standing = job.Standing;
        if (standing.Opened is null || standing.HandedOver is not null)
        {
            return [];
        }

        List<WaitsFor> waits = [.. Settling(job), .. Yes(job), .. Items(job), .. Days(standing, now)];
        // Where nobody knows yet what is to be done, the cause is looked for first.
        if (standing.Agreed is not null || !standing.Opened.HasMap || standing.IsUndecided)
        {
            waits.Add(Work(job));
        }

        return waits;
    }

    /// <summary>The photos that are not at the server.</summary>
    /// <param name="takenBy">Of each photo, who took it.</param>
    public static IReadOnlyList<WaitsFor> OfPhotos(IEnumerable<string> takenBy) =>
        [.. takenBy.GroupBy(by => by).Select(one => new WaitsFor(WaitKind.Photos, [one.Key], null) { Photos = one.Count() })];

    private static IEnumerable<WaitsFor> Settling(Job job) =>
        from question in job.Standing.Questions
        select new WaitsFor(WaitKind.Settling, [.. ((string?[])[question.Other?.By, question.By]).OfType<string>().Distinct()], At(job, question.Entry)) { Question = question.Sentence };

    private static IEnumerable<WaitsFor> Yes(Job job)
    {
        var standing = job.Standing;
        if (standing.OverAgreed is not null || (standing.Agreed is null && standing.LatestPrice is not null))
        {
            var price = standing.LatestPrice!;
            yield return new WaitsFor(WaitKind.Yes, [], At(job, price.Entry)) { Sum = price.Price.Total };
        }
        else if (standing.Agreed is null && standing.Opened!.HasMap && !standing.IsUndecided)
        {
            yield return new WaitsFor(WaitKind.Yes, [], null);
        }
    }

    /// <summary>What is ordered or the wrong one, and what may not be missing at the start while nothing is undone.</summary>
    private static IEnumerable<WaitsFor> Items(Job job)
    {
        var standing = job.Standing;
        return
            from item in standing.File.Items.Values
            where item.State is ItemState.Ordered or ItemState.Wrong || (item.State == ItemState.Missing && item.HoldsUpTheStart && standing.Disturbed.Count == 0)
            where !standing.HasCome(item.Item)
            orderby item.HoldsUpTheStart descending, item.Awaited ?? DateOnly.MaxValue, item.Item
            select new WaitsFor(WaitKind.Item, [], ToldAt(job, item)) { Item = item };
    }

    private static IEnumerable<WaitsFor> Days(Standing standing, DateTimeOffset now) =>
        from made in standing.File.Appointments.Where(made => made.Set.On > now).OrderBy(made => made.Set.On).Take(1)
        select new WaitsFor(WaitKind.Day, [], null) { Day = made.Set };

    /// <summary>Whoever was last at the machine; nobody while nothing is done.</summary>
    private static WaitsFor Work(Job job)
    {
        if (job.Standing.Disturbed.Count > 0 && OpenItems.Of(job.Standing).Count == 0)
        {
            return new WaitsFor(WaitKind.HandOver, [], null);
        }

        var gone = Fold.TakenBackEntries([.. job.Entries.Where(entry => entry.Kind == ActKinds.TakenBack).Select(entry => (entry, ActKinds.Read(entry, out _)))]);
        var last = job.Entries.LastOrDefault(entry => !gone.Contains(entry.Id) && ActKinds.Read(entry, out _) is { } act && IsAtTheMachine(act));
        return last is null ? new WaitsFor(WaitKind.Hand, [], null) : new WaitsFor(WaitKind.Hand, [last.By], last.At);
    }

    private static bool IsAtTheMachine(Act act) =>
        act is Moved or OpeningCovered or OpeningUncovered or FaceCleaned or RenewalFitted or LastLookTaken or ReLookTaken or JointTightened or JointStuck or ProofRecorded or LineRecorded;

    private static DateTimeOffset? At(Job job, Guid entry) => job.Entries.FirstOrDefault(e => e.Id == entry)?.At;

    private static DateTimeOffset? ToldAt(Job job, ItemTold item) =>
        job.Entries.LastOrDefault(entry => entry.Kind == ActKinds.ItemTold && ActKinds.Read(entry, out _) is ItemTold told && told == item)?.At;
}
