using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Puts the clauses of a line together: what one leaves out, another says.</summary>
internal sealed class LineBuilder
{
    private readonly string _line;
    private readonly ToldSoFar _told;
    private readonly BareNames _bare;
    private readonly DeedsAlone _deeds;
    private readonly Reading? _toldLast;
    private Clause? _first;
    /// <summary>What may have made the machine still: what follows tells.</summary>
    private Heard? _still;
    /// <summary>What was found at it meanwhile: “motor off, O-ring is flat, four bolts”.</summary>
    private readonly List<Heard> _found = [];

    /// <param name="cameOut">The line says of what was stuck that it came.</param>
    /// <param name="toldLast">What was told last in the lines before; null for nothing.</param>
    public LineBuilder(string line, IReadOnlyList<Term> terms, bool cameOut, Reading? toldLast, PhraseBook book)
    {
        _told = new ToldSoFar(line, terms, cameOut, book);
        _bare = new BareNames(line, _told);
        _deeds = new DeedsAlone(_told, _bare, toldLast);
        (_line, _toldLast) = (line, toldLast);
    }

    private Told? Last => _told.Last;

    public void Add(Heard heard)
    {
        _first ??= heard.Clause;
        if (heard.Shape == Shape.Empty)
        {
            Take(heard);
            return;
        }

        if (heard.Shape == Shape.Why)
        {
            if (Last is { Reading: { Deed: Deed.Covered, Cover: { } hold } } && LineReader.IsHold(hold))
            {
                Take(heard);
                return;
            }

            heard = heard with { Shape = Shape.Remark };
        }

        if (_still is { } still)
        {
            if (still.Reading.Part is not null && IsFinding(heard))
            {
                _found.Add(heard);
                return;
            }

            AddStill(still, heard);
        }

        if (heard.Shape is Shape.Still or Shape.Key)
        {
            _still = heard;
            return;
        }

        heard = _deeds.GiveTo(heard);
        if (heard.Clause.Joined == Joined.And && _told.IsNoting && (heard is { SaysDeed: false, Reading.Kind: null } || heard is { Shape: Shape.DeedOnly, Clause.Terms.Count: 1 }))
        {
            // “Marked 1 and 2”, “in and out”.
            _told.Remark(heard);
            return;
        }

        _told.IsNoting = false;
        switch (heard.Shape)
        {
            case Shape.Bare:
                if (_bare.Add(heard) is { } thing)
                {
                    AddThing(thing);
                }

                break;
            case Shape.Thing:
                AddThing(heard);
                break;
            case Shape.Host when Last is { Reading: { Kind: not null, Part: null } before } last && !_bare.Any:
                last.Reading = Merging.Of(before, heard.Reading) with { Part = heard.Reading.Part };
                last.SaysDeed |= heard.SaysDeed;
                last.Note(heard.Clause.Terms);
                break;
            case Shape.Host when Last is { IsRemark: false } && heard is { SaysDeed: false, Reading.Kind: null } && !heard.Clause.IsStart:
                // “Jacked up and on stands”.
                goto default;
            case Shape.Host:
                AddThing(heard with { Shape = Shape.Thing });
                break;
            case Shape.DeedOnly:
                _deeds.Add(heard);
                break;
            case Shape.Attributes:
                AddAttributes(heard);
                break;
            case Shape.State:
                AddState(heard);
                break;
            case Shape.Remark when !_bare.Any && !heard.Clause.IsStart && _first is { } first && _told.FoundLoose(first, heard):
                break;
            default:
                _bare.Flush();
                _told.Remark(heard);
                break;
        }
    }

    public IReadOnlyList<Reading> Finish()
    {
        if (_still is { } still)
        {
            AddStill(still, next: null);
        }

        _deeds.Drop();
        _bare.Flush();
        return _told.Finish(_first);
    }

    private bool IsFinding(Heard heard) => heard is { Shape: Shape.Remark or Shape.State or Shape.Bare, Clause: { IsStart: false } clause } && clause.Terms.Any(term => LineReader.IsSeal(term.Text(_line)));

