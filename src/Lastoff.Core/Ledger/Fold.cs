using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

/// <summary>Folds a ledger to the standing of the job.</summary>
/// <remarks>
/// An entry says what was really done, so it is never thrown away: one that the guards would have refused (two devices met, or the map
/// was wrong) still counts, and leaves a question for a person.
/// </remarks>
public static class Fold
{
    /// <summary>The standing after these entries, in whatever order they are given.</summary>
    public static Standing Of(OperationNet net, IEnumerable<Entry> entries)
    {
        var standing = new Standing(net);
        foreach (var (entry, act, isTakenBack) in CountedEntry.AllOf(EntryOrder.Of(entries)))
        {
            See(standing, entry);
            if (act is null || !isTakenBack)
            {
                Count(standing, entry, act);
            }
            else
            {
                PassOver(standing, entry, act);
            }
        }

        return standing;
    }

    /// <summary>The standing after one entry more, which stands after all the others and takes none of them back.</summary>
    internal static Standing Next(Standing before, Entry entry)
    {
        var standing = new Standing(before);
        See(standing, entry);
        Count(standing, entry, ActKinds.Read(entry, out _));
        return standing;
    }

    /// <summary>Every act that counts, with the standing before and after it, in the order in which they count.</summary>
    public static IEnumerable<(Standing Before, Act Act, Standing After)> Steps(OperationNet net, IEnumerable<Entry> entries)
    {
        var standing = new Standing(net);
        foreach (var (entry, act, isTakenBack) in CountedEntry.AllOf(EntryOrder.Of(entries)))
        {
            if (act is null || isTakenBack)
            {
                See(standing, entry);
                PassOver(standing, entry, act);
                continue;
            }

            var next = Next(standing, entry);
            if (Guards.Check(standing, act!) is not { Kind: RefusalKind.Unknown or RefusalKind.Forbidden or RefusalKind.Already })
            {
                yield return (standing, act!, next);
            }

            standing = next;
        }
    }

    /// <summary>The entries that do not count. A taking back can itself be taken back, so the last word is read first.</summary>
    public static HashSet<Guid> TakenBackEntries(ReadOnlySpan<(Entry Entry, Act? Act)> ordered)
    {
        var gone = new HashSet<Guid>();
        for (var i = ordered.Length - 1; i >= 0; i--)
        {
            if (ordered[i].Act is TakenBack back && !gone.Contains(ordered[i].Entry.Id))
            {
                gone.Add(back.Entry);
            }
        }

        return gone;
    }

    /// <summary>Taken back or not, an entry says what its device had seen.</summary>
    private static void See(Standing standing, Entry entry)
    {
        // Most say nothing: no other device wrote in between.
        if (entry.Seen is not null)
        {
            standing.Sights[entry.Device] = standing.Sights.GetValueOrDefault(entry.Device, Sight.Unsaid).Then(entry);
        }
    }

    /// <summary>A price that was taken back: somebody may have said yes to it before, and to that it stays what was agreed.</summary>
    private static void PassOver(Standing standing, Entry entry, Act? act)
    {
        if (act is not null && Guards.IsBesideTheWork(act))
        {
            standing.File = standing.File.Without(entry.Id, act);
        }

        if (act is Priced priced)
        {
            standing.Offered[entry.Id] = new PriceOnRecord(entry.Id, entry.By, priced, IsTakenBack: true) { Goals = Goals(standing, priced) };
        }
    }

