using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Puts the clauses of a line together: what one leaves out, another says.</summary>
internal sealed class LineBuilder
{
    private readonly string _line;
    private readonly ToldSoFar _told;
    private readonly BareNames _bare;
    private readonly Reading? _toldLast;
    private Clause? _first;
    private Heard? _deedBefore;
    /// <summary>What may have made the machine still: what follows tells.</summary>
    private Heard? _still;

    /// <param name="cameOut">The line says of what was stuck that it came.</param>
    /// <param name="toldLast">What was told last in the lines before; null for nothing.</param>
    public LineBuilder(string line, IReadOnlyList<Term> terms, bool cameOut, Reading? toldLast)
    {
        _told = new ToldSoFar(line, terms, cameOut);
        _bare = new BareNames(line, _told);
        (_line, _toldLast) = (line, toldLast);
    }

    private Told? Last => _told.Last;

    public void Add(Heard heard)
    {
        _first ??= heard.Clause;
        if (heard.Shape == Shape.Empty)
        {
            foreach (var term in heard.Clause.Terms)
            {
                term.IsUsed = true;
            }

            return;
        }

        if (_still is { } still)
        {
            _still = null;
            AddStill(still, heard);
        }

        if (heard.Shape is Shape.Still or Shape.Key)
        {
            _still = heard;
            return;
        }

        if (heard is { Shape: Shape.Bare } && _deedBefore is { } deed)
        {
            heard = heard with { Shape = Shape.Thing, SaysDeed = true, Reading = heard.Reading with { Deed = deed.Reading.Deed, Kind = deed.Reading.Kind } };
        }

        if (heard.Shape == Shape.Thing && heard.SaysDeed)
        {
            _deedBefore = null;
        }
        else if (heard.Shape != Shape.DeedOnly)
        {
            DropDeed();
        }

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
                AddDeed(heard);
                break;
            case Shape.Attributes:
                AddAttributes(heard);
                break;
            case Shape.State:
                AddState(heard);
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

        DropDeed();
        _bare.Flush();
        return _told.Finish(_first);
    }

