using System.Text.RegularExpressions;

namespace Lastoff.Tests.Program;

/// <summary>Finds in a Razor source the words that a person reads and that are not said in their language.</summary>
internal sealed partial class BareWords
{
    /// <summary>What is the same in every language.</summary>
    private static readonly HashSet<string> SameEverywhere = ["Lastoff", "mm", "cm", "km", "min", "kPa", "kg", "ppm", "PDF", "CSV"];

    /// <summary>Attributes and parameters whose text is shown or read out.</summary>
    private static readonly HashSet<string> Read =
        ["placeholder", "aria-label", "title", "alt", "Label", "Hint", "Placeholder", "Title", "Legend", "Verb", "Name", "Leaves", "Empty"];

    private static readonly HashSet<string> Closed = ["input", "br", "hr", "img", "link", "meta", "wbr", "col"];

    private static readonly HashSet<string> Blocks = ["if", "for", "foreach", "while", "switch", "lock", "do", "try", "else", "catch", "finally"];

    private static readonly HashSet<string> Directives =
        ["page", "inject", "implements", "inherits", "using", "typeparam", "attribute", "layout", "namespace", "rendermode", "preservewhitespace"];

    private readonly string _source;
    private readonly List<(int Line, string Words)> _found = [];
    private int _at;
    /// <summary>Within what is typed into a shell, which is the same in every language.</summary>
    private bool _isCode;

    private BareWords(string source) => _source = source;

    /// <summary>Each with its line, counted from 1.</summary>
    public static IReadOnlyList<(int Line, string Words)> In(string source)
    {
        var bare = new BareWords(source);
        bare.Content();
        return bare._found;
    }

    private char Letter => _at < _source.Length ? _source[_at] : '\0';

    /// <summary>To the tag that closes it, or the end.</summary>
    private void Content()
    {
        while (_at < _source.Length)
        {
            if (SourceLiteral.Behind(_source, _at, "@*", "*@") is { } behindComment)
            {
                _at = behindComment;
            }
            else if (SourceLiteral.Behind(_source, _at, "<!--", "-->") is { } behindRemark)
            {
                _at = behindRemark;
            }
            else if (SourceLiteral.Behind(_source, _at, "</", ">") is { } behindTag)
            {
                _at = behindTag;
                return;
            }
            else if (IsTag())
            {
                Element();
            }
            else if (Letter == '@')
            {
                Transition(isRead: true);
            }
            else
            {
                var start = _at++;
                while (_at < _source.Length && Letter is not ('<' or '@'))
                {
                    _at++;
                }

                Look(start, _source[start.._at]);
            }
        }
    }

    private bool IsTag() => Letter == '<' && _at + 1 < _source.Length && char.IsAsciiLetter(_source[_at + 1]);

    private void Element()
    {
        _at++;
        var name = Word();
        while (_at < _source.Length)
        {
            Space();
            if (SourceLiteral.Behind(_source, _at, "/>", "") is { } behind)
            {
                _at = behind;
                return;
            }

            if (Letter == '>')
            {
                _at++;
                break;
            }

            Attribute();
        }

        if (!Closed.Contains(name))
        {
            var was = _isCode;
            _isCode |= name == "code";
            Content();
            _isCode = was;
        }
    }

    private void Attribute()
    {
        if (SourceLiteral.Behind(_source, _at, "@*", "*@") is { } behindComment)
        {
            _at = behindComment;
            return;
        }

        var start = _at;
        while (_at < _source.Length && Letter is not ('=' or '>' or '/') && !char.IsWhiteSpace(Letter))
        {
            _at = Letter is '(' ? SourceLiteral.EndOfBrackets(_source, _at) : _at + 1;
        }

        var isRead = Read.Contains(_source[start.._at]);
        if (Letter != '=')
        {
            _at = Math.Max(_at, start + 1);
            return;
        }

        _at++;
        if (Letter is not ('"' or '\''))
        {
            Transition(isRead);
            return;
        }

        var quote = Letter;
        _at++;
        while (_at < _source.Length && Letter != quote)
        {
            if (Letter == '@')
            {
                Transition(isRead);
                continue;
            }

            start = _at;
            while (_at < _source.Length && Letter != quote && Letter != '@')
            {
                // Code in single quotes may hold a string.
                _at = quote == '\'' && SourceLiteral.BeginsAt(_source, _at) ? SourceLiteral.Read(_source, _at).End : _at + 1;
            }

            if (isRead)
            {
                Look(start, _source[start.._at]);
            }
        }

        _at++;
    }

