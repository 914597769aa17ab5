using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Lastoff.Core.Papers;

/// <summary>A text of a paper, with the data it says, so that what a person reads and what a program reads come from the same place.</summary>
/// <param name="Text">May hold line breaks.</param>
public sealed record Said(string Text, params IReadOnlyList<Datum> Data)
{
    public static Said Nothing { get; } = new("");

    /// <summary>What a person wrote: no other language says it otherwise.</summary>
    public bool IsOwn { get; init; }

    public static Said Own(string text) => new(text) { IsOwn = true };

    public static implicit operator Said(string text) => new(text);
}

/// <summary>One value a text says, under a key that names its unit: "torque_Nm".</summary>
/// <param name="Json">The value as JSON.</param>
public sealed record Datum(string Key, string Json)
{
    /// <exception cref="ArgumentOutOfRangeException">The value is not a finite number.</exception>
    public static Datum Of(string key, double value) => double.IsFinite(value)
        ? new(key, value.ToString("R", CultureInfo.InvariantCulture))
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A paper says finite numbers only.");

    public static Datum Of(string key, decimal value) => new(key, value.ToString(CultureInfo.InvariantCulture));

    public static Datum Of(string key, bool value) => new(key, value ? "true" : "false");

    public static Datum Of(string key, string value) => new(key, $"\"{JsonEncodedText.Encode(value, JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"");

    /// <summary>RFC 3339, in the offset it was written with.</summary>
    public static Datum Of(string key, DateTimeOffset value) => Of(key, value.ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture));

    public static Datum Of(string key, DateOnly value) => Of(key, value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
}
