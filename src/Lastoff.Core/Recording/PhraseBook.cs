using Lastoff.Core.Languages;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The words of one language, found by the longest phrase that fits.</summary>
internal sealed class PhraseBook
{
    // Shorter words are too near to one another to be taken for a slip.
    private const int ShortestSlip = 5;
    private const int ShortestPart = 3;
    private const int LongestCompound = 60;
    private const int LongestWord = 24;
    private const string LanguageKey = "language";

    private readonly Dictionary<string, Phrase[]> _byFirst;
    private readonly Dictionary<char, string[]> _byLetter;

    private readonly HashSet<string> _words;
    private readonly char _decimalMark;
    private readonly bool _hasCapitalNouns;

    private PhraseBook(string? language, IEnumerable<Phrase> phrases)
    {
        var spoken = Language.Of(language) ?? Language.English;
        (_decimalMark, _hasCapitalNouns) = (spoken.DecimalMark[0], spoken.HasCapitalNouns);
        var all = phrases.ToArray();
        _byFirst = all.GroupBy(p => p.Words[0]).ToDictionary(g => g.Key, g => g.OrderByDescending(p => p.Words.Count).ToArray());
        _words = all.SelectMany(p => p.Words).ToHashSet();
        _byLetter = all.Where(p => p.Words is [{ Length: >= ShortestSlip }]).Select(p => p.Words[0]).Distinct()
            .GroupBy(w => w[0]).ToDictionary(g => g.Key, g => g.ToArray());
    }

    /// <summary>Reads a word list: sections of phrases, or of values with their phrases.</summary>
    /// <exception cref="FormatException">The text is not such a list; the message says where.</exception>
    public static PhraseBook Read(string yaml)
    {
        var faults = new FaultList();
        if (YamlTree.Parse(yaml, faults) is not { } root)
        {
            throw new FormatException($"The word list cannot be read: {faults.ByLine()[0].Sentence}");
        }

        return new PhraseBook(
            root.Entries.Where(section => section.Key == LanguageKey).Select(section => section.Value).OfType<YamlScalar>().FirstOrDefault()?.Text,
            root.Entries.Where(section => section.Key != LanguageKey).SelectMany(Section));
    }

    /// <summary>The longest phrase at a token; null when none begins there.</summary>
    public Phrase? At(IReadOnlyList<Token> tokens, int at)
    {
        if (_byFirst.TryGetValue(tokens[at].Lower, out var phrases))
        {
            foreach (var phrase in phrases)
            {
                if (!IsOnRequest(phrase.Kind) && Fits(phrase, tokens, at))
                {
                    return phrase;
                }
            }
        }

        return null;
    }

    /// <summary>The longest phrase of one kind at a token.</summary>
    public Phrase? At(IReadOnlyList<Token> tokens, int at, WordKind kind) => at < tokens.Count && _byFirst.TryGetValue(tokens[at].Lower, out var phrases)
        ? Array.Find(phrases, phrase => phrase.Kind == kind && Fits(phrase, tokens, at))
        : null;

    /// <summary>The longest phrase at a token that is shorter than another there and means the same deed, or leads to a part.</summary>
    public Phrase? Shorter(IReadOnlyList<Token> tokens, int at, Phrase than) => Array.Find(_byFirst[tokens[at].Lower], phrase => phrase.Words.Count < than.Words.Count
        && (phrase.Kind == than.Kind && phrase.Value == than.Value || phrase.Kind is WordKind.From or WordKind.Fillers) && Fits(phrase, tokens, at));

    /// <summary>The phrase of one word, of one of the kinds.</summary>
    public Phrase? Of(string word, params ReadOnlySpan<WordKind> kinds)
    {
        if (_byFirst.TryGetValue(word, out var phrases))
        {
            foreach (var phrase in phrases)
            {
                if (phrase.Words.Count == 1 && kinds.Contains(phrase.Kind))
                {
                    return phrase;
                }
            }
        }

        return null;
    }

    /// <summary>Whether these words, and no more, are a phrase of the kind.</summary>
    public bool Has(string words, WordKind kind) => Phrase(words, kind) is not null;

    /// <summary>The phrase of the kind that is these words, and no more.</summary>
    public Phrase? Phrase(string words, WordKind kind) => words.Split(' ') is var all && _byFirst.TryGetValue(all[0], out var phrases)
        ? Array.Find(phrases, phrase => phrase.Kind == kind && phrase.Words.SequenceEqual(all))
        : null;