    private static void Count(Standing standing, Entry entry, Act? act)
    {
        if (act is null)
        {
            _ = ActKinds.Read(entry, out var fault);
            standing.NotRead.Add($"Entry {entry.Id} by {entry.By} is kept but not counted, because {fault}.");
            return;
        }

        if (act is LineRecorded line)
        {
            Count(standing, entry, line);
            return;
        }

        var refusal = Guards.Check(standing, act);
        if (refusal is { Kind: RefusalKind.Unknown or RefusalKind.Forbidden })
        {
            standing.Asked.Add(new Question(entry.Id, entry.By, $"{refusal.Sentence} The entry is kept but does not count."));
            return;
        }

        var beyond = PriceGuards.Beyond(standing, act) is not null;
        var againstTheMap = !beyond || act is Moved without && MoveGuards.Check(standing, without with { Despite = null }) is not null;
        var doubts = act is Moved moved ? Doubts.Before(standing, moved) : null;
        PassesMade.Count(standing, entry.By, act);
        Contradictions.Count(standing, entry, act);
        Apply(standing, entry, act);
        if (refusal is { Kind: RefusalKind.OutOfOrder })
        {
            standing.Asked.Add(new Question(entry.Id, entry.By, $"{refusal.Sentence} {entry.By} recorded it all the same: look, and say how it is."));
        }

        standing.Asked.AddRange((doubts?.After(standing) ?? []).Select(sentence => new Question(entry.Id, entry.By, sentence)));
        if (beyond && Despite(act) is { } why)
        {
            standing.Over.Add($"{entry.By} recorded “{What(standing.Net, act)}” ({entry.Kind.Replace('-', ' ')}) beyond the agreed sum: {why}.");
        }

        if (againstTheMap && act is Moved told && Despite(told) is { } reason)
        {
            standing.Against.Add($"{entry.By} recorded “{standing.Net.Operations[standing.Net.Find(told.Move.Operation(), told.Target)].Name}” ({entry.Kind.Replace('-', ' ')}) against the map: {reason}.");
        }
    }

    /// <summary>The reason given for doing what stands against the map or the price, ready to end a sentence.</summary>
    private static string? Despite(Act act) =>
        (act switch { Moved moved => moved.Despite, GoalAdded added => added.Despite, WorkDone done => done.Despite, _ => null }) is { } reason && !string.IsNullOrWhiteSpace(reason) ? reason.Trim().TrimEnd('.') : null;

    private static string What(OperationNet net, Act act) => act switch
    {
        Moved moved => Guards.NameOf(net, moved.Target),
        WorkDone done => done.What,
        GoalAdded added => string.Join("” and “", added.Off.Concat(added.Undo).Select(goal => Guards.NameOf(net, goal))),
        _ => "",
    };

    /// <summary>A recorded line is what the map was made from, so no guard stands against it. Where there is a map, it is a note.</summary>
    private static void Count(Standing standing, Entry entry, LineRecorded line)
    {
        if (standing.Opened is { HasMap: false })
        {
            foreach (var (moved, _) in RecordedThing.Of(entry.Id, line).Where(thing => standing.Net.TryFind(thing.Moved.Move.Operation(), thing.Moved.Target, out _)))
            {
                Contradictions.Count(standing, entry, moved);
                Apply(standing, entry, moved);
            }

            foreach (var cover in RecordedCover.Of(line))
            {
                Count(standing, entry, cover);
            }

            foreach (var here in line.Readings.Where(reading => reading.Deed == Deed.Here).Select(reading => reading.Part ?? ""))
            {
                Count(standing, entry, here);
            }
        }
    }

    /// <summary>What a line says is there, new or found again: what was owed by that name is had, and where there is none it is a word.</summary>
    private static void Count(Standing standing, Entry entry, string here)
    {
        var owed = standing.Net.Map.Renewals.Where(renewal => !standing.Renewed.Contains(renewal.Id) && standing.WasOpen(renewal.For) && RecordedWants.IsMeant(renewal, here, entry.Id));
        foreach (var renewal in owed.ToList())
        {
            Apply(standing, entry, new RenewalFitted(renewal.Id));
        }
    }

