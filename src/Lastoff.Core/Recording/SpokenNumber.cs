using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>A number in figures or words: 13, thirteen, twenty one, 3/8, three eighths, half, one and a quarter, one point eight.</summary>
/// <param name="Next">The token after it.</param>
internal readonly record struct SpokenNumber(double Value, bool IsFraction, bool IsGroup, int Next)
{
    private const int MostDecimals = 6;

    public static SpokenNumber? At(IReadOnlyList<Token> tokens, int at, PhraseBook book) => Decimal(tokens, at, book) ?? Figures(tokens, at, book) ?? Words(tokens, at, book);

    /// <summary>“One point eight litres”, “point two five litres”. A “six point socket” has no decimals, so a unit has to follow.</summary>
    private static SpokenNumber? Decimal(IReadOnlyList<Token> tokens, int at, PhraseBook book)
    {
        var whole = Whole(tokens, at, book) ?? new SpokenNumber(0, false, false, at);
        if (book.At(tokens, whole.Next, WordKind.DecimalMarks) is not { } mark)
        {
            return null;
        }

        var (value, place, next) = (whole.Value, 0.1, whole.Next + mark.Words.Count);
        for (var end = Math.Min(tokens.Count, next + MostDecimals); next < end && Digit(tokens[next], book) is { } digit; next++, place /= 10)
        {
            value += digit * place;
        }

        return place < 0.1 && book.At(tokens, next, WordKind.Units) is not null ? new SpokenNumber(Math.Round(value, MostDecimals), false, false, next) : null;
    }

    /// <summary>What stands before the mark; an article is one: “ein Komma acht”.</summary>
    private static SpokenNumber? Whole(IReadOnlyList<Token> tokens, int at, PhraseBook book) =>
        book.Of(tokens[at].Lower, WordKind.Zeros) is not null ? new SpokenNumber(0, false, false, at + 1)
        : book.Of(tokens[at].Lower, WordKind.Article) is not null ? new SpokenNumber(1, false, false, at + 1)
        : tokens[at] is { Number: { } figure, IsFraction: false } ? new SpokenNumber(figure, false, false, at + 1)
        // “Six point” is the shape of a head as well.
        : book.At(tokens, at, WordKind.Numbers) is { Words.Count: 1 } number ? Figure(number) is var tens and >= 20 && at + 1 < tokens.Count && Digit(tokens[at + 1], book) is > 0 and { } ones
            ? new SpokenNumber(tens + ones, false, false, at + 2) : new SpokenNumber(Figure(number), false, false, at + 1)
        : null;

    private static int? Digit(Token token, PhraseBook book) =>
        book.Of(token.Lower, WordKind.Zeros) is not null ? 0
        : token is { Number: >= 0 and < 10, IsFraction: false, Length: 1 } ? (int)token.Number
        : book.Of(token.Lower, WordKind.Numbers) is { } number && Figure(number) < 10 ? Figure(number)
        : null;

    private static SpokenNumber? Figures(IReadOnlyList<Token> tokens, int at, PhraseBook book) => tokens[at].Number is { } value
        ? tokens[at].IsFraction ? new SpokenNumber(value, true, false, at + 1) : WithPart(new SpokenNumber(value, false, false, at + 1), tokens, book)
        : null;

    private static SpokenNumber? Words(IReadOnlyList<Token> tokens, int at, PhraseBook book)
    {
        if (book.At(tokens, at) is not { } phrase)
        {
            return null;
        }

        var next = at + phrase.Words.Count;
        if (phrase.Kind == WordKind.Fractions)
        {
            return new SpokenNumber(1.0 / Figure(phrase), true, false, next);
        }

        if (phrase.Kind != WordKind.Numbers)
        {
            return null;
        }

        var value = Figure(phrase);
        if (Hundreds(tokens, value, next, book) is { } hundreds)
        {
            return hundreds;
        }

        if (value >= 20 && Phrase(tokens, next, book) is { Kind: WordKind.Numbers } ones && Figure(ones) < 10)
        {
            return new SpokenNumber(value + Figure(ones), false, false, next + ones.Words.Count);
        }

        return WithPart(new SpokenNumber(value, false, phrase.Words.Count > 1, next), tokens, book);
    }

    /// <summary>“Two hundred”, “a hundred and twenty”.</summary>
    private static SpokenNumber? Hundreds(IReadOnlyList<Token> tokens, int value, int next, PhraseBook book)
    {
        if (value < 10 && Phrase(tokens, next, book) is { Kind: WordKind.Numbers } hundred && Figure(hundred) == 100)
        {
            (value, next) = (value * 100, next + hundred.Words.Count);
        }
        else if (value != 100)
        {
            return null;
        }

        var more = Phrase(tokens, next, book) is { Kind: WordKind.And } and ? next + and.Words.Count : next;
        return Phrase(tokens, more, book) is { Kind: WordKind.Numbers } && Words(tokens, more, book) is { Value: < 100, IsGroup: false, IsFraction: false } rest
            ? new SpokenNumber(value + rest.Value, false, false, rest.Next)
            : new SpokenNumber(value, false, false, next);
    }

    /// <summary>What follows may make a fraction of it: “three eighths”, “two and a half”. “Two half inch bolts” are two.</summary>
    private static SpokenNumber WithPart(SpokenNumber number, IReadOnlyList<Token> tokens, PhraseBook book)
    {
        if (Phrase(tokens, number.Next, book) is { Kind: WordKind.Fractions } below && Figure(below) is var part && part > 2
            && number.Value < part && number.Value % 2 == 1)
        {
            return new SpokenNumber(number.Value / part, true, false, number.Next + below.Words.Count);
        }

        return Phrase(tokens, number.Next, book) is { Kind: WordKind.And } and
            && number.Next + and.Words.Count is var after && Phrase(tokens, after, book) is { Kind: WordKind.Fractions, Words.Count: > 1 } more
            ? new SpokenNumber(number.Value + 1.0 / Figure(more), true, false, after + more.Words.Count)
            : number;
    }

    private static Phrase? Phrase(IReadOnlyList<Token> tokens, int at, PhraseBook book) => at < tokens.Count ? book.At(tokens, at) : null;

    private static int Figure(Phrase phrase) => int.Parse(phrase.Value, CultureInfo.InvariantCulture);
}
