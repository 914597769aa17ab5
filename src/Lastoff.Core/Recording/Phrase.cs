namespace Lastoff.Core.Recording;

/// <summary>An entry of a word list.</summary>
/// <param name="Words">Lower case.</param>
/// <param name="Value">What it stands for within its section: a joint kind, a deed, a place; empty where the section is all there is to say.</param>
internal sealed record Phrase(IReadOnlyList<string> Words, WordKind Kind, string Value, bool IsPlural)
{
    /// <summary>The first of its list is the plain word for the thing: “hose”.</summary>
    public bool IsFirst { get; init; }
}
