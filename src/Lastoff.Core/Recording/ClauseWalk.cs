using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Goes through the words of a clause and finds what each is to the others: the joint it is about, the words that name it, the part behind it, the deed.</summary>
internal sealed class ClauseWalk
{
    private enum Phase { Subject, Host, After }

    // Between “off” and the part stand an article, a side and a tool at most.
    private const int FurthestName = 8;

    private readonly Clause _clause;
    private readonly string _line;
    private readonly PhraseBook _book;
    private readonly IReadOnlyList<Term> _terms;
    private readonly DeedWords _words;

    public ClauseWalk(Clause clause, string line, PhraseBook book)
    {
        (_clause, _line, _book, _terms, _words) = (clause, line, book, clause.Terms, new DeedWords(clause.Terms, line, book));
        TakeVerb(_terms.First(term => !term.Is(WordKind.Fillers, WordKind.Article)));
        Head = FindHead();
    }

    /// <summary>The joint the clause is about; null when it names none.</summary>
    public Term? Head { get; }
    /// <summary>The words that name what the clause is about.</summary>
    public List<Term> Subject { get; } = [];
    /// <summary>The part a joint belongs to, said behind it.</summary>
    public List<Term> Host { get; } = [];
    public Term? Fluid { get; private set; }
    public Term? Supply { get; private set; }
    public string? Deed { get; private set; }
    /// <summary>The kind of joint that the deed tells: “unbolted”.</summary>
    public string? DeedOf { get; private set; }
    /// <summary>The deed is a word as “off”.</summary>
    public bool IsByParticle { get; private set; }
    public bool IsVerbFirst { get; private set; }