    /// <summary>All of it is understood.</summary>
    private static void Take(Heard heard)
    {
        foreach (var term in heard.Clause.Terms)
        {
            term.IsUsed = true;
        }
    }

    private void AddStill(Heard still, Heard? next)
    {
        _still = null;
        if (StillReader.CameOff(still, Last is { IsRemark: true } ? null : Last?.Reading ?? _toldLast, next))
        {
            Take(still);
            AddThing(still with { Shape = Shape.Thing, SaysDeed = true });
        }
        else
        {
            _deeds.Drop();
            _bare.Flush();
            _told.Remark(still);
        }

        List<Heard> found = [.. _found];
        _found.Clear();
        found.ForEach(Add);
    }

    private void AddThing(Heard heard)
    {
        if (heard.Reading.Deed is Deed.InTheWay or Deed.NotInTheWay or Deed.Covered or Deed.Uncovered)
        {
            AddBesides(heard);
            return;
        }

        var reading = SameAgain.Named(heard, Last, _line);
        if (!_bare.Any && Last is { } same && SameAgain.Joins(same, heard))
        {
            same.Note(heard.Clause.Terms);
            return;
        }

        if (reading.Kind is not (null or JointKind.Hose or JointKind.Pipe) && reading.Part is null && !heard.SaysHost && _bare.TakeHost() is { } host)
        {
            reading = reading with { Part = host.Part, Count = reading.Count ?? host.Count };
        }

        _bare.Resolve(heard);
        SwitchReader.CameOff(reading, Last);
        _told.GiveTo(reading);
        reading = Belonging.Inherit(reading, heard, Last);
        Belonging.GiveHost(reading, heard, Last);
        var told = _told.New(_told.Ahead.GiveTo(reading), heard);
        _told.Ahead.NoteIn(told);
        told.Note(heard.Clause.Terms);
        _told.Spread(reading.Tray);
    }

    /// <summary>What was in the way, or what covers an opening: said of the thing before where it names none.</summary>
    private void AddBesides(Heard heard)
    {
        var before = Last is { IsRemark: false } last ? last : null;
        var isWay = heard.Reading.Deed is Deed.InTheWay or Deed.NotInTheWay;
        // “Plugs in” are covers behind a hose, and nothing known behind a pump.
        var isNone = !heard.SaysDeed && (before?.Reading ?? _toldLast) is not { Kind: JointKind.Hose or JointKind.Pipe };
        if (isNone || (isWay ? WayReader.Whole(heard.Reading, before?.Reading) : CoverReader.Whole(heard.Reading, before?.Reading ?? _toldLast)) is not { } reading)
        {
            _bare.Flush();
            _told.Remark(heard);
            return;
        }

        if (isWay && heard.Clause.Joined == Joined.And && before is { SaysDeed: false, Reading.Kind: not null } && !_bare.Any)
        {
            // “Hose and bracket in the way of the pump”: it was not undone, either.
            before.Reading = reading with { Part = RecordedThing.JointName(before.Reading) };
        }

        _bare.Resolve(heard);
        _told.New(reading, heard).Note(heard.Clause.Terms);
    }

