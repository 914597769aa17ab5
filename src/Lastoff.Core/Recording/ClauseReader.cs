using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads one clause: what it speaks of, what was done to it, and the part it belongs to.</summary>
internal sealed class ClauseReader
{
    private enum Phase { Subject, Host, After }

    // Between “off” and the part stand an article, a side and a tool at most.
    private const int FurthestName = 8;

    private readonly Clause _clause;
    private readonly string _line;
    private readonly PhraseBook _book;
    private readonly IReadOnlyList<Term> _terms;
    private readonly List<Term> _subject = [];
    private readonly List<Term> _host = [];
    private Term? _head;
    private Term? _fluid;
    private Term? _supply;
    private string? _deed;
    private string? _deedOf;
    private bool _byParticle;
    private bool _isVerbFirst;
    private Reading _reading = new();
    private Func<Reading, Reading> _pending = reading => reading;

    private ClauseReader(Clause clause, string line, PhraseBook book)
    {
        (_clause, _line, _book, _terms) = (clause, line, book, clause.Terms);
    }

    public static Heard Read(Clause clause, string line, PhraseBook book) => new ClauseReader(clause, line, book).Read();

    private Heard Read()
    {
        var first = _terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article));
        if (first is null)
        {
            return new Heard(_clause, Shape.Empty, new Reading());
        }

        if (first.Is(WordKind.Remarks) || _clause.Has(WordKind.NotDone) || _terms.All(term => term.Is(WordKind.Fillers, WordKind.Article, WordKind.Hedges, WordKind.Distributes)) || IsObserved())
        {
            return new Heard(_clause, Shape.Remark, new Reading());
        }

        TakeVerb(first);

        _head = FindHead();
        AskSides();
        _reading = Attributes.Take(_clause, _line, _book);
        (_reading, var open) = Counting.Take(_clause, _reading, _head, _book, _line);
        Walk();
        if (_head is null && Implied(open) is { } kind)
        {
            _reading = _reading with { Kind = kind };
        }

        if (open is not null && _head is null && _subject.Count == 0 && _reading is { Count: not null, Across: null } && Counting.Behind(_reading, open, true, true) is { } sized)
        {
            // “One 10”.
            (_reading, open) = (sized, null);
        }

        if (open is not null && (_head is not null || _supply is not null || _subject.Count > 0))
        {
            var told = Counting.Behind(Shaped(), open, _head?.IsPlural ?? false, false);
            open.IsUsed = told is not null;
            _reading = told ?? _reading;
            open = null;
        }

        return _head is not null || _reading.Kind is not null ? OfJoint(open) : OfPart(open);
    }

    // “Face cleaned”, “sump leaking”: nothing was done that the ledger counts.
    private bool IsObserved() => _clause.Has(WordKind.Remarks) && !_terms.Any(term => term.Is(WordKind.Joints, WordKind.NamedJoints) && term.Value != "face") && !_clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Flags, WordKind.From,
        WordKind.Number, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Tray, WordKind.Volume, WordKind.Torque);

    /// <summary>“Cracked the nuts loose” tells what was done and not what is broken.</summary>
    private void TakeVerb(Term first)
    {
        // “Cracked housing off” is a broken housing.
        var next = _terms.FirstOrDefault(term => term.Start > first.Start);
        if (first.Is(WordKind.Flags) && next is not null && next.Is(WordKind.Fillers, WordKind.Article, WordKind.Number) && _book.Of(Lower(first), WordKind.Verbs) is { } verb
            && Enumerable.Range(1, _terms.Count - 1).FirstOrDefault(at => EndsDeed(at)) is var end and > 0)
        {
            first.IsUsed = true;
            (_isVerbFirst, _deed) = (true, ByParticle(verb.Value, end));
        }
    }

    /// <summary>“Knocked out” and “knocked back”: the second word says whether the thing is off or aside.</summary>
    private string ByParticle(string deed, int particle) =>
        deed == "removed" && _book.Of(Lower(_terms[particle]), WordKind.Particles) is { Value: "aside" } ? "aside" : deed;

    private string Lower(Term term) => term.Text(_line).ToLowerInvariant();

    private Reading Shaped() => _head is null ? _reading : _reading with { Kind = Kind(_head) };

    /// <summary>The joint the clause is about: the first whose name ends there and that no preposition stands before.</summary>
    private Term? FindHead()
    {
        var (named, behind) = (false, false);
        // What stands behind “with” is how it was done.
        for (var at = 0; at < _terms.Count && !(at > 0 && _terms[at].Is(WordKind.With)); at++)
        {
            // “Gasket off the face”: the face is where it was.
            behind = !_terms[at].Is(WordKind.Number) && (behind || named && Leads(_terms[at]));
            named |= _terms[at].Is(WordKind.Word, WordKind.Parts);
            if (!behind && _terms[at].Is(WordKind.Joints, WordKind.NamedJoints) && (EndsName(at) || _terms[at].IsPlural && !NextIs(at, WordKind.Joints, WordKind.NamedJoints)))
            {
                return _terms[at];
            }
        }

        return _terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article, WordKind.Number)) is { Kind: WordKind.NamedJoints } pinned
            && _terms.Any(term => term.Start >= pinned.End && term.Is(WordKind.JointModifiers)) ? pinned : null;
    }

    private bool EndsName(int at) => at + 1 >= _terms.Count || !_terms[at + 1].IsNameable || _terms[at + 1].Is(WordKind.Sundries) || IsParticleWord(at + 1);

    private bool NextIs(int at, params ReadOnlySpan<WordKind> kinds) => at + 1 < _terms.Count && _terms[at + 1].Is(kinds);

    /// <summary>“Left bolt” is a side; “left-hand bolt” may be a thread; “left engine mount” is the name of a part.</summary>
    private void AskSides()
    {
        var at = -1;
        while (++at + 1 < _terms.Count)
        {
            if (!ReferenceEquals(_terms[at + 1], _head))
            {
                continue;
            }

            if (_terms[at].Is(WordKind.LeftHand))
            {
                _terms[at].IsUsed = true;
                _pending = IsThreaded(_head!) ? r => r with { Question = r.Question ?? new Question(Doubt.ThreadOrSide) } : r => r with { At = r.At ?? Position.Left };
            }
            else if (_terms[at].Is(WordKind.Sides) && Kind(_head!) is not (JointKind.Hose or JointKind.Pipe) && Words<Position>.TryRead(_terms[at].Value, out var side))
            {
                _terms[at].IsUsed = true;
                _pending = r => r with { At = r.At ?? side };
            }
        }
    }

    /// <summary>“Slackened the bolts, front two”.</summary>
    private void TakeSideOfCount()
    {
        if (_head is not null && _reading.At is null && _terms.Count > 1 && _terms[^2] is { Kind: WordKind.Sides, IsUsed: false } side && _terms[^1].Is(WordKind.Number)
            && _head.Start < side.Start && Words<Position>.TryRead(side.Value, out var at))
        {
            side.IsUsed = true;
            _reading = _reading with { At = at };
        }
    }

    private void Walk()
    {
        _reading = _pending(_reading);
        TakeSideOfCount();
        var phase = Phase.Subject;
        for (var at = 0; at < _terms.Count; at++)
        {
            var term = _terms[at];
            if (term.IsUsed)
            {
                continue;
            }

            if (ReferenceEquals(term, _head))
            {
                term.IsUsed = true;
            }
            else if (_head is not null && term.Is(WordKind.And, WordKind.Sundries) && phase == Phase.Subject && term.Start > _head.Start)
            {
                // Kept for the note.
                continue;
            }
            else if (term.Is(WordKind.Fillers, WordKind.Article, WordKind.With))
            {
                term.IsUsed = !term.Is(WordKind.With) || at == 0;
            }
            else if (term.Is(WordKind.Hedges, WordKind.Distributes))
            {
                phase = phase == Phase.Host && _host.Count > 0 ? Phase.After : phase;
                // Kept for the note.
                continue;
            }
            else if (_isVerbFirst && IsParticle(at))
            {
                term.IsUsed = true;
                _deed = _deed is null ? null : ByParticle(_deed, at);
                phase = Phase.After;
            }
            else if (term.Is(WordKind.Verbs) && at + 1 < _terms.Count && IsParticleWord(at + 1))
            {
                // “Knocked out”, with what it was before it or behind it.
                term.IsUsed = true;
                _terms[at + 1].IsUsed = true;
                _isVerbFirst |= _subject.Count == 0 && _head is null or { IsUsed: false };
                _deed = Heavier(_deed, ByParticle(term.Value, at + 1));
                phase = _isVerbFirst ? phase : Phase.After;
            }
            else if (term.Is(WordKind.Verbs) && phase == Phase.Subject && _subject.Count == 0 && (FirstParticle(at) ?? (IsTransitive(at) ? at : null)) is { } end)
            {
                term.IsUsed = true;
                _isVerbFirst = true;
                _deed = ByParticle(term.Value, end);
            }
            else if (term is { Kind: WordKind.Verbs, Value: "aside" } && NextIs(at, WordKind.From))
            {
                // “Tied to the frame”.
                term.IsUsed = true;
                _deed = Heavier(_deed, term.Value);
            }
            else if (at > 0 && _terms[at - 1].Is(WordKind.Deeds) && term.Is(WordKind.Word) && IsParticleWord(at) && EndsThing(at))
            {
                // “Lowered down”.
                term.IsUsed = true;
            }
            else if (_deed is null && _head is null && phase == Phase.Subject && _subject.Count > 0 && IsParticleWord(at) && term.Is(WordKind.Word) && EndsThing(at))
            {
                // “Engine up on the crane”, “propshaft down”.
                term.IsUsed = true;
                _deed = _book.Of(Lower(term), WordKind.Particles)!.Value;
                phase = Phase.After;
            }
            else if (term.Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.From))
            {
                phase = Turn(term, at, phase);
            }
            else
            {
                phase = Name(term, at, phase);
            }
        }
    }

    /// <summary>A deed, or a word that leads to the part: “off” is both.</summary>
    private Phase Turn(Term term, int at, Phase phase)
    {
        var leads = Leads(term);
        if (leads && HasName(at))
        {
            if (_head is not null && _host.Count == 0 && phase != Phase.Host && _head.Start < term.Start)
            {
                term.IsUsed = true;
                _deed ??= term.Is(WordKind.Deeds) ? term.Value : null;
                return Phase.Host;
            }

            if (phase == Phase.Host && term.Is(WordKind.From) && _book.Of(Lower(term), WordKind.OfThem) is not null)
            {
                // “The top of the strut”.
                term.IsUsed = true;
                _host.Add(term);
                return phase;
            }

            if (term.Is(WordKind.From))
            {
                if (phase == Phase.Subject && _subject.Count > 0 && at + 1 < _terms.Count && _terms[at + 1].Is(WordKind.Word, WordKind.Parts) && _book.Of(Lower(term), WordKind.Between) is not null)
                {
                    // “Sump to gearbox bolts”.
                    term.IsUsed = true;
                    _subject.Add(term);
                    return phase;
                }

                if (_head is null && (_subject.Count > 0 || _fluid is not null) && _deed is null && Lower(term).Split(' ') is [var word, _] && _book.Of(word, WordKind.Deeds) is { } deed)
                {
                    // “Pin out of the lever”.
                    _deed = deed.Value;
                    return Phase.After;
                }

                // “Two litres of oil”; anything else is told in the note, and so is where a thing was hung.
                term.IsUsed = phase == Phase.Subject && _subject.Count == 0 && _head is null && (_deed is null || _book.Of(Lower(term), WordKind.OfThem) is not null);
                return term.IsUsed ? phase : Phase.After;
            }
        }

        if (term.Value is "spilt" && _fluid is null && !_clause.Has(WordKind.Fluids))
        {
            return Phase.After;
        }

        if (_head is not null && term.Value is "drained" or "safe" && term.Is(WordKind.Deeds))
        {
            return Phase.After;
        }

        // “Belt off the compressor”: where it came off is kept in the note.
        term.IsUsed = !(leads && _head is null && _subject.Count > 0 && HasName(at));
        if (term.Is(WordKind.From))
        {
            return phase;
        }

        _deedOf ??= term.Is(WordKind.DeedsOf) ? term.Value : null;
        _deed = term.Is(WordKind.DeedsOf) ? _deed : Heavier(_deed, term.Value);
        _byParticle |= leads;
        _isVerbFirst |= _subject.Count == 0 && _head is null && _fluid is null && _supply is null && !leads;
        return _subject.Count == 0 && _head is null && _fluid is null && _supply is null || _head is not null && _head.Start > term.Start ? Phase.Subject : Phase.After;
    }

    private bool Leads(Term term) => term.Is(WordKind.From) || _book.Of(Lower(term), WordKind.From) is not null;

    // “Undone and off” is off; “swung out of the way” is aside.
    private static int Weight(string? deed) => deed switch { null => 0, "undone" => 1, "removed" => 2, _ => 3 };

    private static string Heavier(string? deed, string other) => Weight(deed) > Weight(other) ? deed! : other;

    // The second word of a deed ends what it was done to.
    private bool IsParticle(int at) => (_subject.Count > 0 || _head is { IsUsed: true } || _fluid is not null) && EndsDeed(at);

    // “Yanked the cover”: what was done, with the thing behind it.
    private bool IsTransitive(int at) => _terms[at].Value is "removed" or "undone" && NextIs(at, WordKind.Fillers, WordKind.Article) && !_clause.Has(WordKind.Deeds, WordKind.DeedsOf);

    private bool EndsThing(int at) => at + 1 >= _terms.Count || _terms[at + 1].Is(WordKind.From, WordKind.With);

    private int? FirstParticle(int at)
    {
        while (++at < _terms.Count)
        {
            if (EndsDeed(at))
            {
                return at;
            }
        }

        return null;
    }

    private bool IsParticleWord(int at) => _book.Of(Lower(_terms[at]), WordKind.Particles) is not null;

    private bool EndsDeed(int at) => IsParticleWord(at)
        && (at + 1 >= _terms.Count || !_terms[at + 1].IsNameable && !_terms[at + 1].Is(WordKind.Article, WordKind.Fillers));

    private Phase Name(Term term, int at, Phase phase)
    {
        if (term.Is(WordKind.Number, WordKind.Times, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Torque, WordKind.Volume, WordKind.Tray))
        {
            return phase;
        }

        if (term.Is(WordKind.Remarks) || at > 0 && _terms[at - 1].Is(WordKind.Across, WordKind.Thread, WordKind.Drive) && _head is not null && _book.Of(Lower(term), WordKind.Heads) is not null)
        {
            return Phase.After;
        }

        switch (phase)
        {
            case Phase.Subject when _head is not null && term.Start > _head.Start:
                if (at > 0 && _terms[at - 1] is { Kind: WordKind.Number, IsUsed: false } || !_head.IsPlural || _host.Count > 0 || _subject.Count > 0 || !IsThreaded(_head))
                {
                    return Phase.After;
                }

                term.IsUsed = true;
                _host.Add(term);
                return Phase.Host;
            case Phase.Subject when _subject.Count == 0 && _head is null && EndsName(at)
                && term.Is(WordKind.Fluids, WordKind.Supplies, WordKind.BatteryLeads):
                term.IsUsed = true;
                (_fluid, _supply) = term.Is(WordKind.Fluids) ? (term, _supply) : (_fluid, term);
                return phase;
            case Phase.Subject when _head is null && _fluid is null && term.Is(WordKind.Fluids) && EndsName(at):
                term.IsUsed = true;
                _fluid = term;
                return phase;
            case Phase.Subject when _fluid is null && _supply is null:
                term.IsUsed = true;
                _subject.Add(term);
                return phase;
            case Phase.Host when _host.Count > 0 || !term.Is(WordKind.Sundries):
                term.IsUsed = true;
                _host.Add(term);
                return phase;
            default:
                return Phase.After;
        }
    }

    /// <summary>Whether a name follows.</summary>
    private bool HasName(int at)
    {
        for (var i = at + 1; i < _terms.Count && i <= at + FurthestName; i++)
        {
            if (!_terms[i].IsUsed && !_terms[i].Is(WordKind.Fillers, WordKind.Article))
            {
                return !_terms[i].Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.From, WordKind.With, WordKind.Number);
            }
        }

        return false;
    }

    /// <summary>“Three 13s”, “tensioner 15”, “six M6 allen”: a fastener without its name.</summary>
    private JointKind? Implied(Term? open)
    {
        var isMeasured = _reading.Across is not null || _reading.Thread is not null || _reading.Drive is not null;
        var isPlural = _terms.Any(term => term.IsPlural && term.Is(WordKind.Across, WordKind.Thread, WordKind.Drive));
        var saysDeed = _deed is not null || _deedOf is not null;
        var isTold = _subject.Count > 0 && !saysDeed && (isMeasured || open is { Number: >= 7 }) && _fluid is null;
        return isPlural || isTold ? FastenerOf(_reading.Drive) : null;
    }

    /// <summary>What a fastener is most likely called that nobody called anything: common practice, no source.</summary>
    public static JointKind FastenerOf(Drive? drive) =>
        drive?.Shape is DriveShape.InnerStar or DriveShape.TamperStar or DriveShape.Slot or DriveShape.Cross or DriveShape.CrossZ ? JointKind.Screw : JointKind.Bolt;

    private Heard OfJoint(Term? open)
    {
        var kind = _reading.Kind ?? (IsThreadedPlug() ? JointKind.Bolt : Kind(_head!));
        var (name, part) = _head is not null ? Names(kind) : _subject.Count > 0 && _subject.All(t => t.Is(WordKind.JointModifiers)) ? (Text(_subject), (string?)null) : (null, Text(_subject));
        _reading = _reading with { Kind = kind, Name = name, Part = part ?? HostText() };
        if (_head?.Value.Split(' ') is [_, var shape])
        {
            _reading = _reading with { Drive = _reading.Drive ?? (Words<DriveShape>.TryRead(shape, out var drive) ? new Drive(drive, null) : null) };
        }

        var saysDeed = _deed is not null || _deedOf is not null;
        var isStuck = _clause.Has(WordKind.Stuck);
        var isState = _clause.Has(WordKind.Flags) && !isStuck && !saysDeed && _subject.Count == 0 && _host.Count == 0
            && _reading is { Across: null, Thread: null, Name: null, Drive: null };
        return new Heard(_clause, isState ? Shape.State : Shape.Thing, _reading with { Deed = isStuck ? Deed.Note : JointDeed() })
        {
            SaysDeed = saysDeed,
            IsVerbFirst = _isVerbFirst,
            SaysHost = _host.Count > 0,
            IsPlural = _head?.IsPlural ?? true,
            IsImplied = _head is null && _deedOf is null,
            Open = open,
        };
    }

    // A plug with a size is screwed in.
    private bool IsThreadedPlug() => (_reading.Across is not null || _reading.Thread is not null || _reading.Drive is not null)
        && _book.Of(Lower(_head!), WordKind.ThreadedPlugs) is not null;

    private Deed JointDeed() => _deed switch { "loose" => Deed.Loose, "aside" => Deed.Aside, _ => Deed.Undone };

    /// <summary>
    /// The words before a fastener or plug tell the part, but for those that tell which of them it is; before a hose or pipe they are its name. With the
    /// part said behind, they are a name too.
    /// </summary>
    private (string? Name, string? Part) Names(JointKind kind)
    {
        var noun = _head!.Text(_line);
        foreach (var term in _subject.Where(t => t is { Kind: WordKind.JointModifiers, Value: not "plain" }))
        {
            _reading = Attributes.Flagged(_reading, term.Value);
        }

        if (kind is JointKind.Hose or JointKind.Pipe)
        {
            var isPlain = _book.Of(noun.ToLowerInvariant(), WordKind.Joints) is { Words: ["hose" or "hoses" or "pipe" or "pipes"] };
            return (_subject.Count > 0 ? $"{Text(_subject)} {noun}" : isPlain ? null : noun, null);
        }

        var split = _subject.Count;
        var counted = _terms.FirstOrDefault(t => t.Start < _head!.Start && t.Is(WordKind.Number, WordKind.Across, WordKind.Thread))?.Start ?? 0;
        while (split > 0 && (_host.Count > 0 || _subject[split - 1].Is(WordKind.JointModifiers) && !(_subject[split - 1].Start < counted && _subject.Count > 1) || _subject[0].Start < counted && counted < _subject[split - 1].Start))
        {
            split--;
        }

        var isNamed = split < _subject.Count || _head.Is(WordKind.NamedJoints) || IsThreadedPlug();
        var name = isNamed ? string.Join(' ', new[] { Text(_subject[split..]), noun }.OfType<string>()) : null;
        return (name, Text(_subject[..split]));
    }

    private Heard OfPart(Term? open)
    {
        var first = _terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article));
        var saysDeed = _deed is not null || _deedOf is not null;
        var isHost = first is not null && _book.Of(Lower(first), WordKind.From) is not null && _subject.Count > 0;
        var shape = isHost ? Shape.Host : _subject.Count + _host.Count > 0 || _fluid is not null || _supply is not null ? Shape.Thing : saysDeed ? Shape.DeedOnly : Shape.Attributes;
        if (_deedOf is { } of && Words<JointKind>.TryRead(of, out var kind) && _supply is null && _deed is null)
        {
            _reading = _reading with { Kind = kind, Part = Text(_subject) };
        }
        else if (_fluid is not null && (saysDeed || _reading.Volume_L is not null || _reading.Question is not null))
        {
            return Told(Shape.Thing, _reading with { Deed = Deed.Drained, Fluid = Text(_subject) is { } whose ? $"{whose} {_fluid.Value}" : _fluid.Value }, true, open);
        }
        else if (_supply is not null && IsMadeSafe())
        {
            return Told(Shape.Thing, WithSupply(), true, open);
        }
        else
        {
            _reading = _reading with { Part = Text([.. _subject, .. new[] { _fluid, _supply }.OfType<Term>()]) };
        }

        if (shape == Shape.Thing && !saysDeed)
        {
            var isState = _clause.Has(WordKind.Flags, WordKind.Stuck);
            return Told(isState ? Shape.State : Shape.Bare, _reading, false, open);
        }

        var stripped = _reading with { Deed = _reading.Kind is not null ? Deed.Undone : PartDeed() };
        return Told(shape == Shape.Attributes && _clause.Has(WordKind.Flags, WordKind.Stuck) ? Shape.State : shape, stripped, saysDeed, open);
    }

    private Heard Told(Shape shape, Reading reading, bool saysDeed, Term? open) => new(_clause, shape, reading) { SaysDeed = saysDeed, IsVerbFirst = _isVerbFirst, IsPlural = true, Open = open };

    // A battery that is “off” is disconnected; one that is “out” is a part taken out. Of what is let out, only a deed that makes safe says that it is.
    private bool IsMadeSafe() => _deed == "safe" || _supply is { Kind: WordKind.BatteryLeads } or { Value: "battery" or "high_voltage" or "fuel_pressure" or "hydraulic" }
        && (_deed == "undone" || _deedOf is not null || _byParticle || _supply.Value == "fuel_pressure" && _deed is not null);

    private Reading WithSupply() => _supply is { Kind: WordKind.BatteryLeads }
        ? _reading with { Deed = Deed.Safe, Supply = SupplyKind.Battery, Name = _supply.Text(_line) }
        : _reading with { Deed = Deed.Safe, Supply = Words<SupplyKind>.TryRead(_supply!.Value, out var kind) ? kind : null };

    private Deed PartDeed() => _deed switch
    {
        "removed" => Deed.Off,
        "undone" => Deed.Undone,
        "loose" => Deed.Loose,
        "aside" => Deed.Aside,
        "safe" => Deed.Safe,
        "drained" => Deed.Drained,
        _ => Deed.Note,
    };

    private string? HostText()
    {
        // With something else in between, the words alone.
        if (_host.Count == 0 || _terms.Count(t => t.Start >= _host[0].Start && t.Start <= _host[^1].Start && !t.Is(WordKind.Fillers, WordKind.Article)) != _host.Count)
        {
            return Text(_host);
        }

        return _line[_host[0].Start.._host[^1].End];
    }

    private string? Text(IReadOnlyList<Term> terms) => terms.Count == 0 ? null : string.Join(' ', terms.Select(term => term.Text(_line)));

    private static bool IsThreaded(Term head) => Kind(head) is JointKind.Bolt or JointKind.Nut or JointKind.Screw or JointKind.Stud;

    private static JointKind Kind(Term head) => Words<JointKind>.TryRead(head.Value.Split(' ')[0], out var kind) ? kind : JointKind.Bolt;
}
