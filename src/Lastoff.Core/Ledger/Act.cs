using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What a person did, in the shape the ledger records. <see cref="ActKinds"/> pairs each with its kind of entry.</summary>
public abstract record Act
{
    public abstract string Kind { get; }

    /// <summary>What goes into the entry's <c>data</c>.</summary>
    public abstract JsonObject ToData();
}

/// <summary>The first entry of every job.</summary>
/// <param name="Map">The map's name; empty when there is none, and the job is recorded as it goes.</param>
/// <param name="Off">The parts to take off and renew.</param>
/// <param name="Undo">The joints to get at.</param>
public sealed record JobOpened(
    string Map,
    string Machine,
    string Complaint,
    string Cause,
    IReadOnlyList<string> Off,
    IReadOnlyList<string> Undo) : Act
{
    /// <summary>Without a map, the goal shows itself: what comes off is told line by line.</summary>
    public bool HasMap => Map.Length > 0;

    /// <summary>SHA-256, in hex, of the map's text in UTF-8: the job stands on that text for good, however the map is edited. Null in ledgers from before jobs said so.</summary>
    public string? MapSha256 { get; init; }

    /// <summary>The job that this machine comes back from, because something is wrong with it again; null as a rule.</summary>
    public Guid? ComebackOf { get; init; }

    public override string Kind => ActKinds.JobOpened;

    /// <summary>The entry that opens the job, among its entries in any order; null when it is not there or cannot be read.</summary>
    public static JobOpened? In(IEnumerable<Entry> entries) =>
        entries.Where(entry => entry.Kind == ActKinds.JobOpened).MinBy(entry => entry.Id) is { } opening ? ActKinds.Read(opening, out _) as JobOpened : null;

    public override JsonObject ToData()
    {
        var data = new JsonObject
        {
            ["map"] = Map,
            ["machine"] = Machine,
            ["complaint"] = Complaint,
            ["cause"] = Cause,
            ["off"] = ActKinds.List(Off),
            ["undo"] = ActKinds.List(Undo),
        };
        if (MapSha256 is not null)
        {
            data["map_sha256"] = MapSha256;
        }

        if (ComebackOf is { } job)
        {
            data["comeback_of"] = job.ToString();
        }

        return data;
    }
}

/// <summary>More work taken into a running job.</summary>
public sealed record GoalAdded(IReadOnlyList<string> Off, IReadOnlyList<string> Undo) : Act
{
    /// <summary>Why it is taken in although the price is over what was agreed; it is then on the record. Null as a rule.</summary>
    public string? Despite { get; init; }

    public override string Kind => ActKinds.GoalAdded;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["off"] = ActKinds.List(Off), ["undo"] = ActKinds.List(Undo) };
        if (Despite is not null)
        {
            data["despite"] = Despite;
        }

        return data;
    }
}

/// <summary>The customer's yes.</summary>
/// <param name="Way">In person, by telephone, in writing.</param>
public sealed record Agreed(string Who, string Way, string What) : Act
{
    /// <summary>The way of a yes that the customer gave on the page of their link.</summary>
    public const string ByLink = "by the signed link";

    private const string Back = "back";
    private const string NotBack = "not_back";

    /// <summary>The price that was agreed to; null when none was on record, and in ledgers from before prices were.</summary>
    public AgreedPrice? Price { get; init; }

    /// <summary>Whether the customer wants the old parts back; null when that was not said.</summary>
    public bool? OldPartsBack { get; init; }

    /// <summary>What was advised and the customer does not want done now.</summary>
    public IReadOnlyList<string> Declined { get; init; } = [];

