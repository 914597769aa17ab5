using System.Diagnostics.CodeAnalysis;

namespace Lastoff.Core;

/// <summary>A computed value, or the one sentence that says why there is none.</summary>
public sealed class Answer<T> where T : notnull
{
    internal Answer(T? value, string? sentence) => (Value, Sentence) = (value, sentence);

    public T? Value { get; }

    /// <summary>Null when there is a value.</summary>
    public string? Sentence { get; }

    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Sentence))]
    public bool Found => Sentence is null;

    public static implicit operator Answer<T>(T value) => new(value, null);

    public bool TryGet([NotNullWhen(true)] out T? value, [NotNullWhen(false)] out string? sentence)
    {
        (value, sentence) = (Value, Sentence);
        return Found;
    }

    public T Or(Func<string, T> otherwise) => Found ? Value : otherwise(Sentence);
}

public static class Answer
{
    public static Answer<T> Of<T>(T value) where T : notnull => new(value, null);

    public static Answer<T> None<T>(string sentence) where T : notnull => new(default, sentence);
}
