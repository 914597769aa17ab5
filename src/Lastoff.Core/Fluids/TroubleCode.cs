namespace Lastoff.Core.Fluids;

/// <summary>
/// A trouble code read by the structure of the published diagnostics standard (SAE J2012 / ISO 15031-6, from memory): a letter for the system, a digit for
/// who defined it, a place for the group. The wordings are ours.
/// </summary>
/// <param name="Code">As it is written: a capital letter and four places.</param>
/// <param name="System">What the letter says it belongs to.</param>
/// <param name="Definer">Whose list it stands in.</param>
/// <param name="Group">What the third place says, where the standard gives it a meaning.</param>
/// <param name="Meaning">What the code itself says, where it is one of cooling.</param>
public sealed record TroubleCode(string Code, string System, string Definer, string? Group, string? Meaning)
{
    private const int Length = 5;

    // Only codes that bear on cooling; from memory.
    private static readonly Dictionary<string, string> Cooling = new()
    {
        ["P0115"] = "engine coolant temperature sensor 1: fault in its circuit",
        ["P0116"] = "engine coolant temperature sensor 1: out of range or implausible",
        ["P0117"] = "engine coolant temperature sensor 1: signal too low (reads hot)",
        ["P0118"] = "engine coolant temperature sensor 1: signal too high (reads cold)",
        ["P0119"] = "engine coolant temperature sensor 1: signal comes and goes",
        ["P0125"] = "coolant not warm enough for closed-loop fuel control",
        ["P0126"] = "coolant not warm enough for steady running",
        ["P0128"] = "coolant stays below the thermostat's regulating temperature",
        ["P0217"] = "engine too hot",
        ["P0480"] = "cooling fan 1: fault in its control circuit",
        ["P0481"] = "cooling fan 2: fault in its control circuit",
    };

    /// <summary>All of it as one sentence.</summary>
    public string Sentence => $"{Code} belongs to {System}{(Group is null ? "" : $", {Group}")}; it is defined by {Definer}"
        + (Meaning is null ? ", where it says what has failed." : $" and says: {Meaning}.");

    /// <summary>Reads one code as a tester shows it; capitals or not.</summary>
    public static Answer<TroubleCode> Read(string text)
    {
        var code = text.Trim().ToUpperInvariant();
        if (code.Length != Length || SystemOf(code[0]) is not { } system || code[1] is < '0' or > '3' || !code[2..].All(char.IsAsciiHexDigit))
        {
            return Answer.None<TroubleCode>(
                $"“{text.Trim()}” is not a trouble code; write a letter (P, B, C or U), a digit from 0 to 3 and three more places (0 to 9, A to F), such as P0128.");
        }

        return new TroubleCode(code, system, DefinerOf(code), GroupOf(code), Cooling.GetValueOrDefault(code));
    }

    /// <summary>Reads codes parted by spaces, commas or lines, each once; the first that is none refuses them all.</summary>
    public static Answer<IReadOnlyList<TroubleCode>> ReadAll(string text)
    {
        var codes = new List<TroubleCode>();
        foreach (var word in text.Split([' ', ',', ';', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!Read(word).TryGet(out var code, out var sentence))
            {
                return Answer.None<IReadOnlyList<TroubleCode>>(sentence);
            }

            if (!codes.Contains(code))
            {
                codes.Add(code);
            }
        }

        return Answer.Of<IReadOnlyList<TroubleCode>>(codes);
    }

    private static string? SystemOf(char letter) => letter switch
    {
        'P' => "engine and gearbox",
        'B' => "the body",
        'C' => "chassis: brakes, steering and suspension",
        'U' => "the network between control units",
        _ => null,
    };

    private static string DefinerOf(string code) => (code[0], code[1]) switch
    {
        (_, '0') or ('P', '2') => "the standard",
        ('P', '3') => code[2] < '4' ? "the maker" : "the standard",
        (_, '1' or '2') => "the maker",
        _ => "nobody yet: the standard keeps it for later",
    };

    // The maker groups its own codes as it likes.
    private static string? GroupOf(string code) => (code[..2], code[2]) switch
    {
        ("P0" or "P2", '0') => "fuel, air and what cleans the exhaust",
        ("P0" or "P2", '1') => "fuel and air",
        ("P0" or "P2", '2') => "fuel and air, the injectors",
        ("P0" or "P2", '3') => "ignition and misfires",
        ("P0" or "P2", '4') => "what cleans the exhaust, and other controls beside it",
        ("P0", '5') => "speed, idling and other inputs",
        ("P2", '5') => "other inputs",
        ("P0" or "P2", '6') => "the control unit and its outputs",
        ("P0" or "P2", '7') or ("P0", '8' or '9') => "the gearbox",
        ("P0", 'A' or 'B' or 'C') => "electric or hybrid drive",
        _ => null,
    };
}
