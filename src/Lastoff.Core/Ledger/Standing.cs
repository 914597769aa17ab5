using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

public enum PartState { Fitted, Loose, Aside, Off }

/// <summary>Something an entry left in doubt, which a person has to look at.</summary>
public sealed record Question(Guid Entry, string By, string Sentence)
{
    /// <summary>The entry that says otherwise; null when the entry alone is in doubt.</summary>
    public Entry? Other { get; init; }

    /// <summary>The joint of which more or fewer fasteners went in than came out; null where it is about something else.</summary>
    public string? CountOf { get; init; }
}

/// <summary>Where a job stands: a pure function of its map and its ledger.</summary>
public sealed class Standing
{
    private static readonly OperationKind[] Kinds = Enum.GetValues<OperationKind>();

    internal Standing(OperationNet net)
    {
        Net = net;
        Done = net.Nothing;
        Disturbed = net.Nothing;
    }

    /// <summary>A copy to count one more entry on.</summary>
    internal Standing(Standing before)
        : this(before.Net)
    {
        Opened = before.Opened;
        Agreed = before.Agreed;
        HandedOver = before.HandedOver;
        Done = before.Done;
        Disturbed = before.Disturbed;
        CoversPutIn = before.CoversPutIn;
        CoversTakenOut = before.CoversTakenOut;
        Parts = [.. before.Parts];
        Joints = [.. before.Joints];
        Again = [.. before.Again];
        Failed = [.. before.Failed];
        Covers = [.. before.Covers];
        OnceCovered = [.. before.OnceCovered];
        Told = new Dictionary<string, CoversIn>(before.Told);
        Clean = [.. before.Clean];
        New = [.. before.New];
        NewOff = [.. before.NewOff];
        Ins = new Dictionary<string, int>(before.Ins);
        Looks = [.. before.Looks];
        Proved = new Dictionary<string, ProofRecorded>(before.Proved);
        Fills = [.. before.Fills];
        EveryFill = [.. before.EveryFill];
        Found = [.. before.Found];
        Broke = [.. before.Broke];
        File = before.File;
        Tight = [.. before.Tight];
        Hands = [.. before.Hands];
        Laid = new Dictionary<string, TraySet>(before.Laid);
        SecondLooks = new Dictionary<string, ReLook>(before.SecondLooks);
        Asked = [.. before.Asked];
        LastWords = new Dictionary<(string Kind, string Target), IReadOnlyList<Said>>(before.LastWords);
        Sights = new Dictionary<string, Sight>(before.Sights);
        Against = [.. before.Against];
        NotRead = [.. before.NotRead];
        Offered = new Dictionary<Guid, PriceOnRecord>(before.Offered);
        Offers = [.. before.Offers];
        Said = [.. before.Said];
        In = [.. before.In];
        AnsweredFor = [.. before.AnsweredFor];
        Over = [.. before.Over];
    }

    /// <summary>On a map nobody has said yet what is to be done: the cause is to be found first.</summary>
    public bool IsUndecided => Opened is { HasMap: true } && GoalParts.Count + GoalJoints.Count == 0;

    /// <summary>What was last said of the old parts.</summary>
    public bool WantsOldParts => Yeses.LastOrDefault(yes => yes.Agreed.OldPartsBack is not null)?.Agreed.OldPartsBack ?? false;

    public OperationNet Net { get; }
    public JobOpened? Opened { get; internal set; }
    public Agreed? Agreed { get; internal set; }
    public HandedOver? HandedOver { get; internal set; }
    /// <summary>The machine, the way to the cause, what has to be here, and what is to be looked at again.</summary>
    public CaseFile File { get; internal set; } = CaseFile.Empty;
    /// <summary>The cause as it is known now.</summary>
    public string Cause => File.Cause?.Cause ?? Opened?.Cause ?? "";
    /// <summary>The operations done and not reversed: what is safe, undone, aside and off at this moment.</summary>
    public OperationSet Done { get; internal set; }
    /// <summary>Every operation this job has ever done, whether or not it has been reversed since.</summary>
    public OperationSet Disturbed { get; internal set; }
    public IReadOnlyCollection<string> GoalParts => Parts;
    public IReadOnlyCollection<string> GoalJoints => Joints;
    /// <summary>The joints that are to come undone once more, because a proof did not come out well.</summary>
    public IReadOnlyCollection<string> ToUndoAgain => Again;