    /// <summary>From an @ to behind the code that it begins.</summary>
    private void Transition(bool isRead)
    {
        var start = _at++;
        if (Letter == '(')
        {
            _at = SourceLiteral.EndOfBrackets(_source, _at);
            LookIntoCode(start, isRead);
            return;
        }

        if (Letter == '{')
        {
            Code();
            return;
        }

        var word = Word();
        if (word is "code" or "functions" && _source.AsSpan(_at).TrimStart().StartsWith("{"))
        {
            Space();
            _at = SourceLiteral.EndOfBrackets(_source, _at);
        }
        else if (Blocks.Contains(word))
        {
            Block();
        }
        else if (Directives.Contains(word) && (start == 0 || _source[start - 1] == '\n'))
        {
            _at = SourceLiteral.Behind(_source, _at, "", "\n")!.Value;
        }
        else
        {
            Expression();
            LookIntoCode(start, isRead);
        }
    }

    /// <summary>What follows a name without brackets around it: members, calls, indexes.</summary>
    private void Expression()
    {
        while (_at < _source.Length)
        {
            if (Letter is '(' or '[')
            {
                _at = SourceLiteral.EndOfBrackets(_source, _at);
            }
            else if (Member().Match(_source, _at) is { Success: true } member)
            {
                _at += member.Length;
            }
            else
            {
                return;
            }
        }
    }

    /// <summary>A condition and its block, and those that go on from it.</summary>
    private void Block()
    {
        while (true)
        {
            Space();
            if (Letter == '(')
            {
                _at = SourceLiteral.EndOfBrackets(_source, _at);
                Space();
            }

            if (Letter == '{')
            {
                Code();
            }

            if (Going().Match(_source, _at) is not { Success: true } going)
            {
                return;
            }

            _at += going.Length;
        }
    }

    /// <summary>Code in braces, with elements where a statement could begin.</summary>
    private void Code()
    {
        _at++;
        var last = '{';
        while (_at < _source.Length && Letter != '}')
        {
            if (SourceLiteral.EndOfWhole(_source, _at) is { } behind)
            {
                (_at, last) = (behind, char.IsWhiteSpace(_source[behind - 1]) || _source[behind - 1] is '@' or '/' ? last : '"');
            }
            else if (IsTag() && last is '{' or '}' or ';' or ':' or '@')
            {
                Element();
                last = ';';
            }
            else if (Letter == '{')
            {
                Code();
                last = '}';
            }
            else if (Letter is '(' or '[')
            {
                _at = SourceLiteral.EndOfBrackets(_source, _at);
                last = ')';
            }
            else
            {
                last = char.IsWhiteSpace(Letter) ? last : Letter;
                _at++;
            }
        }

        _at++;
    }

    private string Word()
    {
        var start = _at;
        while (char.IsLetterOrDigit(Letter) || Letter is '_')
        {
            _at++;
        }

        return _source[start.._at];
    }

    private void Space()
    {
        while (char.IsWhiteSpace(Letter))
        {
            _at++;
        }
    }

    private void Look(int start, string text)
    {
        if (!_isCode && Words().Matches(Entity().Replace(text, " ")).Any(word => !SameEverywhere.Contains(word.Value)))
        {
            Found(start, text);
        }
    }

    private void LookIntoCode(int start, bool isRead)
    {
        if (isRead && !_isCode)
        {
            foreach (var text in Unsaid(_source[start.._at]))
            {
                Found(start, text);
            }
        }
    }

    /// <summary>The texts of an expression that are not said and read like words: “Renew”, “ to send”, but not “now” or “HH:mm”.</summary>
    private static IEnumerable<string> Unsaid(string code)
    {
        for (var at = 0; at < code.Length;)
        {
            if (SaidWords.EndOfCall(code, at) is { } behind)
            {
                at = behind;
            }
            else if (SourceLiteral.BeginsAt(code, at))
            {
                var literal = SourceLiteral.Read(code, at);
                at = literal.End;
                if (Sentence().IsMatch(literal.Text))
                {
                    yield return literal.Text;
                }

                foreach (var text in literal.Holes.SelectMany(Unsaid))
                {
                    yield return text;
                }
            }
            else
            {
                at = SourceLiteral.EndOfWhole(code, at) ?? at + 1;
            }
        }
    }

    private void Found(int start, string text) => _found.Add((_source.AsSpan(0, start).Count('\n') + 1 + text.TakeWhile(char.IsWhiteSpace).Count(c => c == '\n'), text.Trim()));

    [GeneratedRegex(@"\p{L}{2,}")]
    private static partial Regex Words();

    [GeneratedRegex("&[A-Za-z0-9#]+;")]
    private static partial Regex Entity();

    [GeneratedRegex(@"^\p{Lu}\p{Ll}|\p{L}{2,}[,;:.…]? \p{L}{2,}|^ \p{L}{2,}|\p{L}{2,} $")]
    private static partial Regex Sentence();

    [GeneratedRegex(@"\G(\?|!)?\.\w+")]
    private static partial Regex Member();

    [GeneratedRegex(@"\G\s*(else(\s+if)?|catch|finally|while)\b")]
    private static partial Regex Going();
}
