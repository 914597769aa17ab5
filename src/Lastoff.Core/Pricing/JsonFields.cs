using System.Globalization;
using System.Text.Json;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>Reads the members of a JSON object; whatever is wrong with one is a <see cref="FormatException"/> whose message is the sentence to show.</summary>
/// <param name="Where">The way to the object: "taxes[1]"; empty for the whole.</param>
internal sealed record JsonFields(JsonElement Element, string Where)
{
    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 16, AllowDuplicateProperties = false };

    /// <summary>Reads a whole text; whatever is wrong with it becomes one sentence.</summary>
    /// <param name="what">What the text is to be: "the terms".</param>
    public static Answer<T> Read<T>(string text, string what, Func<JsonFields, T> read) where T : notnull
    {
        try
        {
            using var document = JsonDocument.Parse(text, Strict);
            return Of(document.RootElement, what, read);
        }
        catch (JsonException e)
        {
            return Answer.None<T>($"This is not {what} as JSON: {(e.LineNumber is { } line ? $"it breaks off or goes wrong in line {line + 1}" : "a member is there twice")}.");
        }
    }

    /// <summary>Reads an element of a text read before.</summary>
    public static Answer<T> Of<T>(JsonElement element, string what, Func<JsonFields, T> read) where T : notnull
    {
        try
        {
            return element.ValueKind == JsonValueKind.Object
                ? read(new JsonFields(element, ""))
                : Answer.None<T>($"This is not {what}: a JSON object is wanted.");
        }
        catch (FormatException e)
        {
            return Answer.None<T>(e.Message);
        }
        catch (InvalidOperationException)
        {
            // What the JSON reader throws at half a character.
            return Answer.None<T>($"This is not {what}: a text in it is not valid Unicode.");
        }
    }

    /// <summary>Refuses what nobody reads, so that a slip of the pen is not taken for silence.</summary>
    public void Only(params IReadOnlyList<string> names)
    {
        foreach (var member in Element.EnumerateObject().Where(member => !names.Contains(member.Name)))
        {
            throw new FormatException($"{Path(member.Name)} is not known here{NearName.DidYouMean(member.Name, names, $"; known are {string.Join(", ", names)}")}.");
        }
    }

    public bool Has(string name) => Element.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null;

    /// <summary>Text that can stand on a paper.</summary>
    public string Text(string name) => OptionalText(name) is { } text && !string.IsNullOrWhiteSpace(text)
        ? text
        : throw new FormatException($"{Path(name)} is missing; write it as a text.");

    public string? OptionalText(string name)
    {
        if (!Has(name))
        {
            return null;
        }

        var value = Element.GetProperty(name);
        return value.ValueKind == JsonValueKind.String ? Fit(value.GetString()!, Path(name)) : throw new FormatException($"{Path(name)} is not a text.");
    }

    /// <summary>A text that stands on no paper, so that it may be of any length and have line breaks; null when it is not there.</summary>
    public string? Remark(string name) => !Has(name) ? null
        : Element.GetProperty(name) is { ValueKind: JsonValueKind.String } value ? value.GetString()
        : throw new FormatException($"{Path(name)} is not a text.");

    public IReadOnlyList<string> Texts(string name) => !Has(name) ? [] :
    [
        .. Array(name).Select((item, i) => item.ValueKind == JsonValueKind.String
            ? Fit(item.GetString()!, $"{Path(name)}[{i}]")
            : throw new FormatException($"{Path(name)}[{i}] is not a text."))
    ];

    public bool Flag(string name) => Has(name) && Element.GetProperty(name).ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => throw new FormatException($"{Path(name)} is neither true nor false."),
    };

    /// <summary>A decimal number, as a number or as a text of digits.</summary>
    public decimal Number(string name) => OptionalNumber(name) ?? throw new FormatException($"{Path(name)} is missing; write a number.");

    public decimal? OptionalNumber(string name) => !Has(name) ? null
        : Number(Element.GetProperty(name)) ?? throw new FormatException($"{Path(name)} is not a number such as 12.50; write it with a point.");

    public decimal? OptionalNumber(string name, decimal least, decimal most, string unit) => OptionalNumber(name) is not { } number ? null
        : number >= least && number <= most ? number
        : throw new FormatException($"{Path(name)} is {Money.Plain(number)}{unit}; give {Money.Plain(least)} to {Money.Plain(most)}{unit}.");

    /// <summary>A number that is no money: a chance, minutes, litres.</summary>
    public double Real(string name, double least, double most)
    {
        if (!Has(name))
        {
            throw new FormatException($"{Path(name)} is missing; write a number.");
        }

        var value = Element.GetProperty(name);
        double? read = value.ValueKind switch
        {
            JsonValueKind.Number when value.TryGetDouble(out var plain) => plain,
            JsonValueKind.String when double.TryParse(value.GetString(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var digits) => digits,
            _ => null,
        };
        return read is not { } number ? throw new FormatException($"{Path(name)} is not a number such as 0.9.")
            : number >= least && number <= most ? number
            : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"{Path(name)} is {number}; give {least} to {most}."));
    }

    /// <summary>An amount: digits, with the code of the price's currency behind or without.</summary>
    public Money Amount(string name, Currency currency)
    {
        var (number, path) = (OptionalNumber(name, currency), Path(name));
        return number is not { } amount ? throw new FormatException($"{path} is missing; write an amount of {currency}.")
            : Money.Fault(amount, currency) is { } fault ? throw new FormatException($"{path}: {fault}")
            : Money.Of(amount, currency);
    }

    /// <summary>A number that may name its currency, which must then be this one.</summary>
    public decimal? OptionalNumber(string name, Currency currency)
    {
        if (Has(name) && Element.GetProperty(name) is { ValueKind: JsonValueKind.String } value
            && value.GetString()!.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var digits, var code])
        {
            return code != currency.Code ? throw new FormatException($"{Path(name)} is in {code}, and all the rest is in {currency}: there is one currency.")
                : Parse(digits) ?? throw new FormatException($"{Path(name)} is not an amount such as 12.50 {currency}.");
        }

        return OptionalNumber(name);
    }

    public T Word<T>(string name) where T : struct, Enum => Words<T>.TryRead(Text(name), out var word)
        ? word
        : throw new FormatException($"{Path(name)} is “{Text(name)}”; it can be {string.Join(", ", Words<T>.All)}.");

    public JsonFields Object(string name) => Has(name) && Element.GetProperty(name) is { ValueKind: JsonValueKind.Object } value
        ? new JsonFields(value, Path(name))
        : throw new FormatException($"{Path(name)} is missing; write a JSON object.");

    /// <summary>A list of objects; empty when it is not there.</summary>
    public IReadOnlyList<JsonFields> Objects(string name)
    {
        var path = Path(name);
        return !Has(name) ? [] :
        [
            .. Array(name).Select((item, i) => item.ValueKind == JsonValueKind.Object
                ? new JsonFields(item, $"{path}[{i}]")
                : throw new FormatException($"{path}[{i}] is not a JSON object."))
        ];
    }

    public string Path(string name) => Where.Length == 0 ? name : $"{Where}.{name}";

    private IReadOnlyList<JsonElement> Array(string name) => Element.GetProperty(name) is { ValueKind: JsonValueKind.Array } list
        ? [.. list.EnumerateArray()]
        : throw new FormatException($"{Path(name)} is not a list.");

    private static decimal? Number(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Number => value.TryGetDecimal(out var number) ? number : null,
        JsonValueKind.String => Parse(value.GetString()!),
        _ => null,
    };

    private static decimal? Parse(string digits) =>
        decimal.TryParse(digits, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static string Fit(string text, string path) => PlainText.Fault(text) is { } fault ? throw new FormatException($"{path} {fault}.") : text;
}