    /// <summary>The proofs that somebody went back in for; they are the first to be taken anew.</summary>
    public IReadOnlyCollection<string> WentBackFor => Failed;
    /// <summary>The openings with a cover in them.</summary>
    public IReadOnlySet<string> Covered => Covers;
    /// <summary>What of an opening's cover is still in, where not all of it came out; else all of it.</summary>
    public string CoverIn(Opening opening) => Told.GetValueOrDefault(opening.Id) is { IsEmpty: false } told ? told.Still : opening.Cover;
    /// <summary>The openings that have had a cover since they were last laid bare.</summary>
    public IReadOnlySet<string> EverCovered => OnceCovered;
    public int CoversPutIn { get; internal set; }
    public int CoversTakenOut { get; internal set; }
    /// <summary>The joints whose faces were cleaned since they were last undone.</summary>
    public IReadOnlySet<string> Cleaned => Clean;
    /// <summary>The renewals in place since what they are for was last disturbed; also a new part that came off once more and goes on again.</summary>
    public IReadOnlySet<string> Renewed => New;
    /// <summary>How often each renewal went in, whatever became of it since: one that had to come out again was used up too.</summary>
    public IReadOnlyDictionary<string, int> PutIn => Ins;
    /// <summary>The joints looked at since they were last made.</summary>
    public IReadOnlySet<string> Looked => Looks;
    public IReadOnlyDictionary<string, ProofRecorded> Readings => Proved;
    /// <summary>The fluid supplies restored and not made safe since, as they were filled.</summary>
    public IReadOnlyList<Moved> Filled => Fills;
    /// <summary>Every supply restored, as often as it was, whatever came out again since: a fluid that is changed goes in more than once.</summary>
    public IReadOnlyList<Moved> Restored => EveryFill;
    /// <summary>What was found at joints that would not come undone, and have not since.</summary>
    public IReadOnlyList<JointStuck> Stuck => Found;
    /// <summary>The bolts tightened, pass by pass, since their joint was last undone.</summary>
    public IReadOnlySet<TightBolt> Tightened => Tight;
    /// <summary>The second looks at tightened joints since they were last undone.</summary>
    public IReadOnlyDictionary<string, ReLook> ReLooked => SecondLooks;
    /// <summary>Who had a hand in tightening or making each joint since it was last undone.</summary>
    public IEnumerable<string> TightenedBy(string joint) => Hands.Where(hand => hand.Joint == joint).Select(hand => hand.By).Order(StringComparer.Ordinal);
    public IReadOnlyList<Question> Questions => Asked;
    /// <summary>What was done against the map, with the reason given: one sentence each.</summary>
    public IReadOnlyList<string> AgainstTheMap => Against;
    /// <summary>What was done beyond the agreed sum without a yes, with the reason given: one sentence each.</summary>
    public IReadOnlyList<string> BeyondAgreed => Over;
    /// <summary>Entries that are kept but not understood here.</summary>
    public IReadOnlyList<string> Unread => NotRead;

    /// <summary>The prices made for this job, in the order of the ledger; those taken back left out.</summary>
    public IReadOnlyList<PriceOnRecord> Prices => Offers;
    public PriceOnRecord? LatestPrice => Offers.Count == 0 ? null : Offers[^1];
    /// <summary>Every yes that counts, in the order of the ledger, each with what was agreed to as it was agreed to.</summary>
    public IReadOnlyList<Yes> Yeses => Said;
    /// <summary>Whoever said yes last, also where more was taken in since: they are asked again. Null while nobody did.</summary>
    public Agreed? LastYes => Said.Count == 0 ? null : Said[^1].Agreed;
    /// <summary>What is agreed now: the last yes that names a price; null when none does.</summary>
    public Yes? AgreedPrice => Said.FindLast(yes => yes.Price is not null);
    public IReadOnlyList<Paid> Payments => In;

    /// <summary>The sentence that says how far the latest price lies over what was agreed; null when it is within the limit, or no price was agreed to.</summary>
    public string? OverAgreed => AgreedPrice is { Price: { } agreed } yes && LatestPrice is { } latest && latest.Price.Total > agreed.Price.Ceiling
        ? $"The latest price, {latest.Price.Total}, is {latest.Price.Total - agreed.Price.Total} over the {agreed.Price.Total} that {yes.Agreed.Who} agreed to{(agreed.Price.Limit is { } limit ? $", more than the {limit} that may come on top" : "")}."
        : null;

    /// <summary>Where the fasteners of undone joints and small parts lie, as far as it was said; and what is left over of joints that are made.</summary>
    public IEnumerable<TraySet> InTrays => Laid.Values.OrderBy(set => set.Tray, StringComparer.Ordinal).ThenBy(set => set.Target, StringComparer.Ordinal);

