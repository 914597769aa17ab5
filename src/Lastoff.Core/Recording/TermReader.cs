using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Puts the tokens of a line together to terms: sizes, threads, drives, amounts, trays, and the phrases of the word list.</summary>
internal sealed class TermReader
{
    private const int MostPitch = 6;
    private const int LongestInitials = 3;
    // “Fives” and more are sizes; “ones” and “twos” are not.
    private const int LeastInPlural = 5;
    private const int LeastHead_mm = 4;
    private const int MostHead_mm = 60;
    // “Six heads” are six.
    private const int LeastHeadSaid_mm = 7;
    // Coarse threads of ISO 261 have the largest pitch for their diameter at M1.6 (0.35 mm); from memory. What is more is a length or a count.
    private const double MostPitchOfDiameter = 0.25;
    // “Two long” are two, “20 long” is a length.
    private const int LeastLength_mm = 10;
    private const int MostLength_mm = 1000;
    // “8x60”: threads that a bolt of a machine has, and lengths that no head has that is met with so many at once (set down, no source).
    private const int LeastBareThread_mm = 4;
    private const int MostBareThread_mm = 24;
    private const int LeastBareLength_mm = 35;
    // Widths across flats of M24, M27 and M30 by ISO 272; from memory.
    private static readonly double[] s_largeHeads_mm = [36, 41, 46];

    private readonly string _line;
    private readonly PhraseBook _book;
    private readonly List<Token> _tokens;

    private TermReader(string line, PhraseBook book)
    {
        (_line, _book) = (line, book);
        _tokens = Mend(book.Cut(line), book);
    }

    public static List<Term> Read(string line, PhraseBook book)
    {
        var reader = new TermReader(line, book);
        var trays = new TrayReader(line, reader._tokens, book);
        var terms = new List<Term>();
        for (var at = 0; at < reader._tokens.Count;)
        {
            var (term, next) = trays.At(at, terms) ?? reader.OfSeal(at) ?? reader.Ordinal(at) ?? reader.Marked(at) ?? reader.Spaced(at) ?? reader.Measure(at, terms) ?? reader.Plain(at);
            terms.Add(term);
            at = next;
        }

        return terms;
    }

    /// <summary>Parts words that were run together, and takes slips for what they were meant to be; the line itself is kept.</summary>
    private static List<Token> Mend(List<Token> tokens, PhraseBook book)
    {
        var mended = new List<Token>(tokens.Count);
        for (var at = 0; at < tokens.Count; at++)
        {
            var token = tokens[at];
            if (!char.IsLetter(token.Lower[0]) || book.Knows(token.Lower))
            {
                mended.Add(token);
            }
            else if (EndOfStem(token.Lower, book) is { } stem)
            {
                mended.Add(token with { Lower = token.Lower[..stem], Length = stem });
                mended.Add(token with { Lower = token.Lower[stem..], Start = token.Start + stem, Length = token.Length - stem, IsGlued = true });
            }
            else if ((book.Compound(token.Lower) ?? book.Gap(token.Lower)) is { } gap)
            {
                mended.Add(token with { Lower = token.Lower[..gap], Length = gap });
                mended.Add(token with { Lower = token.Lower[gap..], Start = token.Start + gap, Length = token.Length - gap, IsGlued = true });
            }
            else
            {
                mended.Add(book.Meant(token.Lower) is { } meant ? token with { Lower = meant } : token);
            }
        }

        return mended;
    }

    /// <summary>Where “alternator's” and “fifteens” end without what they end in.</summary>
    private static int? EndOfStem(string word, PhraseBook book)
    {
        var stem = word.Length - (word.EndsWith("'s", StringComparison.Ordinal) ? 2 : 1);
        var isNumber = book.Of(word[..stem], WordKind.Numbers) is { } number && int.Parse(number.Value, CultureInfo.InvariantCulture) >= LeastInPlural;
        return stem > 0 && book.Of(word[stem..], WordKind.Plural) is not null && (isNumber || stem == word.Length - 2) ? stem : null;
    }

    /// <summary>“Shaft seal out, 25x40x7”: kept for the note.</summary>
    private (Term, int)? OfSeal(int at) => SealSize.End(_tokens, at, _book) is { } end ? (new Term(WordKind.Hedges, Start(at), End(end)), end) : null;

