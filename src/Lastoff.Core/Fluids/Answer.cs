using System.Diagnostics.CodeAnalysis;

namespace Lastoff.Core.Fluids;

/// <summary>A value, or the one sentence that says why there is none and what to do.</summary>
public sealed record Answer<T> where T : class
{
    private Answer(T? value, string? refusal)
    {
        Value = value;
        Refusal = refusal;
    }

    public T? Value { get; }
    public string? Refusal { get; }

    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Refusal))]
    public bool Found => Value is not null;

    public static implicit operator Answer<T>(T value) => new(value, null);

    public static Answer<T> Refused(string sentence) => new(null, sentence);
}