    internal Dictionary<string, TraySet> Laid { get; } = [];
    internal HashSet<string> Parts { get; } = [];
    internal HashSet<string> Joints { get; } = [];
    internal HashSet<string> Again { get; } = [];
    internal HashSet<string> Failed { get; } = [];
    internal HashSet<string> Covers { get; } = [];
    internal HashSet<string> OnceCovered { get; } = [];
    /// <summary>What recorded lines tell of the covers of each opening.</summary>
    internal Dictionary<string, CoversIn> Told { get; } = [];
    internal HashSet<string> Clean { get; } = [];
    internal HashSet<string> New { get; } = [];
    /// <summary>The new parts that came off once more: another new one may go in.</summary>
    internal HashSet<string> NewOff { get; } = [];
    internal Dictionary<string, int> Ins { get; } = [];
    internal HashSet<string> Looks { get; } = [];
    internal Dictionary<string, ProofRecorded> Proved { get; } = [];
    internal List<Moved> Fills { get; } = [];
    internal List<Moved> EveryFill { get; } = [];
    internal List<JointStuck> Found { get; } = [];
    /// <summary>The joints of which a piece broke, whatever became of them since.</summary>
    internal HashSet<string> Broke { get; } = [];
    internal HashSet<TightBolt> Tight { get; } = [];
    internal HashSet<(string Joint, string By)> Hands { get; } = [];
    internal Dictionary<string, ReLook> SecondLooks { get; } = [];
    internal List<Question> Asked { get; } = [];
    /// <summary>What was last said of each thing; more than one where neither had seen the other.</summary>
    internal Dictionary<(string Kind, string Target), IReadOnlyList<Said>> LastWords { get; } = [];
    /// <summary>What each device had seen when it wrote its last entry.</summary>
    internal Dictionary<string, Sight> Sights { get; } = [];
    internal List<string> Against { get; } = [];
    internal List<string> NotRead { get; } = [];
    /// <summary>Every price there ever was, by its entry, taken back or not: a yes stands on one of them.</summary>
    internal Dictionary<Guid, PriceOnRecord> Offered { get; } = [];
    internal List<PriceOnRecord> Offers { get; } = [];
    internal List<Yes> Said { get; } = [];
    internal List<Paid> In { get; } = [];
    /// <summary>Goals taken in beyond the agreed sum with a reason: no other is asked for at each move.</summary>
    internal HashSet<string> AnsweredFor { get; } = [];
    internal List<string> Over { get; } = [];

    public bool IsDone(OperationKind kind, string target) => Net.TryFind(kind, target, out var operation) && Done.Contains(operation);

    public bool WasDisturbed(OperationKind kind, string target) => Net.TryFind(kind, target, out var operation) && Disturbed.Contains(operation);

    public PartState StateOf(string part) =>
        IsDone(OperationKind.Off, part) ? PartState.Off
        : IsDone(OperationKind.Aside, part) ? PartState.Aside
        : Net.JointsOf[part] is { Count: > 0 } joints && joints.All(j => IsDone(OperationKind.Undo, j.Id)) ? PartState.Loose
        : PartState.Fitted;

    /// <summary>Whether the part, joint or supply is disturbed at this moment: off, aside, undone, or safe.</summary>
    public bool IsOpen(string target) => target == Renewal.Alone ? Disturbed.Count > 0 : HasAny(Done, target);

    /// <summary>Whether the part, joint or supply was ever disturbed in this job.</summary>
    public bool WasOpen(string target) => target == Renewal.Alone ? Disturbed.Count > 0 : HasAny(Disturbed, target);

    /// <summary>Whether it is in its place, and did not come off once more.</summary>
    public bool IsIn(Renewal renewal) => New.Contains(renewal.Id) && !NewOff.Contains(renewal.Id);

    /// <summary>Whether what is bought by this name has come, whether anybody said so or not: it is in. While another of its name is still to go in where something is open by now, that is awaited.</summary>
    public bool HasCome(string item) => ToRenew.Where(target => WasOpen(target) || Broke.Contains(target)).SelectMany(RenewalsOwed)
        .Where(renewal => Net.NameToBuy(renewal) == item).ToList() is { Count: > 0 } owed && owed.TrueForAll(IsIn);

    /// <summary>What renewals can be owed for: by the map, as a goal, or because a piece of it broke.</summary>
    internal IEnumerable<string> ToRenew => Net.RenewalsFor.Keys.Union(Parts).Union(Broke);

    /// <summary>The new piece for each joint of which one broke, where the map does not ask for new ones anyway.</summary>
    public IEnumerable<Renewal> NewPieces => Broke.Order(StringComparer.Ordinal).Select(Net.NewPiece).Where(piece => Net.RenewalsFor.GetValueOrDefault(piece.For, []).All(renewal => renewal.Id != piece.Id));

    /// <summary>The renewals owed once this part, joint or supply is disturbed; the new part itself once a goal is off, and the new piece for what broke.</summary>
    public IEnumerable<Renewal> RenewalsOwed(string target)
    {
        foreach (var renewal in Net.RenewalsFor.GetValueOrDefault(target, []))
        {
            yield return renewal;
        }

        if (Parts.Contains(target) && WasDisturbed(OperationKind.Off, target) && !Net.RenewalsFor.GetValueOrDefault(target, []).Contains(Net.NewPart(target)))
        {
            yield return Net.NewPart(target);
        }

        if (NewPieces.FirstOrDefault(piece => piece.For == target) is { } broken)
        {
            yield return broken;
        }
    }

    /// <summary>An opening is bare while what closes it is away: its joint undone, its part off or laid aside.</summary>
    public bool IsBare(Opening opening) => IsOpen(opening.On);

    private bool HasAny(OperationSet among, string target)
    {
        foreach (var kind in Kinds)
        {
            if (Net.TryFind(kind, target, out var operation) && among.Contains(operation))
            {
                return true;
            }
        }

        return false;
    }
}