    /// <summary>Whether a word ends in one of the kind, with more before it.</summary>
    public bool Ends(string word, WordKind kind)
    {
        for (var at = word.Length - 1; at > 2; at--)
        {
            if (Of(word[at..], kind) is not null)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether a word stands in any phrase.</summary>
    public bool Knows(string word) => _words.Contains(word);

    /// <summary>What a thing of a kind is called where nothing more is said of it.</summary>
    public string? PlainWord(WordKind section, string kind, bool isPlural)
    {
        var words = _byFirst.Values.SelectMany(phrases => phrases).Where(phrase => phrase.Kind == section && phrase.IsFirst && phrase.Value == kind);
        return words.OrderByDescending(phrase => phrase.IsPlural == isPlural).FirstOrDefault() is { } plain ? Noun(string.Join(' ', plain.Words)) : null;
    }

    /// <summary>A noun of the list as the language writes it.</summary>
    public string Noun(string noun) => _hasCapitalNouns && noun.Length > 0 ? char.ToUpperInvariant(noun[0]) + noun[1..] : noun;

    /// <summary>The tokens of a line, in which a figure may have the decimal mark of the language.</summary>
    public List<Token> Cut(string line) => Tokenizer.Cut(_decimalMark == '.' ? line : string.Create(line.Length, (line, _decimalMark), static (with, of) =>
    {
        of.line.CopyTo(with);
        for (var at = 1; at + 1 < with.Length; at++)
        {
            with[at] = with[at] == of._decimalMark && char.IsAsciiDigit(with[at - 1]) && char.IsAsciiDigit(with[at + 1]) ? '.' : with[at];
        }
    }));

    /// <summary>Where a word that is written together falls apart in front of the thing it is: “Deckel|schrauben”; null when it is not such a word.</summary>
    public int? Compound(string word)
    {
        for (var at = ShortestPart; at < word.Length && word.Length <= LongestCompound; at++)
        {
            if (Of(word[at..], WordKind.Compounds) is not null)
            {
                return at;
            }
        }

        return null;
    }

    /// <summary>The word a slip was probably meant to be: two letters swapped, one too many or too few, one vowel for another. Never the first letter.</summary>
    public string? Meant(string word)
    {
        // In short words only what is said all the time is worth a guess.
        if (word.Length == ShortestSlip - 1)
        {
            return Array.Find(_byLetter.GetValueOrDefault(word[0], []), candidate => IsSlip(word, candidate) && Of(candidate, WordKind.Joints, WordKind.Numbers) is not null);
        }

        if (word.Length is < ShortestSlip or > LongestWord || !_byLetter.TryGetValue(word[0], out var candidates))
        {
            return null;
        }

        return Array.Find(candidates, candidate => IsSlip(word, candidate));
    }

    /// <summary>Where a word falls apart into a number or size word and another known one, as in “twobolts”; null when it does not.</summary>
    public int? Gap(string word)
    {
        if (word.Length > LongestWord)
        {
            return null;
        }

        for (var at = 2; at <= word.Length - 3; at++)
        {
            if (Of(word[..at], WordKind.Numbers, WordKind.Joints, WordKind.Sides, WordKind.Trays, WordKind.Units) is not null
                && Of(word[at..], WordKind.Joints, WordKind.Numbers, WordKind.JointModifiers) is not null)
            {
                return at;
            }
        }

        return null;
    }

    private static bool Fits(Phrase phrase, IReadOnlyList<Token> tokens, int at)
    {
        if (at + phrase.Words.Count > tokens.Count)
        {
            return false;
        }

        for (var i = 1; i < phrase.Words.Count; i++)
        {
            if (tokens[at + i].Lower != phrase.Words[i])
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsSlip(string word, string candidate)
    {
        var (shorter, longer) = word.Length <= candidate.Length ? (word, candidate) : (candidate, word);
        if (longer.Length - shorter.Length > 1)
        {
            return false;
        }

        var at = 0;
        while (at < shorter.Length && shorter[at] == longer[at])
        {
            at++;
        }

        if (shorter.Length == longer.Length && at == shorter.Length - 1)
        {
            // “Boltz”.
            return shorter[at] is 'z' && longer[at] is 's';
        }

        return shorter.Length < longer.Length || at == shorter.Length ? at < shorter.Length && shorter.AsSpan(at).SequenceEqual(longer.AsSpan(at + 1))
            : shorter.Length > ShortestSlip && IsVowel(shorter[at]) && IsVowel(longer[at]) ? shorter.AsSpan(at + 1).SequenceEqual(longer.AsSpan(at + 1))
            : at + 1 < shorter.Length && shorter[at] == longer[at + 1] && shorter[at + 1] == longer[at] && shorter.AsSpan(at + 2).SequenceEqual(longer.AsSpan(at + 2));
    }

    // These are something else, or nothing, unless they stand where they are looked for.
    private static bool IsOnRequest(WordKind kind) => kind is WordKind.Closing or WordKind.DecimalMarks or WordKind.TrayLeads or WordKind.TrayLooks or WordKind.Lengths or WordKind.FastenerLengths or WordKind.LengthLeads or WordKind.LengthsDiffer or WordKind.Spans or WordKind.Markings or WordKind.Stays or WordKind.Nots or WordKind.Locks or WordKind.Holders or WordKind.HoldsSo or WordKind.HoldsFrom or WordKind.HoldsIn or WordKind.Covers or WordKind.HalfCovers or WordKind.Openings or WordKind.CoversBy or WordKind.PutIn or WordKind.DeedEnds or WordKind.Ends or WordKind.Orders or WordKind.Splits or WordKind.LetGo or WordKind.There or WordKind.Treated or WordKind.None or WordKind.Leaves or WordKind.Takes or WordKind.AtEnd or WordKind.Determiners or WordKind.Runs or WordKind.Absent or WordKind.Pronouns or WordKind.Particles or WordKind.Keys or WordKind.Heads or WordKind.Between or WordKind.ThreadedPlugs or WordKind.FluidSorts or WordKind.FluidLooks or WordKind.Carries or WordKind.Springs or WordKind.Plural or WordKind.Falling or WordKind.Inside or WordKind.WantedBehind or WordKind.WantedBefore or WordKind.HereBehind or WordKind.HereBefore or WordKind.NewOnes or WordKind.Needs or WordKind.Ordering or WordKind.OrderingLeads or WordKind.OldOnes or WordKind.Remains or WordKind.Rethreaded or WordKind.Noting or WordKind.Ones or WordKind.Unnamed or WordKind.Features or WordKind.Switches or WordKind.Switched or WordKind.Taps or WordKind.Shut or WordKind.Ordinals or WordKind.Drains or WordKind.RanOut or WordKind.Stilled or WordKind.Roughly or WordKind.LaidLeads or WordKind.Laid or WordKind.Heating or WordKind.NotFound or WordKind.Regained or WordKind.LeadsOff or WordKind.Sparks or WordKind.CameOut or WordKind.Worn or WordKind.Spent or WordKind.Pressures or WordKind.Gone or WordKind.Untils or WordKind.PressedIn or WordKind.Gauges or WordKind.Zeros or WordKind.Compounds or WordKind.Seals or WordKind.TorqueLeads or WordKind.OrdinalEnds or WordKind.Drilled or WordKind.LeftBe or WordKind.Shields or WordKind.Tight or WordKind.MainsPlugs or WordKind.Waited or WordKind.Stood or WordKind.HadNeed or WordKind.Hands or WordKind.LiesSo or WordKind.Directions or WordKind.Loosening or WordKind.ByHand;

    private static bool IsVowel(char letter) => letter is 'a' or 'e' or 'i' or 'o' or 'u';

    private static IEnumerable<Phrase> Section(YamlEntry section)
    {
        var kind = Enum.GetValues<WordKind>().FirstOrDefault(k => Words<WordKind>.Of(k) == section.Key, WordKind.Word);
        if (kind >= WordKind.Word)
        {
            throw new FormatException($"Line {section.Line} of the word list: there is no section '{section.Key}'.");
        }

        return section.Value switch
        {
            YamlList list => Phrases(list, kind, ""),
            YamlMapping values => values.Entries.SelectMany(value => value.Value is YamlList list ? Phrases(list, kind, value.Key)
                : throw new FormatException($"Line {value.Line} of the word list: '{value.Key}' needs a list of phrases.")),
            _ => throw new FormatException($"Line {section.Line} of the word list: '{section.Key}' needs phrases."),
        };
    }

    private static IEnumerable<Phrase> Phrases(YamlList list, WordKind kind, string value) => list.Items.OfType<YamlScalar>().Index().SelectMany(
        item => item.Item.Text.Split('|').Index().Where(form => form.Item.Length > 0).Select(form => new Phrase(form.Item.Split(' '), kind, value, form.Index == 1) { IsFirst = item.Index == 0 }));
}
