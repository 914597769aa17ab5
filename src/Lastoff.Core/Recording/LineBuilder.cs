using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Puts the clauses of a line together: what one leaves out, another says.</summary>
internal sealed class LineBuilder(string line, IReadOnlyList<Term> terms, bool cameOut)
{
    // A longer name without a deed is a remark.
    private const int LongestName = 3;
    // Unless a fastener follows it: “raw water pump impeller cover, six screws”.
    private const int LongestHost = 6;

    private readonly ToldSoFar _told = new(line, terms, cameOut);
    private readonly List<Heard> _bare = [];
    private Clause? _first;
    private Heard? _deedBefore;

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
                AddBare(heard);
                break;
            case Shape.Thing:
                AddThing(heard);
                break;
            case Shape.Host when Last is { Reading: { Kind: not null, Part: null } before } last && _bare.Count == 0:
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
                FlushBare();
                _told.Remark(heard);
                break;
        }
    }

    public IReadOnlyList<Reading> Finish()
    {
        DropDeed();
        FlushBare();
        return _told.Finish(_first);
    }

    private void AddThing(Heard heard)
    {
        if (heard.Reading.Deed is Deed.InTheWay or Deed.NotInTheWay or Deed.Covered or Deed.Uncovered)
        {
            AddBesides(heard);
            return;
        }

        var reading = heard.Reading;
        if (_bare.Count == 0 && Last is { } same && SameAgain.Joins(same, heard))
        {
            same.Note(heard.Clause.Terms);
            return;
        }

        if (reading.Kind is not null && reading.Part is null && _bare.Count > 0 && !heard.SaysHost && (Last is null || _bare[0].Clause.IsStart) && reading.Kind is not (JointKind.Hose or JointKind.Pipe))
        {
            var named = _bare[^1];
            _bare.RemoveAt(_bare.Count - 1);
            FlushBare();
            reading = reading with { Part = named.Reading.Part, Count = reading.Count ?? named.Reading.Count };
        }

        ResolveBare(heard);
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
        if ((isWay ? WayReader.Whole(heard.Reading, before?.Reading) : CoverReader.Whole(heard.Reading, before?.Reading)) is not { } reading)
        {
            FlushBare();
            _told.Remark(heard);
            return;
        }

        if (isWay && heard.Clause.Joined == Joined.And && before is { SaysDeed: false, Reading.Kind: not null } && _bare.Count == 0)
        {
            // “Hose and bracket in the way of the pump”: it was not undone, either.
            before.Reading = reading with { Part = RecordedThing.JointName(before.Reading) };
        }

        ResolveBare(heard);
        _told.New(reading, heard).Note(heard.Clause.Terms);
    }

    /// <summary>“Fan, cowl and radiator out”: what was named before came out too.</summary>
    private void ResolveBare(Heard heard)
    {
        var reading = heard.Reading;
        var isPlain = reading.Kind is null || reading is { Kind: JointKind.Connector, Count: null } && heard.Clause.Joined == Joined.And;
        if (_bare.Count == 0 || !heard.SaysDeed || !isPlain || heard.Clause.IsStart || _bare.Exists(bare => bare.Clause.Terms.Count > LongestName + 1))
        {
            FlushBare();
            return;
        }

        foreach (var bare in _bare)
        {
            var isFluid = bare.Clause.Has(WordKind.Fluids) && bare.Clause.Terms.Count == 1;
            var same = isFluid ? bare.Reading with { Deed = Deed.Drained, Fluid = bare.Reading.Part, Part = null }
                : bare.Reading with { Deed = reading.Deed is Deed.Drained or Deed.Safe ? Deed.Off : reading.Deed, Kind = reading.Kind, Of = reading.Of, Cover = reading.Cover };
            _told.New(same, heard).Note(bare.Clause.Terms);
        }

        _bare.Clear();
    }

    private void AddBare(Heard heard)
    {
        var words = heard.Clause.Terms.Count(term => !term.Is(WordKind.Fillers, WordKind.Article));
        var isName = heard.Reading.Part is not null && (words <= LongestName || words <= LongestHost && Last is null && heard.Clause.Terms.All(term => term.IsNameable || term.Is(WordKind.Sides, WordKind.Fluids, WordKind.Fillers, WordKind.Article)));
        if (AnotherGroup.ByLook(heard, Last?.Reading, line) is { } group && _bare.Count == 0)
        {
            AddThing(heard with { Shape = Shape.Thing, Reading = group });
        }
        else if (isName && Last is null && _told.Ahead.Reading is { } carried && carried.IsMeasured())
        {
            // “Three 10 mm, coil bracket”.
            AddThing(heard with { Shape = Shape.Thing, Reading = heard.Reading with { Kind = Fasteners.Likely(carried.Drive), Deed = Deed.Undone } });
        }
        else if (isName && Last is { Reading: { Kind: not null, Part: null, Name: null } before } last && heard.Clause.Joined == Joined.Comma
            && before.Kind is not (JointKind.Hose or JointKind.Pipe) && _bare.Count == 0)
        {
            last.Reading = Merging.Of(before, heard.Reading) with { Part = heard.Reading.Part };
        }
        else if (isName && Last is { IsVerbFirst: true, Reading: { Kind: null, Deed: Deed.Off or Deed.Drained or Deed.Loose or Deed.Aside } } verb && heard.Clause.Joined != Joined.Stop && _bare.Count == 0 && Belonging.SharesDeed(verb.Reading, heard.Clause))
        {
            _told.New(heard.Reading with { Deed = verb.Reading.Deed }, heard with { SaysDeed = true, IsVerbFirst = true }).Note(heard.Clause.Terms);
        }
        else if (isName)
        {
            _bare.Add(heard);
        }
        else
        {
            FlushBare();
            _told.Remark(heard);
        }
    }

    private void FlushBare()
    {
        foreach (var bare in _bare)
        {
            if (bare.Reading.Tray is null)
            {
                _told.Remark(bare);
                continue;
            }

            // “Key in tray 1”: the tray is where it says, whatever lies in it.
            var told = Last is { IsRemark: false } && !bare.Clause.IsStart ? Last : _told.New(new Reading());
            told.Reading = Merging.Of(told.Reading, bare.Reading);
            foreach (var term in bare.Clause.Terms)
            {
                term.IsUsed &= !term.IsNameable;
            }

            told.Note(bare.Clause.Terms);
        }

        _bare.Clear();
    }

    private void AddDeed(Heard heard)
    {
        var deed = heard.Reading.Deed;
        if (_bare.Count > 0)
        {
            ResolveBare(heard with { Reading = heard.Reading with { Kind = null } });
            Last!.Note(heard.Clause.Terms);
        }
        else if ((heard.Reading.Volume_L ?? heard.Reading.Question?.Number) is not null && deed is Deed.Off or Deed.Note or Deed.Drained && Last is not { Reading: { Deed: Deed.Drained, Volume_L: null } })
        {
            // “Sump plug off, five litres out”.
            var whose = deed == Deed.Drained && Last is { Reading.Kind: null } before ? before.Reading.Part : null;
            _told.New(heard.Reading with { Deed = Deed.Drained, Part = whose }, heard).Note(heard.Clause.Terms);
        }
        else if (Last is { IsRemark: false } last)
        {
            // “Unplugged and unbolted” are two, and so are “unplugged and wound out”.
            var isOther = heard.Reading.Kind is { } kind && kind != last.Reading.Kind || last is { IsOfDeed: true, Reading.Kind: JointKind.Connector } && heard.Reading.Kind is null;
            // “Caliper off, two 13s, hung from the spring”: no bolt hangs, and none is drained.
            var isOfPart = deed == Deed.Aside && last.Reading.IsTurned() || deed is Deed.Drained or Deed.Safe && last.Reading.Kind is not null;
            var named = isOfPart && last.Reading.Kind is JointKind.Hose or JointKind.Pipe ? last.Reading.Name : null;
            if (last.Reading is { Kind: null, Part: not null } && (deed == Deed.Off && last.Reading.Deed is Deed.Undone or Deed.Off or Deed.Note || deed == Deed.Aside && last.Reading.Deed == deed))
            {
                // “Chain split and off”, “belt cracked, off”, “pinion out, driven out with a punch”, “swung aside and tied up”.
                last.Reading = Merging.WithCount(Merging.Of(last.Reading, heard.Reading), heard) with { Deed = deed };
                last.Note(heard.Clause.Terms);
                return;
            }

            if ((last.Reading.Part ?? named) is { } part && (isOfPart || last.SaysDeed && (isOther || deed is not (Deed.Undone or Deed.Note))))
            {
                _told.New(Merging.WithCount(heard.Reading with { Part = part }, heard), heard).Note(heard.Clause.Terms);
                return;
            }

            if (isOfPart)
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
            _deedBefore = heard;
        }
    }

    private void DropDeed()
    {
        if (_deedBefore is { } before)
        {
            _deedBefore = null;
            if (before.Reading.Deed == Deed.Safe)
            {
                _told.New(before.Reading, before).Note(before.Clause.Terms);
                return;
            }

            _told.Remark(before);
        }
    }

    private void AddAttributes(Heard heard)
    {
        var reading = heard.Reading;
        if (Last is not null)
        {
            FlushBare();
        }

        if (reading.Question is { Doubt: Doubt.ThreadOrSide } && Last?.Reading.IsTurned() != true)
        {
            // What has no thread is on the left.
            reading = reading with { Question = null, At = Position.Left };
        }

        if (Last is null && _bare.Count > 0 && reading.IsMeasured())
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
            // “Drain plug out, six litres”.
            _told.New(reading with { Deed = Deed.Drained }, heard).Note(heard.Clause.Terms);
            return;
        }

        var isFastener = reading.IsMeasured();
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
        FlushBare();
        var reading = heard.Reading;
        if (Last is { IsRemark: true } && !heard.Clause.IsStart)
        {
            _told.Remark(heard);
        }
        else if (Last is { IsRemark: false } last && (reading.Kind is null || reading.Kind == last.Reading.Kind))
        {
            last.Reading = Merging.Flags(last.Reading, reading);
            var isAll = (reading.Count ?? (int?)heard.Open?.Number) is { } count && count == last.Reading.Count;
            if (heard.Clause.Terms.Any(term => !term.Is(WordKind.Flags, WordKind.Fillers, WordKind.Article, WordKind.From) && !(isAll && term.Is(WordKind.Number))))
            {
                last.Notes.Add(heard.Clause.Whole);
            }
        }
        else if (reading.Kind is not null)
        {
            AddThing(heard);
        }
        else
        {
            var told = _told.New(_told.Ahead.GiveTo(reading), heard);
            told.Note(heard.Clause.Terms);
        }
    }
}