    public override string Kind => ActKinds.Agreed;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["who"] = Who, ["way"] = Way, ["what"] = What };
        Price?.AddTo(data);
        if (OldPartsBack is { } back)
        {
            data["old_parts"] = back ? Back : NotBack;
        }

        if (Declined.Count > 0)
        {
            data["declined"] = ActKinds.List(Declined);
        }

        return data;
    }

    /// <exception cref="FormatException">It is no yes.</exception>
    internal static Agreed Read(Entry entry) => new(ActKinds.Text(entry, "who"), ActKinds.Text(entry, "way"), ActKinds.Text(entry, "what"))
    {
        Price = AgreedPrice.Read(entry),
        OldPartsBack = ActKinds.OptionalText(entry, "old_parts") switch
        {
            null => null,
            Back => true,
            NotBack => false,
            _ => throw new FormatException("it does not say whether the old parts go back"),
        },
        Declined = entry.Data.TryGetProperty("declined", out _) ? ActKinds.Texts(entry, "declined") : [],
    };
}

/// <summary>A move of one operation: a supply made safe or restored, a joint undone or made, a part off, aside, home or fitted.</summary>
/// <param name="Despite">Why it was done although the map says it cannot be; it is then on the record. Null as a rule.</param>
/// <param name="Amount_L">For a fluid supply, what came out or went in.</param>
public sealed record Moved(Move Move, string Target, string? Despite = null, double? Amount_L = null) : Act
{
    /// <summary>More fasteners than this are no set.</summary>
    public const int MostCounted = 1000;

    /// <summary>For a fluid supply restored, what went in.</summary>
    public Poured? Poured { get; init; }

    /// <summary>For a fluid supply restored, how often it is to be changed once more, because something else had got in; null for not at all.</summary>
    public int? ChangesLeft { get; init; }

    /// <summary>For a fluid supply restored, how much of what had got in is left by the sum of the changes, parts in a million; null when nothing had, or nobody knows how much.</summary>
    public double? Left_ppm { get; init; }

    /// <summary>For a joint undone, where its fasteners were put, and for a part that came off, where that was; null when it was not said.</summary>
    public string? Tray { get; init; }

    /// <summary>For a joint done up in one go, what it was tightened to; null when nobody said.</summary>
    public double? Torque_Nm { get; init; }

    /// <summary>The wrench it was done with; null when none was named.</summary>
    public WrenchUsed? With { get; init; }

    /// <summary>For a joint, how many fasteners came out or went in; null when they were not counted.</summary>
    public int? Count { get; init; }

    public override string Kind => ActKinds.Of(Move);

    public override JsonObject ToData()
    {
        var data = new JsonObject { [ActKinds.TargetName(Move)] = Target };
        if (Despite is not null)
        {
            data["despite"] = Despite;
        }

        if (Amount_L is not null)
        {
            data["amount_L"] = Amount_L;
        }

        if (Poured is not null)
        {
            data["poured"] = Poured.ToData();
        }

        if (ChangesLeft is not null)
        {
            data["changes_left"] = ChangesLeft;
        }

        if (Left_ppm is not null)
        {
            data["left_ppm"] = Left_ppm;
        }

        if (Tray is not null)
        {
            data["tray"] = Tray;
        }

        if (Count is not null)
        {
            data["count"] = Count;
        }

        if (Torque_Nm is not null)
        {
            data["torque_Nm"] = Torque_Nm;
        }

        With?.AddTo(data);

        return data;
    }
}

/// <summary>A joint that would not come undone: seized, rounded off, not to be got at after all.</summary>
/// <param name="ExtraMinutes">How many minutes more it is now thought to take.</param>
/// <param name="IsClosed">It cannot be undone.</param>
/// <param name="Text">What was found, in the words of the one who found it; may be empty.</param>
/// <param name="With">The tool, and <paramref name="At"/> the place, of the one way this is about; null when it is about every way.</param>
public sealed record JointStuck(string Joint, double ExtraMinutes, bool IsClosed, string Text, string? With = null, Position? At = null) : Act
{
    /// <summary>A piece of it broke, and a new one has to go in: the joint need not be stuck any longer.</summary>
    public bool Broke { get; init; }

    public override string Kind => ActKinds.JointStuck;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["joint"] = Joint, ["text"] = Text };
        if (IsClosed)
        {
            data["closed"] = true;
        }
        else
        {
            data["extra_minutes"] = ExtraMinutes;
        }

        if (Broke)
        {
            data["broke"] = true;
        }

        if (With is not null && At is { } at)
        {
            data["with"] = With;
            data["at"] = Words<Position>.Of(at);
        }

        return data;
    }
}