    /// <summary>A cover that came out although none went in, or another one, is asked about: it is the count that is wrong, or the name.</summary>
    private static void Count(Standing standing, Entry entry, RecordedCover cover)
    {
        if (cover.Act is OpeningUncovered && !standing.Covered.Contains(cover.Opening))
        {
            standing.Asked.Add(new Question(entry.Id, entry.By, $"“{cover.Name}”: by this line the {cover.Cover} came out of it, and none went in on record. Look, and say how it is."));
            return;
        }

        var told = standing.Told.GetValueOrDefault(cover.Opening, CoversIn.None);
        if (told.After(cover) is not { } now)
        {
            standing.Asked.Add(new Question(entry.Id, entry.By, $"“{cover.Name}”: by this line the {cover.Cover} came out of it, and on record the {told.Still} is in, which still counts as in. Look, and say how it is."));
            return;
        }

        // While some of it is in, it is covered.
        if (cover.Act is OpeningCovered || now.IsEmpty)
        {
            Contradictions.Count(standing, entry, cover.Act);
            Apply(standing, entry, cover.Act);
        }

        standing.Told[cover.Opening] = now;
    }

    private static void Apply(Standing standing, Entry entry, Act act)
    {
        standing.File = standing.File.With(entry.Id, act);
        switch (act)
        {
            case JobOpened opened:
                standing.Opened = opened;
                standing.Parts.UnionWith(opened.Off);
                standing.Joints.UnionWith(opened.Undo);
                break;
            case GoalAdded added:
                standing.Parts.UnionWith(added.Off);
                standing.Joints.UnionWith(added.Undo);
                // More work is more than was agreed: it wants a yes of its own.
                standing.Agreed = null;
                if (!string.IsNullOrWhiteSpace(added.Despite))
                {
                    standing.AnsweredFor.UnionWith([.. added.Off, .. added.Undo]);
                }

                break;
            case WorkTold:
                standing.Agreed = null;
                break;
            case BackIn back:
                // What failed is to be shown anew, whatever was opened for it; what somebody else has open by now is got to.
                standing.Proved.Remove(back.Proof);
                standing.Failed.Add(back.Proof);
                if (!standing.IsDone(OperationKind.Undo, back.Joint))
                {
                    standing.Again.Add(back.Joint);
                }

                break;
            case Priced priced:
                var price = new PriceOnRecord(entry.Id, entry.By, priced, IsTakenBack: false) { Goals = Goals(standing, priced) };
                standing.Offered[entry.Id] = price;
                standing.Offers.Add(price);
                break;
            case Agreed agreed:
                standing.Agreed = agreed;
                var to = agreed.Price is { } named ? standing.Offered[named.Entry] : null;
                standing.Parts.UnionWith(to?.Priced.Also ?? []);
                standing.Said.Add(new Yes(
                    entry.Id, entry.By, agreed, to,
                    standing.Parts.ToHashSet(), standing.Joints.ToHashSet()));
                break;
            case Paid paid:
                standing.In.Add(paid);
                break;
            case Moved moved:
                Trays.Count(standing, entry, moved);
                Apply(standing, moved);
                break;
            case JointStuck stuck:
                if (!standing.IsDone(OperationKind.Undo, stuck.Joint))
                {
                    Stuck.Add(standing.Found, stuck);
                }

                if (stuck.Broke)
                {
                    standing.Broke.Add(stuck.Joint);
                    standing.New.Remove(standing.Net.NewPiece(stuck.Joint).Id);
                }

                break;
            case OpeningCovered covered when standing.Covers.Add(covered.Opening):
                standing.CoversPutIn++;
                standing.OnceCovered.Add(covered.Opening);
                Tell(standing, covered.Opening, covered);
                break;
            case OpeningUncovered uncovered when standing.Covers.Remove(uncovered.Opening):
                standing.CoversTakenOut++;
                Tell(standing, uncovered.Opening, uncovered);
                break;
            case FaceCleaned cleaned:
                standing.Clean.Add(cleaned.Joint);
                break;
            case RenewalFitted fitted when standing.New.Add(fitted.Renewal) || standing.NewOff.Remove(fitted.Renewal):
                standing.Ins[fitted.Renewal] = standing.Ins.GetValueOrDefault(fitted.Renewal) + 1;
                break;
            case LastLookTaken look:
                standing.Looks.Add(look.Joint);
                break;
            case ProofRecorded proof:
                standing.Proved[proof.Proof] = proof;
                break;
            case Settled settled:
                standing.Asked.RemoveAll(q => q.Entry == settled.Entry && Contradictions.IsSettledBy(standing, q, entry));
                Trays.Settle(standing, settled.Entry);
                break;
            case HandedOver handed:
                standing.HandedOver = handed;
                break;
        }
    }

