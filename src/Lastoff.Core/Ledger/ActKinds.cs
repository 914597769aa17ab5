using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

/// <summary>The kinds of entry, and how an entry's data is read back into what was done.</summary>
public static class ActKinds
{
    public const string JobOpened = "job-opened";
    public const string GoalAdded = "goal-added";
    public const string Priced = "priced";
    public const string Agreed = "agreed";
    public const string Paid = "paid";
    public const string MachineIdentified = "machine-identified";
    public const string EvidenceFound = "evidence-found";
    public const string CauseNamed = "cause-named";
    public const string ItemTold = "item-told";
    public const string AppointmentSet = "appointment-set";
    public const string ReCheckSet = "re-check-set";
    public const string ReCheckDone = "re-check-done";
    public const string BackIn = "back-in";
    public const string ThingLost = "thing-lost";
    public const string ThingFound = "thing-found";
    public const string Learned = "learned";
    public const string WorkTold = "work-told";
    public const string WorkDone = "work-done";
    public const string JointStuck = "joint-stuck";
    public const string OpeningCovered = "opening-covered";
    public const string OpeningUncovered = "opening-uncovered";
    public const string FaceCleaned = "face-cleaned";
    public const string RenewalFitted = "renewal-fitted";
    public const string LastLook = "last-look";
    public const string JointTightened = "joint-tightened";
    public const string ReLook = "re-look";
    public const string ProofRecorded = "proof-recorded";
    public const string LineRecorded = "line-recorded";
    public const string LineCorrected = "line-corrected";
    public const string Noted = "noted";
    public const string PhotoTaken = "photo-taken";
    public const string TakenBack = "taken-back";
    public const string Settled = "settled";
    public const string HandedOver = "handed-over";

    /// <summary>In the order of <see cref="Move"/>.</summary>
    private static readonly (string Kind, string Target)[] MoveKinds =
    [
        ("supply-safe", "supply"),
        ("joint-undone", "joint"),
        ("part-aside", "part"),
        ("part-off", "part"),
        ("supply-restored", "supply"),
        ("joint-made", "joint"),
        ("part-home", "part"),
        ("part-fitted", "part"),
    ];

    private static readonly Dictionary<string, Move> MovesByKind = Enum.GetValues<Move>().ToDictionary(Of);

    public static string Of(Move move) => MoveKinds[(int)move].Kind;

    public static string TargetName(Move move) => MoveKinds[(int)move].Target;

    /// <summary>What the entry records; null when its kind is unknown here or its data does not fit, with the reason as the end of a sentence.</summary>
    public static Act? Read(Entry entry, out string? fault)
    {
        fault = null;
        try
        {
            if (MovesByKind.TryGetValue(entry.Kind, out var move))
            {
                return new Moved(move, Text(entry, TargetName(move)), OptionalText(entry, "despite"), OptionalNumber(entry, "amount_L"))
                {
                    Poured = Poured.Read(entry.Data),
                    ChangesLeft = OptionalCount(entry, "changes_left"),
                    Left_ppm = OptionalNumber(entry, "left_ppm"),
                    Tray = OptionalText(entry, "tray"),
                    Count = OptionalCount(entry, "count"),
                    Torque_Nm = OptionalNumber(entry, "torque_Nm"),
                    With = WrenchUsed.Read(entry),
                };
            }

            Act? act = entry.Kind switch
            {
                JobOpened => new JobOpened(
                    Text(entry, "map"), Text(entry, "machine"), Text(entry, "complaint"), Text(entry, "cause"), Texts(entry, "off"), Texts(entry, "undo"))
                {
                    MapSha256 = OptionalHash(entry, "map_sha256"),
                    ComebackOf = OptionalText(entry, "comeback_of") is { } job ? Guid.TryParse(job, out var id) ? id : throw new FormatException("the job it comes back from is no identifier") : null,
                },
                GoalAdded => new GoalAdded(Texts(entry, "off"), Texts(entry, "undo")) { Despite = OptionalText(entry, "despite") },
                Priced => Ledger.Priced.Read(entry),
                Agreed => Ledger.Agreed.Read(entry),
                Paid => Ledger.Paid.Read(entry),
                MachineIdentified => Ledger.MachineIdentified.Read(entry),
                EvidenceFound => Ledger.EvidenceFound.Read(entry),
                CauseNamed => new CauseNamed(Text(entry, "cause"), Text(entry, "correction")),
                ItemTold => Ledger.ItemTold.Read(entry),
                AppointmentSet => Ledger.AppointmentSet.Read(entry),
                ReCheckSet => Ledger.ReCheckSet.Read(entry),
                ReCheckDone => Ledger.ReCheckDone.Read(entry),
                BackIn => new BackIn(Text(entry, "joint"), Text(entry, "proof")),
                ThingLost => Ledger.ThingLost.Read(entry),
                ThingFound => Ledger.ThingFound.Read(entry),
                Learned => new Learned(Text(entry, "text"), OptionalText(entry, "about")),
                WorkTold => new WorkTold(Text(entry, "what"), OptionalText(entry, "before")),
                WorkDone => new WorkDone(Text(entry, "what"), OptionalText(entry, "despite")),
                JointStuck => StuckOf(entry),
                OpeningCovered => new OpeningCovered(Text(entry, "opening")),
                OpeningUncovered => new OpeningUncovered(Text(entry, "opening")),
                FaceCleaned => new FaceCleaned(Text(entry, "joint")),
                RenewalFitted => new RenewalFitted(Text(entry, "renewal")),
                LastLook => new LastLookTaken(Text(entry, "joint")),
                JointTightened => Ledger.JointTightened.Read(entry),
                ReLook => new ReLookTaken(Text(entry, "joint")),
                ProofRecorded => new ProofRecorded(Text(entry, "proof"), VerdictOf(Text(entry, "verdict")), Text(entry, "reading"))
                {
                    Evidence = Evidence.Read(entry.Data),
                    Overruled = OptionalText(entry, "overruled"),
                },
                LineRecorded => Ledger.LineRecorded.Read(entry),
                LineCorrected => Ledger.LineCorrected.Read(entry),
                Noted => new Noted(Text(entry, "text"), OptionalText(entry, "about")),
                PhotoTaken => Ledger.PhotoTaken.Read(entry),
                TakenBack => new TakenBack(EntryOf(entry)),
                Settled => new Settled(EntryOf(entry), Text(entry, "how")),
                HandedOver => new HandedOver(Text(entry, "to"), OverrideOf(entry)) { ComplaintNow = OptionalText(entry, "complaint_now") },
                _ => null,
            };
            fault = act is null ? $"its kind “{entry.Kind}” is not known to this version" : null;
            return act;
        }
        catch (FormatException e)
        {
            fault = e.Message;
            return null;
        }
    }