    // M8, M8x1.25, t thirty, E12, torx 45.
    private (Term, int)? Marked(int at)
    {
        var start = at;
        var tamper = Phrase(at) is { Kind: WordKind.Tamper } guard ? guard : null;
        at += tamper?.Words.Count ?? 0;
        // “Thread M12”.
        at += at + 1 < _tokens.Count && Phrase(at) is { Kind: WordKind.InchThreads, Words.Count: 1 } && _book.Of(_tokens[at + 1].Lower, WordKind.Marks) is { Value: "metric" } ? 1 : 0;
        if (at + 1 >= _tokens.Count || _book.Of(_tokens[at].Lower, WordKind.Marks) is not { } mark
            || SpokenNumber.At(_tokens, at + 1, _book) is not { IsGroup: false, Value: > 0 } number)
        {
            return null;
        }

        if (mark.Value == "metric")
        {
            return number.IsFraction ? null : Metric(start, number);
        }

        if (number.IsFraction || number.Value % 1 != 0 || number.Value > 200 || !Words<DriveShape>.TryRead(mark.Value, out var shape))
        {
            return null;
        }

        var next = EndOfPlural(number.Next, out var isPlural);
        shape = tamper is not null && shape == DriveShape.InnerStar ? DriveShape.TamperStar : shape;
        return (new Term(WordKind.Drive, Start(start), End(next)) { Drive = new Drive(shape, (int)number.Value), IsPlural = isPlural }, next);
    }

    private (Term, int)? Metric(int start, SpokenNumber diameter)
    {
        double? pitch = null;
        Size? length = null;
        var next = diameter.Next;
        if (Behind(next) is { } said && (said <= MostPitchOfDiameter * diameter.Value || said % 1 != 0) && said <= MostPitch)
        {
            (pitch, next) = (said, next + 2);
        }

        // “M8x40”; “M8 x 6” are six.
        if (Behind(next) is > MostPitch and <= MostLength_mm and var long_mm)
        {
            (length, next) = (Size.FromMillimetres(long_mm), next + 2);
        }

        next = EndOfPlural(next, out var isPlural);
        // “M12 thread”, “M10 x 1.25 pitch”; a thread that is damaged is told of.
        next += next + 1 == _tokens.Count || next < _tokens.Count && !(Phrase(next + 1) is { Kind: WordKind.Flags } || Phrase(next) is { Words.Count: > 1 }) ? Phrase(next) is { Kind: WordKind.InchThreads } ? 1 : 0 : 0;
        return (new Term(WordKind.Thread, Start(start), End(next)) { Thread = new ThreadSize(Size.FromMillimetres(diameter.Value), pitch), Length = length, IsPlural = isPlural }, next);
    }

    /// <summary>
    /// “Two 8x60 bolts”, “8 by 60”: a metric thread and how long it is, without the letter. “4 x 13” are four heads of 13, and a length that a head may have is one where no count stands before.
    /// </summary>
    private (Term, int)? Bare(int at, SpokenNumber diameter, List<Term> before) =>
        diameter is { IsFraction: false, IsGroup: false, Value: >= LeastBareThread_mm and <= MostBareThread_mm } && diameter.Value % 1 == 0 && Behind(diameter.Next) is { } long_mm && long_mm > diameter.Value
        && (before is [.., { Kind: WordKind.Number }] or [.., { Kind: WordKind.Number }, { Kind: WordKind.Times }] || long_mm >= LeastBareLength_mm && !s_largeHeads_mm.Contains(long_mm))
            ? Metric(at, diameter)
            : null;

    /// <summary>The number behind “x” or “by”.</summary>
    private double? Behind(int at) => at + 1 < _tokens.Count && (Phrase(at) is { Kind: WordKind.Times } || _book.At(_tokens, at, WordKind.LengthLeads) is not null)
        && _tokens[at + 1] is { Number: > 0 and var said, IsFraction: false } && _book.At(_tokens, at + 2, WordKind.Units) is null ? said : null;

    /// <summary>“45 long”, “2 inch long”; “two 13 mil long bolts” are long bolts.</summary>
    private int? EndOfLength(int at) => _book.At(_tokens, at, WordKind.FastenerLengths) is { } behind && at + behind.Words.Count is var next
        && (next >= _tokens.Count || Phrase(next) is not { Kind: WordKind.Joints or WordKind.NamedJoints or WordKind.JointModifiers or WordKind.Numbers or WordKind.Marks or WordKind.Drives } && _tokens[next].Number is null && !(Phrase(next) is null && char.IsLetter(_tokens[next].Lower[0]))) ? next : null;

    /// <summary>“4th bolt”: which it is, and no count.</summary>
    private (Term, int)? Ordinal(int at) => at + 1 < _tokens.Count && _tokens[at] is { Number: not null, IsFraction: false } && _tokens[at + 1].IsGlued && _book.Of(_tokens[at + 1].Lower, WordKind.OrdinalEnds) is not null
        ? (new Term(WordKind.JointModifiers, Start(at), End(at + 2)) { Value = "plain" }, at + 2)
        : null;

