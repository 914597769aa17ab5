using System.Text.RegularExpressions;

namespace Lastoff.Tests.Program;

/// <summary>Finds in a source what is said in the person's language: each <c>Say("…")</c> and <c>Say($"…")</c>.</summary>
internal static partial class SaidWords
{
    /// <summary>The keys by which a language is asked, as far as they stand in the source.</summary>
    public static IEnumerable<string> In(string source)
    {
        source = CommentLine().Replace(source, "");
        foreach (Match call in Call().Matches(source))
        {
            var argument = Argument(source, call);
            if (IsLiteral(argument))
            {
                yield return SourceLiteral.Read(argument, 0).Text;
            }
        }
    }

    /// <summary>What is said by a choice or a sum of texts, none of which is seen: <c>Say(isOut ? "Out" : "Home")</c>. What takes several arguments says something else.</summary>
    public static IEnumerable<string> HiddenIn(string source)
    {
        source = CommentLine().Replace(source, "");
        foreach (Match call in Call().Matches(source))
        {
            var argument = Argument(source, call);
            if (!IsLiteral(argument) && Parts(argument).ToList() is var parts && !parts.Contains(",") && parts.Any(part => part.Any(char.IsLetter)))
            {
                yield return call.Value + argument + ")";
            }
        }
    }

    /// <summary>Whether what is said begins here, and then behind it.</summary>
    public static int? EndOfCall(string source, int at) =>
        Call().Match(source, at) is { Success: true } call && call.Index == at ? SourceLiteral.EndOfBrackets(source, at + call.Length - 1) : null;

    private static string Argument(string source, Match call) =>
        source[(call.Index + call.Length)..(SourceLiteral.EndOfBrackets(source, call.Index + call.Length - 1) - 1)];

    private static bool IsLiteral(string argument) => SourceLiteral.BeginsAt(argument, 0) && SourceLiteral.Read(argument, 0).End == argument.Length;

    /// <summary>The strings of an expression that are not handed to another call, and its commas.</summary>
    private static IEnumerable<string> Parts(string expression)
    {
        for (var at = 0; at < expression.Length;)
        {
            if (SourceLiteral.BeginsAt(expression, at))
            {
                var literal = SourceLiteral.Read(expression, at);
                yield return literal.Text;
                at = literal.End;
            }
            else if (expression[at] == ',')
            {
                yield return ",";
                at++;
            }
            else
            {
                at = expression[at] is '(' or '[' or '{' ? SourceLiteral.EndOfBrackets(expression, at) : SourceLiteral.EndOfWhole(expression, at) ?? at + 1;
            }
        }
    }

    [GeneratedRegex(@"(?<![\w])Say\(")]
    private static partial Regex Call();

    /// <summary>A line that is a comment and nothing else may speak of saying.</summary>
    [GeneratedRegex(@"^[ \t]*(//|@\*).*$", RegexOptions.Multiline)]
    private static partial Regex CommentLine();
}
