using System.Text;

namespace Lastoff.Bench;

/// <summary>Makes something broken out of something whole: cut, doubled, swapped, over-long, of another kind; from a seed, so that it can be made again.</summary>
public sealed class Garble(int seed)
{
    private static readonly string[] Odd =
    [
        "\0", "\uFEFF", "\u2028", "\uD800", "💥", "'", "\"", "{", "}", "[", "]", ":", "- ", "&a ", "*a", "!!binary ", "<<: ", "| ", "> ", "%YAML 9.9\n", "---\n", "...\n", "\t", "\r",
        "99999999999999999999", "-1", "1e999", "NaN", "null", "true", "~", "0x41", "../../etc/passwd", "<script>alert(1)</script>", "=cmd|'/c calc'!A0", "'; DROP TABLE entries; --",
        "00000000-0000-0000-0000-000000000000", "9999-99-99T99:99:99Z",
    ];

    private readonly Random _random = new(seed);

    public string Of(string whole)
    {
        var text = new StringBuilder(whole);
        for (var times = _random.Next(1, 6); times > 0; times--)
        {
            Hurt(text);
        }

        return text.ToString();
    }

    private void Hurt(StringBuilder text)
    {
        var at = _random.Next(text.Length + 1);
        var length = Math.Min(text.Length - at, 1 << _random.Next(10));
        switch (_random.Next(9))
        {
            case 0:
                text.Length = at;
                break;
            case 1:
                text.Remove(at, length);
                break;
            case 2:
                text.Insert(at, text.ToString(at, length));
                break;
            case 3:
                text.Insert(at, Odd[_random.Next(Odd.Length)]);
                break;
            case 4 when length > 0:
                text[at] = (char)_random.Next(1, 0x250);
                break;
            case 5:
                // Deep, as only malice is.
                text.Insert(at, new string(_random.Next(2) == 0 ? '[' : '{', _random.Next(1, 3000)));
                break;
            case 6:
                text.Insert(at, new string('9', _random.Next(1, 400)));
                break;
            case 7:
                var lines = text.ToString().Split('\n');
                _random.Shuffle(lines.AsSpan(0, Math.Min(lines.Length, _random.Next(2, 12))));
                text.Clear().AppendJoin('\n', lines);
                break;
            default:
                text.Replace(Word(text, at), Odd[_random.Next(Odd.Length)], at, text.Length - at);
                break;
        }
    }

    private static string Word(StringBuilder text, int at)
    {
        var end = at;
        while (end < text.Length && end < at + 20 && char.IsLetterOrDigit(text[end]))
        {
            end++;
        }

        return end > at ? text.ToString(at, end - at) : " ";
    }
}
