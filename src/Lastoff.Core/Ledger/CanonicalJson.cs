using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Lastoff.Core.Ledger;

/// <summary>The one way of writing a JSON value down (RFC 8785), so that its hash depends on nothing but what it says.</summary>
public static class CanonicalJson
{
    private static readonly SearchValues<char> Escaped = SearchValues.Create(['"', '\\', .. Enumerable.Range(0, ' ').Select(c => (char)c)]);

    /// <exception cref="FormatException">A number is beyond a double, or an object names a member twice.</exception>
    public static string Write(JsonElement value) => Write(value, without: null);

    /// <summary>Writes an object as if it had no such member.</summary>
    /// <exception cref="FormatException">A number is beyond a double, or an object names a member twice.</exception>
    internal static string Write(JsonElement value, string? without)
    {
        var text = new StringBuilder(512);
        if (without is null)
        {
            Write(text, value);
        }
        else
        {
            WriteObject(text, value, without);
        }

        return text.ToString();
    }

    /// <summary>A number as ECMAScript writes it, which is what RFC 8785 section 3.2.2.3 asks for.</summary>
    /// <exception cref="FormatException">The number is infinite or not a number.</exception>
    public static string Number(double value)
    {
        if (!double.IsFinite(value))
        {
            throw new FormatException("a number is too large");
        }

        // Whole numbers this small are exact, and written alike everywhere; 0 has no sign.
        if (value == Math.Truncate(value) && Math.Abs(value) < 1e15)
        {
            return ((long)value).ToString(CultureInfo.InvariantCulture);
        }

        // "R" gives the shortest digits that read back to the same double; only their layout differs from ECMAScript's.
        var shortest = ToExponent(Math.Abs(value).ToString("R", CultureInfo.InvariantCulture));
        var mark = shortest.IndexOf('E');
        var digits = shortest[..mark].Replace(".", "").TrimEnd('0');
        var point = int.Parse(shortest[(mark + 1)..], CultureInfo.InvariantCulture) + 1;
        var sign = value < 0 ? "-" : "";
        return sign + point switch
        {
            > 0 and <= 21 when digits.Length <= point => digits + new string('0', point - digits.Length),
            > 0 and <= 21 => digits[..point] + "." + digits[point..],
            > -6 and <= 0 => "0." + new string('0', -point) + digits,
            _ => Exponential(digits, point - 1),
        };
    }

    private static string Exponential(string digits, int exponent)
    {
        var mantissa = digits.Length == 1 ? digits : digits[..1] + "." + digits[1..];
        return string.Create(CultureInfo.InvariantCulture, $"{mantissa}e{(exponent < 0 ? "-" : "+")}{Math.Abs(exponent)}");
    }

    private static string ToExponent(string plain)
    {
        var mark = plain.IndexOf('E');
        var exponent = mark < 0 ? 0 : int.Parse(plain[(mark + 1)..], CultureInfo.InvariantCulture);
        var mantissa = mark < 0 ? plain : plain[..mark];
        var dot = mantissa.IndexOf('.');
        var whole = dot < 0 ? mantissa : mantissa[..dot];
        var all = mantissa.Replace(".", "");
        var leading = all.Length - all.TrimStart('0').Length;
        return string.Create(CultureInfo.InvariantCulture, $"{all.TrimStart('0').Insert(1, ".")}E{exponent + whole.Length - 1 - leading}");
    }

    private static void Write(StringBuilder text, JsonElement value)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                WriteObject(text, value);
                break;
            case JsonValueKind.Array:
                var first = true;
                text.Append('[');
                foreach (var item in value.EnumerateArray())
                {
                    text.Append(first ? "" : ",");
                    Write(text, item);
                    first = false;
                }

                text.Append(']');
                break;
            case JsonValueKind.String:
                WriteString(text, value.GetString()!);
                break;
            case JsonValueKind.Number:
                text.Append(Number(value.GetDouble()));
                break;
            default:
                text.Append(value.GetRawText());
                break;
        }
    }

    private static void WriteObject(StringBuilder text, JsonElement value, string? without = null)
    {
        var members = new List<(string Name, JsonElement Value)>();
        foreach (var member in value.EnumerateObject())
        {
            if (member.Name != without)
            {
                members.Add((member.Name, member.Value));
            }
        }

        members.Sort(static (a, b) => string.CompareOrdinal(a.Name, b.Name));
        text.Append('{');
        for (var i = 0; i < members.Count; i++)
        {
            if (i > 0 && members[i].Name == members[i - 1].Name)
            {
                throw new FormatException($"the member “{members[i].Name}” is there twice");
            }

            text.Append(i > 0 ? "," : "");
            WriteString(text, members[i].Name);
            text.Append(':');
            Write(text, members[i].Value);
        }

        text.Append('}');
    }

    private static void WriteString(StringBuilder text, string value)
    {
        text.Append('"');
        var rest = value.AsSpan();
        for (var plain = rest.IndexOfAny(Escaped); plain >= 0; plain = rest.IndexOfAny(Escaped))
        {
            text.Append(rest[..plain]);
            _ = rest[plain] switch
            {
                '"' => text.Append("\\\""),
                '\\' => text.Append("\\\\"),
                '\b' => text.Append("\\b"),
                '\f' => text.Append("\\f"),
                '\n' => text.Append("\\n"),
                '\r' => text.Append("\\r"),
                '\t' => text.Append("\\t"),
                var control => text.Append(CultureInfo.InvariantCulture, $"\\u{(int)control:x4}"),
            };
            rest = rest[(plain + 1)..];
        }

        text.Append(rest);
        text.Append('"');
    }
}
