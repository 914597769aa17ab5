using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The readings of a line in the making, in its order, with what belongs to several of them: the tray, what was said ahead, what no field took.</summary>
/// <param name="cameOut">It says of what was stuck that it came.</param>
internal sealed class ToldSoFar(string line, IReadOnlyList<Term> terms, bool cameOut, PhraseBook book)
{
    private readonly List<Told> _told = [];
    private readonly HashSet<string> _offParts = [];
    private readonly SharedTray _trays = new();
    private readonly NoteText _notes = new(line, terms);

    public Ahead Ahead { get; } = new();
    public Told? Last => _told.Count > 0 ? _told[^1] : null;
    /// <summary>The lead that was told last, or the hose, be it with what clamped it behind: tied up, it is off no less, and comes home once.</summary>
    public Told? Hanging => BesideCovers is { Lead: not null } lead ? lead
        : BesideCovers is { Reading: { Kind: JointKind.Clamp or JointKind.Clip or JointKind.Tie, Part: { } hose } } ? _told.FindLast(told => IsOffHose(told) && (told.Reading.Name ?? told.Reading.Part) == hose)
        : BesideCovers is { } last && IsOffHose(last) ? last
        : null;
    /// <summary>What was told last, but for covers: “hoses off, plugs in the ends, tied up” are the hoses, and no ends.</summary>
    public Told? BesideCovers { get; private set; }
    public Told? BeforeLast => _told.Count > 1 ? _told[^2] : null;
    /// <summary>What was drained last, where nobody said yet how much: an amount alone is of that.</summary>
    public Told? Unmeasured => _told.FindLast(told => told.Reading.Deed == Deed.Drained) is { Reading: { Fluid: not null, Volume_L: null, Question: null } } fluid ? fluid : null;
    /// <summary>The clause before was a remark.</summary>
    public bool IsNoting { get; set; }

    public Told New(Reading reading, Heard? heard = null, bool isRemark = false)
    {
        var told = new Told(reading, heard?.SaysDeed ?? false, heard?.IsVerbFirst ?? false, heard?.IsPlural ?? false) { IsRemark = isRemark, IsOfDeed = heard?.Clause.Has(WordKind.DeedsOf) ?? false, Lead = LeadOf(reading, heard) };
        _told.Add(told);
        BesideCovers = reading.Deed is Deed.Covered or Deed.Uncovered ? BesideCovers : told;
        if (reading is { Deed: Deed.Off, Part: { } part })
        {
            _offParts.Add(part);
        }

        return told;
    }

    private static bool IsOffHose(Told told) => told is { SaysDeed: true, Reading: { Kind: JointKind.Hose or JointKind.Pipe, Deed: Deed.Undone } };

    private string? LeadOf(Reading reading, Heard? heard) => reading.Kind == JointKind.Connector ? heard?.Clause.Terms.Select(term => term.Text(line)).LastOrDefault(LineReader.IsLead) : null;

    /// <summary>“Gear oil drained, 14 mm plug, 0.8 litre”: of the oil, whatever was told between.</summary>
    public bool AddAmount(Heard heard)
    {
        if (Unmeasured is not { } fluid)
        {
            return false;
        }

        fluid.Reading = Merging.Of(fluid.Reading, heard.Reading);
        fluid.Note(heard.Clause.Terms);
        return true;
    }

    /// <summary>“Three bolts, bracket off”: fasteners whose part is named when it comes off.</summary>
    public void GiveTo(Reading part)
    {
        if (part is { Kind: null, Deed: Deed.Off, Part: not null } && _told.TrueForAll(told => !told.IsRemark && told.Reading is { Part: null, Name: null, Deed: Deed.Undone } && told.Reading.IsTurned()))
        {
            _told.ForEach(told => told.Reading = told.Reading with { Part = part.Part });
        }
    }

    /// <summary>“Fan belt loose, had a look, leave it”: found so and not loosened, and all of it is a remark.</summary>
    /// <param name="first">The first clause of the line, which told of it.</param>
    public bool FoundLoose(Clause first, Heard heard)
    {
        var (start, end) = heard.Clause.Whole;
        if (_told is not [{ Reading: { Deed: Deed.Loose, Kind: null, Part: not null } }] || !book.Has(line[start..end].ToLowerInvariant(), WordKind.LeftBe))
        {
            return false;
        }

        _told.Clear();
        Keep(first);
        Keep(heard.Clause);
        New(new Reading(), isRemark: true).Notes.Add((first.Whole.Start, end));
        IsNoting = true;
        return true;
    }

    /// <summary>Keeps the words of a clause as they are.</summary>
    public void Remark(Heard heard)
    {
        Keep(heard.Clause);
        IsNoting = true;
        var whole = heard.Clause.Whole;
        if (heard.Shape != Shape.Still && heard.Clause is { Joined: not Joined.Stop, Terms: [.., var end, { Kind: WordKind.Tray } tray] } && Last is { Reading: { Kind: not null, Tray: null } })
        {
            // “Left to right in tray 3”.
            tray.IsUsed = true;
            whole.End = end.End;
            Spread(tray.Value);
        }

        if (Last is { } last && (last.IsRemark || heard.Clause.Joined is not Joined.Stop))
        {
            // Remarks that follow each other stay one, with the signs between them.
            if (last.IsRemark && last.Notes is [.., var note])
            {
                last.Notes[^1] = (note.Start, whole.End);
            }
            else
            {
                last.Notes.Add(whole);
            }
        }
        else
        {
            var isRemark = Ahead.Reading is null;
            var told = New(Ahead.GiveTo(new Reading()), isRemark: isRemark);
            Ahead.NoteIn(told);
            told.Notes.Add(whole);
        }
    }

    /// <summary>Takes nothing of the clause for understood.</summary>
    public static void Keep(Clause clause)
    {
        foreach (var term in clause.Terms)
        {
            term.IsUsed = false;
        }
    }

    public void Spread(string? tray) => _trays.Spread(tray, _told);

    /// <param name="first">The first clause that says something; it stands as a remark where nothing else does.</param>
    public IReadOnlyList<Reading> Finish(Clause? first)
    {
        if (Ahead.Reading is not null)
        {
            Ahead.NoteIn(New(Ahead.GiveTo(new Reading())));
        }

        if (_told.Count == 0 && first is not null)
        {
            Remark(new Heard(first, Shape.Remark, new Reading()));
        }

        foreach (var term in _notes.Rest(_told).ToArray())
        {
            (Last ?? New(new Reading())).Notes.Add((term.Start, term.End));
        }

        return [.. _told.Select(Finished)];
    }

    private Reading Finished(Told told)
    {
        var reading = told.Reading with { Note = _notes.Of(told.Notes) };
        var isOff = cameOut || told.SaysDeed || _offParts.Contains(reading.Part ?? "");
        return reading is { Seized: true, Broken: false, Deed: Deed.Undone, Kind: not null, Question: null } && !isOff
            ? reading with { Question = new Question(Doubt.IsItOut) }
            : reading;
    }
}