/// <summary>The cover or plug goes into an opening, or comes out again.</summary>
public sealed record OpeningCovered(string Opening) : Act
{
    public override string Kind => ActKinds.OpeningCovered;

    public override JsonObject ToData() => new() { ["opening"] = Opening };
}

public sealed record OpeningUncovered(string Opening) : Act
{
    public override string Kind => ActKinds.OpeningUncovered;

    public override JsonObject ToData() => new() { ["opening"] = Opening };
}

/// <summary>The faces of a joint are clean and dry.</summary>
public sealed record FaceCleaned(string Joint) : Act
{
    public override string Kind => ActKinds.FaceCleaned;

    public override JsonObject ToData() => new() { ["joint"] = Joint };
}

/// <summary>A new seal, fastener, fluid, filter, sundry or part is in place, or ready to go on with the next move.</summary>
public sealed record RenewalFitted(string Renewal) : Act
{
    public override string Kind => ActKinds.RenewalFitted;

    public override JsonObject ToData() => new() { ["renewal"] = Renewal };
}

/// <summary>A made joint was looked at once more before something hides it.</summary>
public sealed record LastLookTaken(string Joint) : Act
{
    public override string Kind => ActKinds.LastLook;

    public override JsonObject ToData() => new() { ["joint"] = Joint };
}

public enum Verdict { Good, Bad, Unclear }

/// <summary>A reading and what it says.</summary>
public sealed record ProofRecorded(string Proof, Verdict Verdict, string Reading) : Act
{
    /// <summary>What it was judged from; null when a person looked, and judged alone.</summary>
    public Evidence? Evidence { get; init; }
    /// <summary>Why the verdict is another than the readings say; null when it is not.</summary>
    public string? Overruled { get; init; }
    /// <summary>Whether the verdict is another than the readings say.</summary>
    public bool IsOverruled => Evidence is not null && Evidence.Says != Verdict;

    public override string Kind => ActKinds.ProofRecorded;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["proof"] = Proof, ["verdict"] = ActKinds.Word(Verdict), ["reading"] = Reading };
        if (Evidence is not null)
        {
            data["evidence"] = Evidence.ToData();
        }

        if (Overruled is not null)
        {
            data["overruled"] = Overruled;
        }

        return data;
    }
}

public sealed record Noted(string Text, string? About = null) : Act
{
    public override string Kind => ActKinds.Noted;

    public override JsonObject ToData() => About is null
        ? new() { ["text"] = Text }
        : new() { ["text"] = Text, ["about"] = About };
}

/// <summary>An earlier entry does not count. It stays in the ledger.</summary>
public sealed record TakenBack(Guid Entry) : Act
{
    public override string Kind => ActKinds.TakenBack;

    public override JsonObject ToData() => new() { ["entry"] = Entry.ToString() };
}

/// <summary>A person looked at what an entry left in question and says how it is.</summary>
public sealed record Settled(Guid Entry, string How) : Act
{
    public override string Kind => ActKinds.Settled;

    public override JsonObject ToData() => new() { ["entry"] = Entry.ToString(), ["how"] = How };
}

/// <summary>The machine goes back to its owner.</summary>
/// <param name="Override">Who hands over although something is open, and why; null as a rule.</param>
public sealed record HandedOver(string To, Override? Override) : Act
{
    /// <summary>What became of the complaint. Without a map no proof asks for it, so whoever hands over may say it; null where nobody did.</summary>
    public string? ComplaintNow { get; init; }

    public override string Kind => ActKinds.HandedOver;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["to"] = To };
        if (ComplaintNow is not null)
        {
            data["complaint_now"] = ComplaintNow;
        }

        if (Override is not null)
        {
            data["override"] = new JsonObject { ["by"] = Override.By, ["reason"] = Override.Reason };
        }

        return data;
    }
}

public sealed record Override(string By, string Reason);