    private void AddAttributes(Heard heard)
    {
        var reading = heard.Reading;
        if (Last is not null)
        {
            _bare.Flush();
        }

        if (reading.Question is { Doubt: Doubt.ThreadOrSide } && Last?.Reading.IsTurned() != true)
        {
            // What has no thread is on the left.
            reading = reading with { Question = null, At = Position.Left };
        }

        if (Last is null && _bare.Any && reading.IsMeasured())
        {
            // “Valve cover, 8 x 10 mm”.
            AddThing(heard with { Shape = Shape.Thing, Reading = reading with { Kind = Fasteners.Likely(reading.Drive), Deed = Deed.Undone } });
            return;
        }

        if (Last is not { IsRemark: false } last)
        {
            _told.Ahead.Add(heard);
            return;
        }

        if ((reading.Volume_L ?? reading.Question?.Number) is not null && last.Reading.Kind is not null && !reading.IsMeasured())
        {
            if (_told.AddAmount(heard))
            {
                return;
            }

            // “Drain plug out, six litres”.
            _told.New(reading with { Deed = Deed.Drained }, heard).Note(heard.Clause.Terms);
            return;
        }

        var isFastener = reading.IsMeasured();
        if (last.Reading is { Kind: null, Deed: Deed.Off, Count: { } others, Across: null, Tray: null } && last.SaysDeed && reading is { Across: not null, Count: null })
        {
            // “Pump off with the other five, 10 mil”: they are its bolts.
            last.Reading = last.Reading with { Count = null };
            AddThing(heard with { Shape = Shape.Thing, Reading = reading with { Kind = Fasteners.Likely(reading.Drive), Deed = Deed.Undone, Count = others } });
            return;
        }

        if (AnotherGroup.Of(heard, last.Reading) is { } group)
        {
            AddThing(heard with { Shape = Shape.Thing, Reading = group });
            return;
        }

        if (isFastener && last.Reading.Kind is not null && !last.Reading.IsTurned()
            && _told.BeforeLast is { Reading.Across: null } turned && turned.Reading.IsTurned())
        {
            // “Nut off, split pin out, 22 mm”: nobody measures a pin.
            last = turned;
        }

        // “Dipstick tube out, one 10”: the pipe has no head.
        var isHeadless = last.Reading.Kind is null || last is { SaysDeed: true, Reading: { Kind: JointKind.Hose or JointKind.Pipe or JointKind.Connector, Count: null } };
        if (isHeadless && isFastener && reading.Count is not null)
        {
            AddThing(heard with { Shape = Shape.Thing, Reading = reading with { Kind = Fasteners.Likely(reading.Drive), Deed = Deed.Undone } });
            return;
        }

        var before = last.Reading;
        if (heard.Open is { } number)
        {
            var counted = Counting.Behind(before, number, last.IsPlural, true);
            number.IsUsed = counted is not null;
            before = counted ?? before;
        }

        before = Merging.Keyed(before, reading);
        if (Merging.Loses(before, reading))
        {
            ToldSoFar.Keep(heard.Clause);
            (before, reading) = (last.Reading, new Reading());
        }

        last.Reading = Merging.Of(before, reading);
        last.Note(heard.Clause.Terms);
        _told.Spread(reading.Tray);
    }

    private void AddState(Heard heard)
    {
        _bare.Flush();
        var reading = heard.Reading;
        if (Last is { IsRemark: true } && !heard.Clause.IsStart)
        {
            _told.Remark(heard);
        }
        else if (Last is { IsRemark: false } last && (reading.Kind is null || reading.Kind == last.Reading.Kind))
        {
            last.Reading = Merging.Flags(last.Reading, reading);
            if (reading.Broken && heard.Clause.Joined == Joined.And && last.Notes is [.., var looks] && !_line[looks.End..heard.Clause.Whole.Start].Contains(',', StringComparison.Ordinal))
            {
                // “Lip hard and torn”: said in one.
                last.Notes[^1] = (looks.Start, heard.Clause.Whole.End);
                return;
            }

            var isAll = (reading.Count ?? (int?)heard.Open?.Number) is { } count && count == last.Reading.Count;
            // “Eine abgerissen”: one by its article.
            if (heard.Clause.Terms[0].Is(WordKind.Article) || heard.Clause.Terms.Any(term => !term.Is(WordKind.Flags, WordKind.Fillers, WordKind.Article, WordKind.From) && !(isAll && term.Is(WordKind.Number))))
            {
                last.Notes.Add(heard.Clause.Whole);
            }
        }
        else if (reading.Kind is not null)
        {
            AddThing(heard);
        }
        else if (Last is null && OneOfThem.Of(heard, _toldLast) is { } wanted)
        {
            heard.Open?.IsUsed = true;
            _told.New(wanted, heard).Note(heard.Clause.Terms);
        }
        else
        {
            var told = _told.New(_told.Ahead.GiveTo(reading), heard);
            told.Note(heard.Clause.Terms);
        }
    }
}
