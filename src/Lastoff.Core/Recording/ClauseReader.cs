using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads one clause: what it speaks of, what was done to it, and the part it belongs to.</summary>
internal sealed class ClauseReader
{
    private const string Blew = "blown";

    private readonly Clause _clause;
    private readonly string _line;
    private readonly PhraseBook _book;
    private readonly IReadOnlyList<Term> _terms;
    private readonly ClauseWalk _walk;
    private Reading _reading = new();

    private ClauseReader(Clause clause, string line, PhraseBook book)
    {
        (_clause, _line, _book, _terms, _walk) = (clause, line, book, clause.Terms, new ClauseWalk(clause, line, book));
    }

    public static Heard Read(Clause clause, string line, PhraseBook book)
    {
        var first = clause.Terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article));
        return first is null ? new Heard(clause, Shape.Empty, new Reading())
            : (WayReader.Read(clause, line, book) ?? PressureGone.Read(clause, line, book) ?? HoldReader.Read(clause, line, book) ?? HoldReader.Why(clause, line, book) ?? CoverReader.Read(clause, line, book) ?? SwitchReader.Read(clause, line, book) ?? TapReader.Read(clause, line, book) ?? StillReader.Read(clause, line, book)) is { } told ? told
            : IsNone(first, clause, line, book) || first.Is(WordKind.Remarks) && !IsThere(first, clause, line, book) || clause.Has(WordKind.NotDone) && TorqueLeads.Of(clause, line, book) is null || Ordered.IsOf(clause, line, book) || Remains.IsOf(clause, line, book) || Remains.IsThreadWork(clause, line, book) || Remains.IsDrilled(clause, line, book) || SealSize.IsOf(clause, line, book) || LyingSo.IsOf(clause, line, book) || IsObserved(clause) || IsSpan(clause, line, book) || IsMerelySeen(clause, line, book) ? new Heard(clause, Shape.Remark, new Reading())
            : IsLeftHand(clause) ? new Heard(clause, Shape.Attributes, new Reading { Question = new Question(Doubt.ThreadOrSide) })
            : new ClauseReader(clause, line, book).Read();
    }

    // “No clip”; “no 3 injector” is the third.
    private static bool IsNone(Term first, Clause clause, string line, PhraseBook book) => book.Of(first.Lower(line), WordKind.None) is not null
        && clause.Terms.FirstOrDefault(term => term.Start > first.Start) is { } next && !next.Is(WordKind.Number, WordKind.Across);

    /// <summary>“There's four bolts holding it” tells what was undone; “there's two left”, “there's one loose” does not.</summary>
    private static bool IsThere(Term first, Clause clause, string line, PhraseBook book) => first.IsUsed = book.Has(first.Lower(line), WordKind.There) && clause.Has(WordKind.Joints, WordKind.NamedJoints)
        && clause.Has(WordKind.Number) && !clause.Has(WordKind.Flags, WordKind.Hedges, WordKind.Stuck) && !clause.Terms[^1].Is(WordKind.Sides);

    /// <summary>“Nut 30 mil, left hand”: nothing but that.</summary>
    private static bool IsLeftHand(Clause clause)
    {
        var isIt = clause.Terms.All(term => term.Is(WordKind.LeftHand, WordKind.Fillers, WordKind.Article));
        foreach (var term in clause.Terms.Where(_ => isIt))
        {
            term.IsUsed = true;
        }

        return isIt;
    }

    // “Face cleaned”, “sump leaking”, “very tight”: nothing was done that the ledger counts.
    private static bool IsObserved(Clause clause) => clause.Terms.All(term => term.Is(WordKind.Fillers, WordKind.Article, WordKind.From)) || clause.Terms is [{ Kind: WordKind.Hedges }, { Kind: WordKind.From }, ..] || clause.Terms.All(term => term.Is(WordKind.Fillers, WordKind.Article, WordKind.Hedges, WordKind.Distributes))
        || clause.Has(WordKind.Remarks)
            && !clause.Terms.Any(term => term.Is(WordKind.Joints, WordKind.NamedJoints) && term.Value != "face")
            && !clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Flags, WordKind.From,
                WordKind.Number, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Tray, WordKind.Volume, WordKind.Torque);

    // “Rope off, six metres”: that much of it, and no thing.
    private static bool IsSpan(Clause clause, string line, PhraseBook book) =>
        clause.Has(WordKind.Number) && book.Of(clause.Terms[^1].Lower(line), WordKind.Spans) is not null && clause.Terms.SkipLast(1).All(term => term.Is(WordKind.Number, WordKind.Hedges, WordKind.Fillers));

    // “One bolt missing”, “gasket face pitted near the port”, “pipes on”: it was not there, was looked at, or stayed.
    private static bool IsMerelySeen(Clause clause, string line, PhraseBook book) => IsAbsent(clause, line, book)
        // “Oil dripping off the sump”.
        || clause.Terms is [{ Kind: WordKind.Fluids }, { Kind: WordKind.Hedges }, var lead, ..] && book.Of(lead.Lower(line), WordKind.From) is not null || !clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Flags, WordKind.Stuck)
        && (clause.Terms is [.., { Kind: WordKind.Joints or WordKind.NamedJoints }, var end] && book.Of(end.Lower(line), WordKind.Stays) is not null
            || clause.Terms.Index().Any(at => at.Item.Is(WordKind.Hedges) && at.Index > 0
            && clause.Terms[at.Index - 1] is { Kind: WordKind.Joints or WordKind.NamedJoints } joint && (joint.Value == "face" || book.Of(at.Item.Lower(line), WordKind.Absent, WordKind.Markings) is not null)));

    // “A clip missing off the loom”, “clip was missing already”, “bolts cleaned and oiled”: no deed stands before, and nothing was done behind.
    private static bool IsAbsent(Clause clause, string line, PhraseBook book)
    {
        var joint = clause.Terms.Index().LastOrDefault(at => at.Item.Is(WordKind.Joints, WordKind.NamedJoints), (-1, null!)).Index;
        var next = joint < 0 ? null : clause.Terms.Skip(joint + 1).FirstOrDefault(term => !term.Is(WordKind.Fillers));
        return next is not null && book.Of(next.Lower(line), WordKind.Absent, WordKind.Treated) is not null
            && clause.Terms.All(term => !term.Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Flags, WordKind.Stuck) || term == next || term.Start > next.End && book.Of(term.Lower(line), WordKind.From) is not null);
    }

    private Heard Read()
    {
        _reading = Attributes.Take(_clause, _line, _book);
        (_reading, var open) = Counting.Take(_clause, _reading, _walk.Head, _book, _line);
        _reading = _walk.Walk(_reading);
        if (_walk.Head is null && Implied(open) is { } kind)
        {
            _reading = _reading with { Kind = kind };
        }

        if (open is not null && _walk.Head is null && _walk.Subject.Count == 0 && _reading is { Count: not null, Across: null } && Counting.Behind(_reading, open, true, true) is { } sized)
        {
            // “One 10”.
            (_reading, open) = (sized, null);
        }

        if (open is not null && (_walk.Head is not null || _walk.Supply is not null || _walk.Subject.Count > 0))
        {
            var told = Counting.Behind(Shaped(), open, _walk.Head?.IsPlural ?? false, false);
            open.IsUsed = told is not null;
            _reading = told ?? _reading;
            open = null;
        }

        return IsBlownClean() ? Blown() : _walk.Head is not null || _reading.Kind is not null ? OfJoint(open) : OfPart(open);
    }

    // “Blew the dust out”, “blew the compressor fins out”; a boiler that was blown down is let off.
    private bool IsBlownClean() => _walk.Deed == Blew && !(_walk.Head is null && (_walk.Supply is not null || LineReader.IsPressed(Text(_walk.Subject), byItsEnd: true)));

    private Heard Blown()
    {
        ToldSoFar.Keep(_clause);
        return new Heard(_clause, Shape.Remark, new Reading());
    }

    private Reading Shaped() => _walk.Head is null ? _reading : _reading with { Kind = ClauseWalk.KindOf(_walk.Head) };

    /// <summary>“Three 13s”, “tensioner 15”, “six M6 allen”: a fastener without its name.</summary>
    private JointKind? Implied(Term? open)
    {
        var isMeasured = _reading.IsMeasured();
        var isPlural = _terms.Any(term => term.IsPlural && term.Is(WordKind.Across, WordKind.Thread, WordKind.Drive));
        var saysDeed = _walk.Deed is not null || _walk.DeedOf is not null;
        // “Spline dry”: a shape before what it is of is no tool.
        var isShaped = _reading is { Across: null, Thread: null, Count: null, Drive.Number: null } && _walk.Subject.Count > 0 && _terms.Any(term => term.Is(WordKind.Drive) && term.Start < _walk.Subject[0].Start);
        var isTold = _walk.Subject.Count > 0 && !saysDeed && (isMeasured && !isShaped || open is { Number: >= 7 } && !_walk.Subject[^1].Is(WordKind.Sundries)) && _walk.Fluid is null;
        return isPlural || isTold || isMeasured && IsCounted() && _walk is { DeedOf: null, Fluid: null, Supply: null } ? Fasteners.Likely(_reading.Drive) : null;
    }

    // “2 M6 off the housing”, “starter 2x15mm out”.
    private bool IsCounted() => _reading.Count is not null && _walk is { Deed: "removed", Subject: [var first, ..] }
        && (_terms.Any(term => term.Is(WordKind.Times) && term.Start > first.Start) || _walk.IsByParticle && _terms.Any(term => term.IsUsed && term.Is(WordKind.Across, WordKind.Thread, WordKind.Drive)
            && _terms.FirstOrDefault(next => next.Start > term.Start) is { } off && _book.Of(off.Lower(_line), WordKind.From) is not null && off.Start < first.Start));

    // “Fuel hose unclipped from the chassis”.
    private bool IsLed() => _walk is { DeedOf: "clip", Head: { } head } && (ClauseWalk.KindOf(head) is JointKind.Hose or JointKind.Pipe || _book.Of(head.Lower(_line), WordKind.Runs) is not null);

    private Heard OfJoint(Term? open)
    {
        var kind = _reading.Kind ?? (IsThreadedPlug() ? JointKind.Bolt : ClauseWalk.KindOf(_walk.Head!));
        var (name, part) = _walk.Head is not null ? Names(kind) : _walk.Subject.Count > 0 && _walk.Subject.All(t => t.Is(WordKind.JointModifiers)) ? (Text(_walk.Subject), (string?)null) : (null, Text(_walk.Subject));
        _reading = _reading with { Kind = kind, Name = name, Part = part ?? HostText() };
        if (IsLed())
        {
            _walk.Host.ForEach(term => term.IsUsed = false);
            _reading = _reading with { Kind = JointKind.Clip, Name = null, Part = Text([.. _walk.Subject, _walk.Head!]) };
        }

        if (_walk.Head?.Value.Split(' ') is [_, var shape])
        {
            _reading = _reading with { Drive = _reading.Drive ?? (Words<DriveShape>.TryRead(shape, out var drive) ? new Drive(drive, null) : null) };
        }

        if (_reading.Count is { } count && _terms.FirstOrDefault(term => term is { Kind: WordKind.Distributes, Value: "two" }) is { } sides
            && !_terms.Any(term => term is { Kind: WordKind.Number, IsUsed: false } && term.Start < sides.Start))
        {
            // “Two bolts each side” are four; of “six bolts, three each side” all are told.
            foreach (var each in _terms.Where(term => term.Is(WordKind.Distributes)))
            {
                each.IsUsed = true;
            }

            _reading = _reading with { Count = 2 * count };
        }

        var lead = TorqueLeads.Of(_clause, _line, _book);
        if (lead is not null)
        {
            lead.IsUsed = true;
        }

        var saysDeed = _walk.Deed is not null || _walk.DeedOf is not null;
        var isStuck = _clause.Has(WordKind.Stuck);
        var isState = _clause.Has(WordKind.Flags) && !isStuck && !saysDeed && _walk.Subject.Count == 0 && _walk.Host.Count == 0
            && _reading is { Across: null, Thread: null, Name: null, Drive: null };
        return new Heard(_clause, isState ? Shape.State : Shape.Thing, _reading with { Deed = isStuck || lead is not null ? Deed.Note : JointDeed() })
        {
            SaysDeed = saysDeed,
            IsVerbFirst = _walk.IsVerbFirst,
            SaysHost = _walk.Host.Count > 0,
            IsPlural = _walk.Head?.IsPlural ?? true,
            IsImplied = _walk.Head is null && _walk.DeedOf is null,
            Open = open,
        };
    }

    // A plug with a size is screwed in.
    private bool IsThreadedPlug() => _reading.IsMeasured()
        && _book.Of(_walk.Head!.Lower(_line), WordKind.ThreadedPlugs) is not null;

    private Deed JointDeed() => _walk.Deed switch { "loose" => Deed.Loose, "aside" => Deed.Aside, _ => Deed.Undone };

    /// <summary>
    /// The words before a fastener or plug tell the part, but for those that tell which of them it is; before a hose or pipe they are its name. With the
    /// part said behind, they are a name too.
    /// </summary>
    private (string? Name, string? Part) Names(JointKind kind)
    {
        var noun = _walk.Head!.Text(_line);
        foreach (var term in _walk.Subject.Where(t => t is { Kind: WordKind.JointModifiers, Value: not "plain" }))
        {
            _reading = Attributes.Flagged(_reading, term.Value);
        }

        if (kind is JointKind.Hose or JointKind.Pipe)
        {
            return (_walk.Subject.Count > 0 ? Joined(Text(_walk.Subject)!, noun) : _book.Of(noun.ToLowerInvariant(), WordKind.Joints) is { IsFirst: true } ? null : noun, null);
        }

        if (kind == JointKind.Connector && _walk.Subject.Count > 0 && Joined(Text(_walk.Subject)!, noun) is var lead && SparkLead.Is(lead, _book))
        {
            // It is called by itself, and “plug” is no part.
            return (lead, _walk.Host.Count == 0 && _walk.Subject.Exists(term => term.Is(WordKind.Parts)) ? Text(_walk.Subject) : null);
        }

        if (kind == JointKind.Connector && _walk.Subject.Count > 0 && SparkLead.Is(noun, _book))
        {
            // “Sensor plug cap”: that of another plug.
            return (Joined(Text(_walk.Subject)!, noun), null);
        }

        var split = _walk.Subject.Count;
        var counted = _terms.FirstOrDefault(t => t.Start < _walk.Head!.Start && t.Is(WordKind.Number, WordKind.Across, WordKind.Thread))?.Start ?? 0;
        while (split > 0 && (_walk.Host.Count > 0 || _walk.Subject[split - 1].Is(WordKind.JointModifiers) && !(_walk.Subject[split - 1].Start < counted && _walk.Subject.Count > 1) || _walk.Subject[0].Start < counted && counted < _walk.Subject[split - 1].Start))
        {
            split--;
        }

        var isNamed = split < _walk.Subject.Count || _walk.Head.Is(WordKind.NamedJoints) || IsThreadedPlug();
        var name = isNamed ? Text(_walk.Subject[split..]) is { } words ? Joined(words, noun) : noun : null;
        return (name, Text(_walk.Subject[..split]));
    }

    /// <summary>Written together where the line has it so: “Kühlwasser|schlauch”.</summary>
    private string Joined(string words, string noun) => _walk.Subject[^1].End == _walk.Head!.Start ? words + noun : $"{words} {noun}";

    private Heard OfPart(Term? open)
    {
        var first = _terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article));
        var saysDeed = _walk.Deed is not null || _walk.DeedOf is not null;
        var isHost = first is not null && _book.Of(first.Lower(_line), WordKind.From) is not null && _walk.Subject.Count > 0;
        var shape = isHost ? Shape.Host : _walk.Subject.Count + _walk.Host.Count > 0 || _walk.Fluid is not null || _walk.Supply is not null ? Shape.Thing : saysDeed ? Shape.DeedOnly : Shape.Attributes;
        if (_walk.DeedOf is { } of && Words<JointKind>.TryRead(of, out var kind) && _walk.Supply is null && _walk.Deed is null)
        {
            _reading = _reading with { Kind = kind, Part = Text(_walk.Subject) };
        }
        else if (_walk.Fluid is not null && (saysDeed || _reading.Volume_L is not null || _reading.Question is not null))
        {
            return Told(Shape.Thing, _reading with { Deed = Deed.Drained, Fluid = FluidName(_walk.Fluid) }, true, open);
        }
        else if (_walk.Supply is not null && IsMadeSafe())
        {
            return Told(Shape.Thing, WithSupply(), true, open);
        }
        else
        {
            _reading = _reading with { Part = Text([.. _walk.Subject, .. new[] { _walk.Fluid, _walk.Supply }.OfType<Term>()]) };
        }

        if (shape == Shape.Thing && !saysDeed && _reading.Tool is not null && _terms[0].IsUsed && !ReferenceEquals(_walk.Subject.FirstOrDefault(), _terms[0]))
        {
            // “15 mil spanner on the tensioner”: how the thing before was done.
            _walk.Subject.ForEach(term => term.IsUsed = false);
            return Told(Shape.Attributes, _reading with { Part = null }, false, open);
        }

        if (shape == Shape.Thing && !saysDeed && _reading is { Torque: not null, Kind: null })
        {
            // “Case drain 60 ft lb”: how tight it goes back.
            return Told(shape, _reading with { Deed = Deed.Note }, false, open);
        }

        if (shape == Shape.Thing && !saysDeed)
        {
            var isState = _clause.Has(WordKind.Flags, WordKind.Stuck);
            var isFluid = _walk.Fluid is not null && _terms.All(term => term == _walk.Fluid || term.Is(WordKind.Fillers, WordKind.Article) || _book.Of(term.Lower(_line), WordKind.FluidLooks) is not null);
            return Told(isState ? Shape.State : Shape.Bare, _reading, false, open) with { Fluid = isFluid ? FluidName(_walk.Fluid!) : null };
        }

        var stripped = _reading with { Deed = _reading.Kind is not null ? Deed.Undone : PartDeed() };
        return Told(shape == Shape.Attributes && _clause.Has(WordKind.Flags, WordKind.Stuck) ? Shape.State : shape, stripped, saysDeed, open);
    }

    private Heard Told(Shape shape, Reading reading, bool saysDeed, Term? open) => new(_clause, shape, reading) { SaysDeed = saysDeed, IsVerbFirst = _walk.IsVerbFirst, IsPlural = true, Open = open };

    /// <summary>What ran out by its name, without how it looked: nobody fills in old black oil.</summary>
    private string FluidName(Term fluid)
    {
        foreach (var look in _walk.Subject.TakeWhile(term => _book.Of(term.Lower(_line), WordKind.FluidLooks) is not null))
        {
            look.IsUsed = false;
        }

        var noun = _book.Noun(fluid.Value);
        var own = noun.Split(' ') is [var first, .. var rest] && rest.Length > 0 && _book.Of(first, WordKind.FluidLooks) is not null ? string.Join(' ', rest) : noun;
        return Text([.. _walk.Subject.Where(term => term.IsUsed)]) is { } whose ? $"{whose} {own}" : own;
    }

    // A battery that is “off” is disconnected; one that is “out” is a part taken out. Of what is let out, only a deed that makes safe says that it is.
    private bool IsMadeSafe() => _walk.Deed == "safe" || _walk.Supply is { Kind: WordKind.BatteryLeads } && _walk.Deed == "removed" || _walk.Supply is { Kind: WordKind.BatteryLeads } or { Value: "battery" or "high_voltage" or "fuel_pressure" or "hydraulic" }
        && (_walk.Deed == "undone" || _walk.DeedOf is not null || _walk.IsByParticle || _walk.Supply.Value == "fuel_pressure" && _walk.Deed is not null)
        || _walk.Supply is { Value: "refrigerant" } && _walk.Deed == "removed";

    private Reading WithSupply() => _walk.Supply is { Kind: WordKind.BatteryLeads }
        ? _reading with { Deed = Deed.Safe, Supply = SupplyKind.Battery, Name = _walk.Supply.Text(_line) }
        : _reading with { Deed = Deed.Safe, Part = SwitchReader.IsMains(_walk.Supply!, _line, _book) ? _walk.Supply!.Text(_line) : null, Supply = Words<SupplyKind>.TryRead(_walk.Supply!.Value, out var kind) ? kind : null };

    private Deed PartDeed() => _walk.Deed switch
    {
        // “Pressure released”, “Reifendruck abgelassen”.
        "undone" or "removed" or "drained" or "aside" when _walk.Subject is [.., var last] && (_book.Of(last.Lower(_line), WordKind.LetGo) is not null || PressureGone.IsOfKind(last, _line, _book)) => Deed.Safe,
        "removed" => Deed.Off,
        "undone" => Deed.Undone,
        "loose" => Deed.Loose,
        "aside" => Deed.Aside,
        "safe" or Blew => Deed.Safe,
        "drained" => Deed.Drained,
        _ => Deed.Note,
    };

    private string? HostText()
    {
        // With something else in between, the words alone.
        if (_walk.Host.Count == 0 || _terms.Count(t => t.Start >= _walk.Host[0].Start && t.Start <= _walk.Host[^1].Start && !t.Is(WordKind.Fillers, WordKind.Article)) != _walk.Host.Count)
        {
            return Text(_walk.Host);
        }

        return _line[_walk.Host[0].Start.._walk.Host[^1].End];
    }

    // “T-belt” stays one word.
    private string? Text(IReadOnlyList<Term> terms) => terms.Count == 0 ? null : string.Concat(terms.Select((term, at) =>
        at == 0 ? term.Text(_line) : (term.Start == terms[at - 1].End + 1 && _line[term.Start - 1] == '-' ? "-" : " ") + term.Text(_line)));
}