    private void AddStill(Heard still, Heard? next)
    {
        if (StillReader.CameOff(still, Last is { IsRemark: true } ? null : Last?.Reading ?? _toldLast, next))
        {
            foreach (var term in still.Clause.Terms)
            {
                term.IsUsed = true;
            }

            AddThing(still with { Shape = Shape.Thing, SaysDeed = true });
        }
        else
        {
            DropDeed();
            _bare.Flush();
            _told.Remark(still);
        }
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
        if ((isWay ? WayReader.Whole(heard.Reading, before?.Reading) : CoverReader.Whole(heard.Reading, before?.Reading ?? _toldLast)) is not { } reading)
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

    private void AddDeed(Heard heard)
    {
        var deed = heard.Reading.Deed;
        if (_bare.Any)
        {
            _bare.Resolve(heard with { Reading = heard.Reading with { Kind = null } });
            Last!.Note(heard.Clause.Terms);
        }
        else if ((heard.Reading.Volume_L ?? heard.Reading.Question?.Number) is not null && deed is Deed.Off or Deed.Note or Deed.Drained && Last is not { Reading: { Deed: Deed.Drained, Volume_L: null } })
        {
            if (AddAmount(heard))
            {
                return;
            }

            // “Sump plug off, five litres out”.
            var whose = deed == Deed.Drained && Last is { Reading.Kind: null } before ? before.Reading.Part : null;
            _told.New(heard.Reading with { Deed = Deed.Drained, Part = whose }, heard).Note(heard.Clause.Terms);
        }
        else if (Last is { IsRemark: false } last)
        {
            // “Unplugged and unbolted” are two, and so are “unplugged and wound out”.
            var isOther = heard.Reading.Kind is { } kind && kind != last.Reading.Kind || last is { IsOfDeed: true, Reading.Kind: JointKind.Connector } && heard.Reading.Kind is null;
            // “Caliper off, two 13s, hung from the spring”: no bolt hangs, and none is drained.
            var isOfPart = deed == Deed.Aside && (last.Reading.IsTurned() || last.Reading.Kind is JointKind.Clamp or JointKind.Clip or JointKind.Tie) || deed is Deed.Drained or Deed.Safe && last.Reading.Kind is not null;
            var named = isOfPart && last.Reading.Kind is JointKind.Hose or JointKind.Pipe ? last.Reading.Name : null;
            if (last.Reading is { Kind: null, Part: not null } && (deed == Deed.Off && last.Reading.Deed is Deed.Undone or Deed.Off or Deed.Note || deed == Deed.Aside && last.Reading.Deed == deed))
            {
                // “Chain split and off”, “belt cracked, off”, “pinion out, driven out with a punch”, “swung aside and tied up”.
                last.Reading = Merging.WithCount(Merging.Of(last.Reading, heard.Reading), heard) with { Deed = deed };
                last.Note(heard.Clause.Terms);
                return;
            }

            if (deed == Deed.Aside && _told.Hanging is { } hanging)
            {
                // “Spark plug lead off and tied back”: the lead is, and not the plug.
                hanging.Reading = hanging.Reading with { Name = hanging.Reading.Name ?? hanging.Lead };
                ToldSoFar.Keep(heard.Clause);
                hanging.Notes.Add(heard.Clause.Whole);
                return;
            }

            if ((last.Reading.Part ?? named) is { } part && !(deed == Deed.Loose && last.Reading is { Kind: null, Deed: Deed.Off }) && (isOfPart || last.SaysDeed && (isOther || deed is not (Deed.Undone or Deed.Note))))
            {
                _told.New(Merging.WithCount(heard.Reading with { Part = part }, heard), heard).Note(heard.Clause.Terms);
                return;
            }

            if (isOfPart || deed == Deed.Loose && last.Reading is { Kind: null, Deed: Deed.Off })
            {
                // “Hose off, drained”: of what is not said.
                ToldSoFar.Keep(heard.Clause);
                last.Notes.Add(heard.Clause.Whole);
                return;
            }

            last.SaysDeed = true;
            last.Reading = Merging.WithCount(Merging.Of(last.Reading, heard.Reading), heard) with { Deed = deed is Deed.Loose or Deed.Aside && last.Reading.Deed == Deed.Undone ? deed : last.Reading.Deed };
            last.Note(heard.Clause.Terms);
        }
        else
        {
            // “Unbolted and lifted off ..”: said before what it was done to.
            DropDeed();
            if (Last is { Reading.Deed: Deed.Aside })
            {
                // “Laid aside to the left and tied up”.
                AddDeed(heard);
                return;
            }

            _deedBefore = heard;
        }
    }

    /// <summary>“Gear oil drained, 14 mm plug, 0.8 litre”: of the oil, whatever was told between.</summary>
    private bool AddAmount(Heard heard)
    {
        if (_told.Unmeasured is not { } fluid)
        {
            return false;
        }

        fluid.Reading = Merging.Of(fluid.Reading, heard.Reading);
        fluid.Note(heard.Clause.Terms);
        return true;
    }

    private void DropDeed()
    {
        if (_deedBefore is not { } deed)
        {
            return;
        }

        _deedBefore = null;
        if (deed.Reading.Deed == Deed.Safe)
        {
            _told.New(deed.Reading, deed).Note(deed.Clause.Terms);
        }
        else if (deed.Reading.Deed == Deed.Aside && _toldLast is { } spokenOf && SpokenOf.Name(spokenOf) is { } name)
        {
            _told.New(deed.Reading with { Part = name }, deed).Note(deed.Clause.Terms);
        }
        else
        {
            _told.Remark(deed);
        }
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
            if (AddAmount(heard))
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