    // “12 point” is a shape, not a number.
    private (Term, int)? Spaced(int at) => Phrase(at) is { Kind: WordKind.Drives } && _tokens[at].Number is not null && SpokenNumber.At(_tokens, at, _book)?.Next == at + 1 ? Plain(at) : null;

    private (Term, int)? Measure(int at, List<Term> before)
    {
        if (_book.At(_tokens, at, WordKind.Units) is { Value: "inch" } && InchAndPart(at) is { } more)
        {
            return more;
        }

        // “A pint”.
        if (Phrase(at) is { Kind: WordKind.Article } && _book.At(_tokens, at + 1, WordKind.Units) is { } one
            && Quantity(at, new SpokenNumber(1, false, false, at + 1), one) is { } article && article.Item1.Is(WordKind.Volume))
        {
            return article;
        }

        if (SpokenNumber.At(_tokens, at, _book) is not { Value: > 0 } number)
        {
            return null;
        }

        if (Bare(at, number, before) is { } bare)
        {
            return bare;
        }

        if (number.IsFraction && number.Next + 1 < _tokens.Count && _tokens[number.Next].Lower == "-" && _tokens[number.Next + 1] is { Number: > 0 and var perInch, IsFraction: false })
        {
            return (new Term(WordKind.Thread, Start(at), End(number.Next + 2)) { Thread = new ThreadSize(Size.FromInches(number.Value), perInch) }, number.Next + 2);
        }

        if (_book.At(_tokens, number.Next, WordKind.Units) is { } unit && Quantity(at, number, unit) is { } quantity)
        {
            return quantity;
        }

        // “Top half” is no size; “half bolts” is.
        if (number.IsFraction && _book.At(_tokens, at, WordKind.Fractions) is not null && Phrase(number.Next) is not { Kind: WordKind.Joints or WordKind.NamedJoints or WordKind.JointModifiers or WordKind.Drives or WordKind.InchThreads })
        {
            return null;
        }

        if (number.IsFraction)
        {
            return Inches(at, number.Value, number.Next);
        }

        // “4 x 10” are four heads of 10.
        if (before is [.., { Kind: WordKind.Number, Number: var count }, { Kind: WordKind.Times }] && number.Value is >= LeastHead_mm and <= MostHead_mm && count <= number.Value)
        {
            var end = EndOfPlural(number.Next, out var areMany);
            return (new Term(WordKind.Across, Start(at), End(end)) { Across = Size.FromMillimetres(number.Value), IsPlural = areMany }, end);
        }

        // “M12 bolts, 18 head”; “13 head bolts” are thirteen.
        if (number.Value is >= LeastHeadSaid_mm and <= MostHead_mm && _book.At(_tokens, number.Next, WordKind.Heads) is { } head && number.Next + head.Words.Count is var behindHead
            && (behindHead >= _tokens.Count || Phrase(behindHead) is not { Kind: WordKind.Joints or WordKind.NamedJoints }))
        {
            return (new Term(WordKind.Across, Start(at), End(number.Next)) { Across = Size.FromMillimetres(number.Value) }, number.Next);
        }

        if (number.Value is >= LeastLength_mm and <= MostLength_mm && !number.IsGroup && EndOfLength(number.Next) is { } behind)
        {
            return (new Term(WordKind.Length, Start(at), End(behind)) { Length = Size.FromMillimetres(number.Value) }, behind);
        }

        // “13s” are heads of 13, and there are more than one.
        var next = EndOfPlural(number.Next, out var isPlural);
        return isPlural
            ? (new Term(WordKind.Across, Start(at), End(next)) { Across = Size.FromMillimetres(number.Value), IsPlural = true }, next)
            : (new Term(WordKind.Number, Start(at), End(next)) { Number = number.Value, IsGroup = number.IsGroup, IsSpoken = _tokens[at].Number is null }, next);
    }

    private (Term, int)? InchAndPart(int at)
    {
        var and = at + 1;
        return Phrase(and) is { Kind: WordKind.And } && Phrase(and + 1) is { Kind: WordKind.Fractions, Words.Count: > 1 } part
            ? Inches(at, 1 + 1.0 / int.Parse(part.Value, CultureInfo.InvariantCulture), and + 1 + part.Words.Count)
            : null;
    }

