namespace Lastoff.Core.Fluids;

/// <summary>Trouble codes of the published diagnostics standard (SAE J2012 / ISO 15031-6) that bear on cooling; the wordings are ours, the meanings from memory.</summary>
public static class TroubleCode
{
    private static readonly Dictionary<string, string> Meanings = new(StringComparer.OrdinalIgnoreCase)
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

    /// <summary>What a code says, or nothing when it is not one of cooling.</summary>
    public static string? Meaning(string code) => Meanings.GetValueOrDefault(code.Trim());
}
