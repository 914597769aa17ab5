using System.Diagnostics.CodeAnalysis;

namespace Lastoff.Core.Joints;

/// <summary>A computed value, or the one sentence that says why there is none.</summary>
public sealed class Answer<T> where T : notnull
{
    private readonly T? _value;

    internal Answer(T? value, string? sentence) => (_value, Sentence) = (value, sentence);

    /// <summary>Null when there is a value.</summary>
    public string? Sentence { get; }

    public bool TryGet([NotNullWhen(true)] out T? value, [NotNullWhen(false)] out string? sentence)
    {
        (value, sentence) = (_value, Sentence);
        return sentence is null;
    }

    public T Or(Func<string, T> otherwise) => TryGet(out var value, out var sentence) ? value : otherwise(sentence);
}

public static class Answer
{
    public static Answer<T> Of<T>(T value) where T : notnull => new(value, null);

    public static Answer<T> None<T>(string sentence) where T : notnull => new(default, sentence);
}