    internal static JsonArray List(IEnumerable<string> items) => new([.. items.Select(i => JsonValue.Create(i))]);

    internal static string Text(Entry entry, string name) =>
        OptionalText(entry, name) ?? throw new FormatException($"its data has no text “{name}”");

    internal static string? OptionalText(Entry entry, string name) =>
        entry.Data.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    internal static string? OptionalHash(Entry entry, string name) =>
        OptionalText(entry, name) is not { } text ? null
        : Entry.IsSha256(text) ? text
        : throw new FormatException($"its {name} is not a SHA-256");

    internal static double? OptionalNumber(Entry entry, string name) =>
        entry.Data.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    /// <summary>An amount in digits, with its currency beside it; null when there is none.</summary>
    /// <exception cref="FormatException">It is there, and is no amount of money.</exception>
    internal static Money? MoneyOf(Entry entry, string name)
    {
        if (OptionalText(entry, name) is not { } digits)
        {
            return null;
        }

        var currency = Currency.Of(Text(entry, "currency")).Or(_ => throw new FormatException("its currency is not known"));
        return decimal.TryParse(digits, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount) && Money.Fault(amount, currency) is null
            ? Money.Of(amount, currency)
            : throw new FormatException($"its {name} is no amount of {currency}");
    }

    /// <summary>A count that is no whole number of things is no count.</summary>
    private static int? OptionalCount(Entry entry, string name) => !entry.Data.TryGetProperty(name, out var value) ? null
        : value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var count) && count is >= 0 and <= Moved.MostCounted ? count
        : throw new FormatException($"its {name} is not a whole number from 0 to {Moved.MostCounted}");

    internal static List<string> Texts(Entry entry, string name) =>
        entry.Data.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.Array
        && value.EnumerateArray().All(item => item.ValueKind == JsonValueKind.String)
            ? [.. value.EnumerateArray().Select(item => item.GetString()!)]
            : throw new FormatException($"its data has no list “{name}”");

    /// <exception cref="FormatException">The word is not known.</exception>
    internal static T WordOf<T>(Entry entry, string name) where T : struct, Enum =>
        Words<T>.TryRead(Text(entry, name), out var value) ? value : throw new FormatException($"its {name} is none of {string.Join(", ", Words<T>.All)}");

    internal static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <exception cref="FormatException">It is no day.</exception>
    internal static DateOnly DayOf(Entry entry, string name) =>
        DateOnly.TryParseExact(Text(entry, name), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
        : throw new FormatException($"its {name} is no day, such as 2031-05-30");

    private static Guid EntryOf(Entry entry) =>
        Guid.TryParse(Text(entry, "entry"), out var id) ? id : throw new FormatException("its data names no entry");

    private static JointStuck StuckOf(Entry entry)
    {
        var isClosed = entry.Data.TryGetProperty("closed", out var closed) && closed.ValueKind == JsonValueKind.True;
        var with = OptionalText(entry, "with");
        Position? at = with is null ? null
            : Words<Position>.TryRead(Text(entry, "at"), out var place) ? place
            : throw new FormatException("its place is not known");
        return new JointStuck(
            Text(entry, "joint"), isClosed ? 0 : OptionalNumber(entry, "extra_minutes") ?? 0, isClosed, OptionalText(entry, "text") ?? "", with, at)
        {
            Broke = entry.Data.TryGetProperty("broke", out var broke) && broke.ValueKind == JsonValueKind.True,
        };
    }

    internal static string Word(Verdict verdict) => verdict.ToString().ToLowerInvariant();

    /// <exception cref="FormatException">The word is not known.</exception>
    internal static Verdict VerdictOf(string word) => word switch
    {
        "good" => Verdict.Good,
        "bad" => Verdict.Bad,
        "unclear" => Verdict.Unclear,
        _ => throw new FormatException("its verdict is not good, bad or unclear"),
    };

    private static Override? OverrideOf(Entry entry)
    {
        if (!entry.Data.TryGetProperty("override", out var value) || value.ValueKind != JsonValueKind.Object)
        {
            return null;
        }

        return value.TryGetProperty("by", out var by) && by.ValueKind == JsonValueKind.String
            && value.TryGetProperty("reason", out var reason) && reason.ValueKind == JsonValueKind.String
            ? new Override(by.GetString()!, reason.GetString()!)
            : throw new FormatException("its override names nobody or gives no reason");
    }
}
