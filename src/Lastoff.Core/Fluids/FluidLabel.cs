namespace Lastoff.Core.Fluids;

/// <summary>Whether what is poured in is what the map asks for, by its label.</summary>
public static class FluidLabel
{
    /// <summary>The warning to show before it goes in, or nothing when the label says what is wanted. The beginning of it is no warning either: it may still be being written.</summary>
    public static string? Warning(string wanted, string poured) =>
        poured.Contains(wanted.Trim(), StringComparison.OrdinalIgnoreCase) || wanted.Trim().StartsWith(poured.Trim(), StringComparison.OrdinalIgnoreCase) ? null
        : $"It does not say “{wanted.Trim()}”, as the map has it. Pour it only if the maker of the machine allows it.";
}