    private (Term, int)? Quantity(int at, SpokenNumber number, Phrase unit)
    {
        var next = number.Next + unit.Words.Count;
        switch (unit.Value)
        {
            case "mm" when EndOfLength(next) is { } end:
                return (new Term(WordKind.Length, Start(at), End(end)) { Length = Size.FromMillimetres(number.Value) }, end);
            case "mm":
                return (new Term(WordKind.Across, Start(at), End(next)) { Across = Size.FromMillimetres(number.Value) }, next);
            case "inch":
                return Inches(at, number.Value, next);
            case "in":
                return number.IsFraction || _tokens[number.Next].IsGlued ? Inches(at, number.Value, next) : null;
            default:
                var kind = Words<TorqueUnit>.TryRead(unit.Value, out _) ? WordKind.Torque : WordKind.Volume;
                // “A litre and a half”.
                return Phrase(next) is { Kind: WordKind.And } && Phrase(next + 1) is { Kind: WordKind.Fractions, Words.Count: > 1 } part && _book.At(_tokens, next + 1 + part.Words.Count, WordKind.Units) is null
                    ? (new Term(kind, Start(at), End(next + 1 + part.Words.Count)) { Number = number.Value + 1.0 / int.Parse(part.Value, CultureInfo.InvariantCulture), Unit = unit.Value }, next + 1 + part.Words.Count)
                    : (new Term(kind, Start(at), End(next)) { Number = number.Value, Unit = unit.Value }, next);
        }
    }

    private (Term, int) Inches(int at, double value, int next)
    {
        if (EndOfLength(next) is { } end)
        {
            return (new Term(WordKind.Length, Start(at), End(end)) { Length = Size.FromInches(value) }, end);
        }

        next = EndOfPlural(next, out var isPlural);
        if (Phrase(next) is { Kind: WordKind.InchThreads } thread)
        {
            next += thread.Words.Count;
            return (new Term(WordKind.Thread, Start(at), End(next)) { Thread = new ThreadSize(Size.FromInches(value), null) }, next);
        }

        return (new Term(WordKind.Across, Start(at), End(next)) { Across = Size.FromInches(value), IsPlural = isPlural }, next);
    }

    private (Term, int) Plain(int at)
    {
        if (Shorter(at) is { } phrase)
        {
            var next = at + phrase.Words.Count;
            Drive? drive = phrase.Kind == WordKind.Drives && Words<DriveShape>.TryRead(phrase.Value, out var shape) ? new Drive(shape, null) : null;
            var kind = phrase.Kind is WordKind.Drives ? WordKind.Drive : phrase.Kind;
            return (new Term(kind, Start(at), End(next)) { Value = phrase.Value.Length > 0 ? phrase.Value : string.Join(' ', phrase.Words), IsPlural = phrase.IsPlural, Drive = drive }, next);
        }

        var sign = !char.IsLetterOrDigit(_tokens[at].Lower[0]);
        // O2, H7, CO2: letters and a figure are one name.
        if (!sign && _tokens[at].Length <= LongestInitials && at + 1 < _tokens.Count && _tokens[at + 1] is { IsGlued: true, Number: not null, IsFraction: false })
        {
            return Made(WordKind.Word, at, at + 2, "");
        }

        var isStop = _tokens[at].Lower is "." or "!" or "?";
        return Made(isStop ? WordKind.Stops : sign ? WordKind.Comma : WordKind.Word, at, at + 1, "");
    }

    /// <summary>The phrase at a token, without what belongs to the words behind it: “sucked | out of the tank”, “at the | bottom hose”.</summary>
    private Phrase? Shorter(int at)
    {
        if (Phrase(at) is not { Words.Count: > 1 } whole)
        {
            return Phrase(at);
        }

        var next = at + whole.Words.Count;
        var isCut = whole.Kind == WordKind.Deeds ? Phrase(next - 1) is { Kind: WordKind.From, Words.Count: > 1 }
            : whole.Kind == WordKind.Places && _book.Of(whole.Words[^1], WordKind.Sides, WordKind.JointModifiers) is not null && Names(next);
        // “In all four ports”; “six in all”.
        isCut |= whole.Kind == WordKind.Them && next < _tokens.Count && (Names(next) || SpokenNumber.At(_tokens, next, _book) is not null);
        return isCut ? _book.Shorter(_tokens, at, whole) ?? whole : whole;
    }

    private bool Names(int at) => at < _tokens.Count && (Phrase(at) is { } phrase ? phrase.Kind is WordKind.Parts or WordKind.Joints or WordKind.NamedJoints : char.IsLetter(_tokens[at].Lower[0]));

    private (Term, int) Made(WordKind kind, int from, int to, string value) => (new Term(kind, Start(from), End(to)) { Value = value }, to);

    private int EndOfPlural(int at, out bool isPlural)
    {
        isPlural = at < _tokens.Count && _tokens[at].IsGlued && _book.At(_tokens, at, WordKind.Plural) is not null;
        return isPlural ? at + 1 : at;
    }

    private Phrase? Phrase(int at) => at < _tokens.Count ? _book.At(_tokens, at) : null;

    private int Start(int token) => _tokens[token].Start;

    private int End(int next) => _tokens[next - 1].End;

    private string Slice(int from, int to) => _line[Start(from)..End(to)];
}