    /// <summary>“Cracked the nuts loose” tells what was done and not what is broken; “eased the pump back” moved it; “lift the bonnet off” is an order.</summary>
    private void TakeVerb(Term first)
    {
        // “Cracked housing off” is a broken housing.
        var next = _terms.FirstOrDefault(term => term.Start > first.Start);
        if (next is null || next.Start == first.End || !next.Is(WordKind.Fillers, WordKind.Article, WordKind.Number))
        {
            return;
        }

        var verb = first.Is(WordKind.Flags) || first is { Kind: WordKind.Deeds, Value: "loose" } ? _book.Of(first.Lower(_line), WordKind.Verbs) : null;
        var order = next.Is(WordKind.Fillers) && !_book.Has(next.Lower(_line), WordKind.Determiners) ? null : _book.Of(first.Lower(_line), WordKind.Orders);
        var end = Enumerable.Range(1, _terms.Count - 1).FirstOrDefault(_words.EndsDeed);
        if ((verb ?? order) is { } said && (end > 0 || verb is { Value: "undone" } || order is not null && !_clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Flags)))
        {
            first.IsUsed = true;
            (IsVerbFirst, Deed) = (true, end > 0 ? _words.ByParticle(said.Value, end) : said.Value);
        }
    }

    /// <summary>The joint the clause is about: the first whose name ends there and that no preposition stands before.</summary>
    private Term? FindHead()
    {
        var (named, behind) = (false, false);
        // What stands behind “with” is how it was done.
        for (var at = 0; at < _terms.Count && !(at > 0 && _terms[at].Is(WordKind.With)); at++)
        {
            // “Gasket off the face”: the face is where it was.
            behind = !_terms[at].Is(WordKind.Number) && (behind || named && Leads(_terms[at]));
            named |= _terms[at].Is(WordKind.Word, WordKind.Parts, WordKind.Fluids, WordKind.Sundries);
            if (!behind && _terms[at].Is(WordKind.Joints, WordKind.NamedJoints) && (EndsName(at) || _terms[at].IsPlural && !NextIs(at, WordKind.Joints, WordKind.NamedJoints)))
            {
                return _terms[at];
            }
        }

        return _terms.FirstOrDefault(term => !term.Is(WordKind.Fillers, WordKind.Article, WordKind.Number)) is { Kind: WordKind.NamedJoints } pinned
            && _terms.Any(term => term.Start >= pinned.End && term.Is(WordKind.JointModifiers)) ? pinned : null;
    }

    private bool EndsName(int at) => at + 1 >= _terms.Count || !_terms[at + 1].IsNameable || _terms[at + 1].Is(WordKind.Sundries) || _words.IsParticle(at + 1);

    private bool NextIs(int at, params ReadOnlySpan<WordKind> kinds) => at + 1 < _terms.Count && _terms[at + 1].Is(kinds);

    /// <summary>Gives every word that no size, count or flag has taken its place, and the reading the side that was said of the joint.</summary>
    public Reading Walk(Reading reading)
    {
        reading = SideOfJoint.Said(reading, _terms, Head);
        var phase = Phase.Subject;
        for (var at = 0; at < _terms.Count; at++)
        {
            var term = _terms[at];
            if (term.IsUsed)
            {
                // “One nut underneath the tank”.
                phase = phase == Phase.Subject && term.Is(WordKind.Places) && Head is { IsUsed: true } && Host.Count == 0 && NextIs(at, WordKind.Fillers) && HasName(at) ? Phase.Host : phase;
                continue;
            }

            if (ReferenceEquals(term, Head))
            {
                term.IsUsed = true;
            }
            else if (Head is not null && term.Is(WordKind.And, WordKind.Sundries) && phase == Phase.Subject && term.Start > Head.Start)
            {
                // Kept for the note.
                continue;
            }
            else if (term.Is(WordKind.Fillers, WordKind.Article, WordKind.With, WordKind.Them))
            {
                term.IsUsed = !term.Is(WordKind.With) || at == 0 || NextIs(at, WordKind.Across, WordKind.Thread, WordKind.Drive) || NextIs(at, WordKind.Number) && NextIs(at + 1, WordKind.Across, WordKind.Thread, WordKind.Drive);
                phase = term.IsUsed ? phase : Phase.After;
            }
            else if (term.Is(WordKind.Hedges) && NextIs(at, WordKind.Number, WordKind.Volume) && _book.Has(term.Lower(_line), WordKind.Roughly))
            {
                // “About two litres”: part of the number.
                term.IsUsed = true;
            }
            else if (term.Is(WordKind.Hedges, WordKind.Distributes))
            {
                phase = phase == Phase.Host && Host.Count > 0 ? Phase.After : phase;
                // Kept for the note.
                continue;
            }
            else if (phase != Phase.After && term.Is(WordKind.From) && at + 1 < _terms.Count && _book.Of(_terms[at + 1].Lower(_line), WordKind.Pronouns) is not null)
            {
                // “Two bolts out of it”.
                term.IsUsed = true;
                _terms[at + 1].IsUsed = true;
            }
            else if (at > 0 && _terms[at - 1].Is(WordKind.Verbs, WordKind.Deeds, WordKind.DeedsOf) && _book.Of(term.Lower(_line), WordKind.Pronouns) is not null)
            {
                term.IsUsed = true;
                // “Tied it up”: the second word of the deed names nothing.
                if (at + 1 < _terms.Count && _terms[at + 1].Is(WordKind.Word, WordKind.Sides) && _words.IsParticle(at + 1))
                {
                    _terms[at + 1].IsUsed = true;
                }
            }
            else if (IsVerbFirst && IsParticle(at))
            {
                term.IsUsed = true;
                Deed = Deed is null ? null : _words.ByParticle(Deed, at);
                phase = Phase.After;
            }
            else if ((term.Is(WordKind.Verbs) || _words.IsUnlisted(at)) && at + 1 < _terms.Count && _words.IsParticle(at + 1))
            {
                // “Knocked out”, with what it was before it or behind it.
                term.IsUsed = true;
                // “Clip prised off the pipe”: what it was off is told.
                _terms[at + 1].IsUsed = !(Leads(_terms[at + 1]) && HasName(at + 1) && (Subject.Count > 0 || Head is { IsUsed: true }));
                IsVerbFirst |= Subject.Count == 0 && Head is null or { IsUsed: false };
                Deed = DeedWords.Heavier(Deed, _words.ByParticle(term.Is(WordKind.Verbs) ? term.Value : "removed", at + 1));
                phase = IsVerbFirst ? phase : Phase.After;
            }
            else if (term.Is(WordKind.Verbs) && phase == Phase.Subject && Subject.Count == 0 && (_words.FirstParticle(at) ?? (IsTransitive(at) ? at : null)) is { } end)
            {
                term.IsUsed = true;
                IsVerbFirst = true;
                Deed = _words.ByParticle(term.Value, end);
            }
            else if (term.Is(WordKind.Flags))
            {
                // “Coupling split”.
                term.IsUsed = true;
                Deed = DeedWords.Heavier(Deed, _book.Of(term.Lower(_line), WordKind.Verbs)?.Value ?? "");
                phase = Phase.After;
            }
            else if (term is { Kind: WordKind.Verbs, Value: "aside" or "pushed" } && NextIs(at, WordKind.From))
            {
                // “Tied to the frame”.
                term.IsUsed = true;
                Deed = DeedWords.Heavier(Deed, "aside");
            }
            else if (at > 0 && _terms[at - 1].Is(WordKind.Deeds) && term.Is(WordKind.Word, WordKind.Sides) && _words.IsParticle(at) && _words.EndsThing(at))
            {
                // “Lowered down”.
                term.IsUsed = true;
            }
            else if (Deed is null && Head is null && phase == Phase.Subject && Subject.Count > 0 && _words.IsParticle(at) && term.Is(WordKind.Word) && _words.EndsThing(at))
            {
                // “Engine up on the crane”, “propshaft down”.
                term.IsUsed = true;
                Deed = _book.Of(term.Lower(_line), WordKind.Particles)!.Value;
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

        return reading;
    }

    /// <summary>A deed, or a word that leads to the part: “off” is both.</summary>
    private Phase Turn(Term term, int at, Phase phase)
    {
        // “Two bolts pulled off the bracket”.
        var leads = Leads(term) || Head is { IsUsed: true } && term.Is(WordKind.Deeds) && Leads(term.Lower(_line).Split(' ')[^1]) && !NextIs(at, WordKind.Number);
        if (leads && HasName(at))
        {
            if (Head is not null && Host.Count == 0 && phase != Phase.Host && Head.Start < term.Start)
            {
                term.IsUsed = true;
                Deed ??= term.Is(WordKind.Deeds) ? term.Value : null;
                return Phase.Host;
            }

            if (phase == Phase.Host && term.Is(WordKind.From) && _book.Of(term.Lower(_line), WordKind.OfThem) is not null)
            {
                // “The top of the strut”.
                term.IsUsed = true;
                Host.Add(term);
                return phase;
            }

            if (term.Is(WordKind.From))
            {
                if (phase == Phase.Subject && Subject.Count > 0 && at + 1 < _terms.Count && _terms[at + 1].Is(WordKind.Word, WordKind.Parts) && _book.Of(term.Lower(_line), WordKind.Between) is not null)
                {
                    // “Sump to gearbox bolts”.
                    term.IsUsed = true;
                    Subject.Add(term);
                    return phase;
                }

                if (at > 0 && _terms[at - 1].Is(WordKind.Volume) && _book.Of(term.Lower(_line), WordKind.OfThem) is null)
                {
                    // “Five litres into a drum”.
                    return Phase.After;
                }

                if (Head is null && (Subject.Count > 0 || Fluid is not null || Supply is not null) && Deed is null && term.Lower(_line).Split(' ') is [var word, _] && _book.Of(word, WordKind.Deeds) is { } deed)
                {
                    // “Pin out of the lever”.
                    Deed = deed.Value;
                    return Phase.After;
                }

                // “Two litres of oil”; anything else is told in the note, and so is where a thing was hung.
                var isOf = _book.Of(term.Lower(_line), WordKind.OfThem) is not null;
                // “One of the cover screws”.
                // “Impact gun on the wheel nuts”, “tray 6 for the bolts”.
                isOf |= Head is not null && Deed is null && at > 0 && _terms.Take(at).All(before => before.IsUsed);
                term.IsUsed = phase == Phase.Subject && Subject.Count == 0 && (Head is null ? Deed is null || isOf : isOf && Head.Start > term.Start && Names(at));
                return term.IsUsed ? phase : Phase.After;
            }
        }

        if (at + 1 == _terms.Count && Deed is null && DeedOf is null && at > 0 && _book.Of(term.Lower(_line), WordKind.AtEnd) is { } slip)
        {
            (term.IsUsed, Deed) = (true, slip.Value);
            return Phase.After;
        }

        // “With the pipes on”.
        if (phase == Phase.After && term.Is(WordKind.From) && at + 1 == _terms.Count)
        {
            return phase;
        }

        if (term.Value is "spilt" && Fluid is null && !_clause.Has(WordKind.Fluids) && !(Subject.Count == 0 && _clause.Has(WordKind.Volume)))
        {
            return Phase.After;
        }

        if (Head is not null && term.Value is "drained" or "safe" && term.Is(WordKind.Deeds))
        {
            return Phase.After;
        }

        // “Belt off the compressor”: where it came off is kept in the note.
        term.IsUsed = !(leads && Head is null && (Subject.Count > 0 || Supply is { Kind: WordKind.BatteryLeads }) && HasName(at));
        if (term.Is(WordKind.From))
        {
            return phase;
        }

        DeedOf ??= term.Is(WordKind.DeedsOf) ? term.Value : null;
        Deed = term.Is(WordKind.DeedsOf) ? Deed : DeedWords.Heavier(Deed, term.Value);
        IsByParticle |= leads;
        IsVerbFirst |= Subject.Count == 0 && Head is null && Fluid is null && Supply is null && !leads;
        return Subject.Count == 0 && Head is null && Fluid is null && Supply is null || Head is not null && Head.Start > term.Start ? Phase.Subject : Phase.After;
    }

    private bool Leads(Term term) => term.Is(WordKind.From) || Leads(term.Lower(_line));

    private bool Leads(string word) => _book.Of(word, WordKind.From) is not null;

    // The second word of a deed ends what it was done to.
    private bool IsParticle(int at) => (Subject.Count > 0 || Head is { IsUsed: true } || Fluid is not null) && _words.EndsDeed(at);

    // “Yanked the cover”: what was done, with the thing behind it.
    private bool IsTransitive(int at) => _terms[at].Value is "removed" or "undone" && NextIs(at, WordKind.Fillers, WordKind.Article) && !_clause.Has(WordKind.Deeds, WordKind.DeedsOf);

    private Phase Name(Term term, int at, Phase phase)
    {
        if (term.Is(WordKind.Number, WordKind.Times, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Length, WordKind.Torque, WordKind.Volume, WordKind.Tray))
        {
            return phase;
        }

        if (term.Is(WordKind.Remarks) || at > 0 && _terms[at - 1].Is(WordKind.Across, WordKind.Thread, WordKind.Drive) && Head is not null && _book.Of(term.Lower(_line), WordKind.Heads) is not null)
        {
            return Phase.After;
        }

        switch (phase)
        {
            case Phase.Subject when Head is not null && term.Start > Head.Start:
                if (at > 0 && _terms[at - 1] is { Kind: WordKind.Number, IsUsed: false } || !Head.IsPlural || Host.Count > 0 || Subject.Count > 0 || !IsTurned(Head))
                {
                    return Phase.After;
                }

                term.IsUsed = true;
                Host.Add(term);
                return Phase.Host;
            case Phase.Subject when Subject.Count == 0 && Head is null && EndsName(at)
                && term.Is(WordKind.Fluids, WordKind.Supplies, WordKind.BatteryLeads):
                term.IsUsed = true;
                (Fluid, Supply) = term.Is(WordKind.Fluids) ? (term, Supply) : (Fluid, term);
                return phase;
            case Phase.Subject when Head is null && Fluid is null && term.Is(WordKind.Fluids) && EndsName(at):
                term.IsUsed = true;
                Fluid = term;
                return phase;
            case Phase.Subject when Fluid is null && Supply is null:
                term.IsUsed = true;
                Subject.Add(term);
                return phase;
            case Phase.Host when Host.Count > 0 || !term.Is(WordKind.Sundries):
                term.IsUsed = true;
                Host.Add(term);
                return phase;
            default:
                return Phase.After;
        }
    }

    /// <summary>Whether the words up to the joint name its part, and count nothing.</summary>
    private bool Names(int at) => _terms.Skip(at + 1).TakeWhile(term => !ReferenceEquals(term, Head)).All(term => term.Is(WordKind.Word, WordKind.Parts, WordKind.JointModifiers, WordKind.Fillers, WordKind.Article));

    /// <summary>Whether a name follows.</summary>
    private bool HasName(int at)
    {
        for (var i = at + 1; i < _terms.Count && i <= at + FurthestName; i++)
        {
            if (!_terms[i].IsUsed && !_terms[i].Is(WordKind.Fillers, WordKind.Article))
            {
                // “Clamp off first”.
                var isWhen = _terms[i].Is(WordKind.JointModifiers) && i == at + 1 && i + 1 == _terms.Count;
                // “Belts off both alternators”.
                var isCounted = _terms[i].Is(WordKind.Number) && i + 1 < _terms.Count && _terms[i + 1].Is(WordKind.Word, WordKind.Parts);
                return isCounted || !isWhen && !_terms[i].Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.From, WordKind.With, WordKind.Number);
            }
        }

        return false;
    }

    public static bool IsTurned(Term head) => KindOf(head) is JointKind.Bolt or JointKind.Nut or JointKind.Screw or JointKind.Stud;

    public static JointKind KindOf(Term head) => Words<JointKind>.TryRead(head.Value.Split(' ')[0], out var kind) ? kind : JointKind.Bolt;
}