    private static void Tell(Standing standing, string opening, Act act)
    {
        if (standing.Told.TryGetValue(opening, out var told))
        {
            standing.Told[opening] = told.After(act);
        }
    }

    /// <summary>The new part, where it was on and came off once more: it goes on again, unless another new one is fitted. A seal does not, by whatever name it is a part (common practice, no source).</summary>
    private static string? GoesOnAgain(Standing standing, Moved moved) =>
        standing.Net.Parts.TryGetValue(moved.Target, out var part) && standing.Net.NewPart(part.Id).Id is var id && standing.New.Contains(id) && !LineReader.IsSeal(part.Name) ? id : null;

    private static HashSet<string> Goals(Standing standing, Priced priced) => [.. standing.Parts, .. standing.Joints, .. standing.File.Works.Select(work => work.What), .. priced.Also];

    private static void Apply(Standing standing, Moved moved)
    {
        var operation = standing.Net.Find(moved.Move.Operation(), moved.Target);
        standing.Fills.RemoveAll(filled => filled.Target == moved.Target);
        if (moved.Move.IsBack())
        {
            if (moved.Move == Move.SupplyRestored)
            {
                // Told once more with nothing let out between, it went in once.
                if (!standing.Done.Contains(operation) && standing.EveryFill.FindLastIndex(filled => filled.Target == moved.Target) is >= 0 and var same)
                {
                    standing.EveryFill.RemoveAt(same);
                }

                standing.EveryFill.Add(moved);
            }

            standing.Done = standing.Done.Without(operation);
            if (standing.Net.Parts.ContainsKey(moved.Target))
            {
                standing.NewOff.Remove(standing.Net.NewPart(moved.Target).Id);
            }

            if (moved.Move == Move.SupplyRestored && (moved.Amount_L is not null || moved.Poured is not null || moved.ChangesLeft is not null))
            {
                standing.Fills.Add(moved);
            }

            return;
        }

        if (standing.Done.Contains(operation))
        {
            return;
        }

        var openings = standing.Net.OpeningsOn.GetValueOrDefault(moved.Target, []);
        // A cover that was closed in is still there.
        standing.OnceCovered.ExceptWith(openings.Where(o => !standing.IsBare(o) && !standing.Covers.Contains(o.Id)).Select(o => o.Id));
        standing.Done = standing.Done.With(operation);
        standing.Disturbed = standing.Disturbed.With(operation);
        standing.Again.Remove(moved.Target);
        // Undone, it is not stuck any more.
        standing.Found.RemoveAll(stuck => moved.Move == Move.JointUndone && stuck.Joint == moved.Target);
        // Disturbed anew: what was renewed, cleaned, looked at and proved before no longer holds.
        standing.Clean.Remove(moved.Target);
        standing.Looks.Remove(moved.Target);
        var again = GoesOnAgain(standing, moved);
        standing.New.ExceptWith(standing.Net.RenewalsFor.GetValueOrDefault(moved.Target, []).Select(r => r.Id).Where(id => id != again));
        if (again is not null)
        {
            standing.NewOff.Add(again);
        }
        else if (moved.Move == Move.PartOff)
        {
            standing.New.Remove(standing.Net.NewPart(moved.Target).Id);
        }

        foreach (var proof in standing.Net.Map.Proofs.Where(p => ProofNeeds.IsUndoneBy(standing.Net, p, standing.Net.Operations[operation])))
        {
            standing.Proved.Remove(proof.Id);
        }
    }
}
