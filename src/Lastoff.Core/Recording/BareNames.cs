using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Names in a line of which nothing is told yet: “fan, cowl and radiator out”. What comes behind tells what was done to them.</summary>
internal sealed class BareNames(string line, ToldSoFar told)
{
    // A longer name without a deed is a remark.
    private const int LongestName = 3;
    // Unless a fastener follows it: “raw water pump impeller cover, six screws”.
    private const int LongestHost = 6;

    private readonly List<Heard> _names = [];

    private Told? Last => told.Last;

    public bool Any => _names.Count > 0;

    /// <summary>The part that fasteners of nobody's part are of: “rocker cover, six bolts”. The others stay as they are.</summary>
    /// <returns>Null where there is none.</returns>
    public Reading? TakeHost()
    {
        if (!Any || Last is not null && !_names[0].Clause.IsStart)
        {
            return null;
        }

        var named = _names[^1];
        _names.RemoveAt(_names.Count - 1);
        Flush();
        return named.Reading;
    }

    /// <returns>The name as a thing, where what stands around it tells what was done; null where it is kept, or told.</returns>
    public Heard? Add(Heard heard)
    {
        if (WasForgotten(heard) is { } forgotten)
        {
            Flush();
            return forgotten;
        }

        // “Half moon key in tray 3” is a name of three words.
        var terms = heard.Clause.Terms;
        var laid = terms is [.., { Kind: WordKind.From }, { Kind: WordKind.Tray }] ? 2 : terms is [.., { Kind: WordKind.Tray }] ? 1 : 0;
        var words = terms.SkipLast(laid).Count(term => !term.Is(WordKind.Fillers, WordKind.Article));
        var isName = heard.Reading.Part is not null && (words <= LongestName || words <= LongestHost && Last is null && heard.Clause.Terms.All(term => term.IsNameable || term.Is(WordKind.Sides, WordKind.Fluids, WordKind.Fillers, WordKind.Article)));
        if (AnotherGroup.ByLook(heard, Last?.Reading, line) is { } group && _names.Count == 0)
        {
            return heard with { Shape = Shape.Thing, Reading = group };
        }

        if (_names.Count == 0 && Belonging.GiveFluid(heard, Last))
        {
            return null;
        }

        if (_names.Count == 0 && Belonging.IsDrained(heard, Last))
        {
            ToldSoFar.Keep(heard.Clause);
            Last!.Notes.Add(heard.Clause.Whole);
            return null;
        }

        if (isName && Last is null && told.Ahead.Reading is { } carried && carried.IsMeasured())
        {
            // “Three 10 mm, coil bracket”.
            return heard with { Shape = Shape.Thing, Reading = heard.Reading with { Kind = Fasteners.Likely(carried.Drive), Deed = Deed.Undone } };
        }

        if (isName && Last is { Reading: { Kind: not null, Part: null, Name: null } before } last && heard.Clause.Joined == Joined.Comma
            && before.Kind is not (JointKind.Hose or JointKind.Pipe) && _names.Count == 0
            // “Two nuts off, washers in tray 1”: nothing is off a washer.
            && !heard.Clause.Has(WordKind.Sundries))
        {
            last.Reading = Merging.Of(before, heard.Reading) with { Part = heard.Reading.Part };
        }
        else if (isName && Last is { IsVerbFirst: true, Reading: { Kind: null, Deed: Deed.Off or Deed.Drained or Deed.Loose or Deed.Aside } } verb && heard.Clause.Joined != Joined.Stop && _names.Count == 0 && Belonging.SharesDeed(verb.Reading, heard.Clause))
        {
            told.New(heard.Reading with { Deed = verb.Reading.Deed }, heard with { SaysDeed = true, IsVerbFirst = true }).Note(heard.Clause.Terms);
        }
        else if (isName && Last is { IsRemark: false, SaysDeed: true, Reading: { Kind: null, Deed: Deed.Off } } && IsAndThe(heard.Clause) && _names.Count == 0)
        {
            // “Dipstick out and the breather”.
            told.New(heard.Reading with { Deed = Deed.Off }, heard with { SaysDeed = true });
        }
        else if (isName)
        {
            _names.Add(heard);
        }
        else
        {
            Flush();
            told.Remark(heard);
        }

        return null;
    }

    /// <summary>“Forgot to say: two shims behind the pulley”: they came off, and where they sat stands in the note.</summary>
    private static Heard? WasForgotten(Heard heard)
    {
        List<Term> terms = [.. heard.Clause.Terms];
        var place = terms.FindIndex(term => term.Is(WordKind.From));
        if (heard is not { Clause.Joined: Joined.Late, Reading.Part: not null } || place is < 1 or > LongestName + 1)
        {
            return null;
        }

        terms.Skip(place).Where(term => !term.Is(WordKind.Tray)).ToList().ForEach(term => term.IsUsed = false);
        return heard with { Shape = Shape.Thing, SaysDeed = true, Reading = heard.Reading with { Deed = Deed.Off } };
    }

    private bool IsAndThe(Clause clause) => clause.Joined == Joined.And && clause.Terms is [{ Kind: WordKind.Fillers } the, ..] && LineReader.IsDetermined(the.Lower(line))
        && clause.Terms.Skip(1).All(term => term.IsNameable || term.Is(WordKind.Sides));

    /// <summary>“Fan, cowl and radiator out”: what was named before came out too.</summary>
    public void Resolve(Heard heard)
    {
        var reading = heard.Reading;
        var isPlain = reading.Kind is null || reading is { Kind: JointKind.Connector, Count: null } && heard.Clause.Joined == Joined.And;
        if (_names.Count == 0 || !heard.SaysDeed || !isPlain || heard.Clause.IsStart || _names.Exists(bare => bare.Clause.Terms.Count > LongestName + 1))
        {
            Flush();
            return;
        }

        foreach (var bare in _names)
        {
            var same = bare.Fluid is { } fluid ? bare.Reading with { Deed = Deed.Drained, Fluid = fluid, Part = null }
                : bare.Reading with { Deed = reading.Deed is Deed.Drained or Deed.Safe ? Deed.Off : reading.Deed, Kind = reading.Kind, Of = reading.Of, Cover = reading.Cover };
            told.New(same, heard).Note(bare.Clause.Terms);
        }

        _names.Clear();
    }

    /// <summary>Nothing more is told of them: they are a remark, or lie in a tray.</summary>
    public void Flush()
    {
        foreach (var (heard, tray) in LaidInTray.Of(_names))
        {
            if (tray is null)
            {
                told.Remark(heard);
                continue;
            }

            if (LaidInTray.IsByItself(heard, Last))
            {
                told.Spread(tray);
                told.New(heard.Reading with { Deed = Deed.Off, Tray = tray }, heard).Note(heard.Clause.Terms);
                continue;
            }

            // “Two nuts off, washers in tray 1”: the tray is that of the nuts.
            var at = Last is { IsRemark: false } && !heard.Clause.IsStart ? Last : told.New(new Reading());
            at.Reading = Merging.Of(at.Reading, heard.Reading);
            foreach (var term in heard.Clause.Terms)
            {
                term.IsUsed &= !term.IsNameable;
            }

            at.Note(heard.Clause.Terms);
        }

        _names.Clear();
    }
}
