using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How a sentence that stands in the way of an act is said beside its form.</summary>
public static class FaultWords
{
    /// <summary>Null stays null: nothing stands in its way.</summary>
    public static string? Of(string? why) => why is null ? null : Say(why);

    /// <summary>What is wrong with something, as the core has it: “The price”, “is below zero”.</summary>
    public static string Of(string what, string fault)
    {
        var sentence = $"{what} {fault}.";
        return Say(sentence);
    }
}
