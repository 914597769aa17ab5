using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>How something was found out.</summary>
public enum EvidenceBy { Look, Sound, Dye, PressureHold, CombustionGas, FluidSample, Code, Reading }

/// <summary>What a finding says of a suspected cause.</summary>
public enum Speaks { For, Against, Neither }

/// <summary>Something that was found on the way to the cause.</summary>
/// <param name="Suspect">The suspected cause that it speaks for or against.</param>
/// <param name="Found">What was seen, heard or read.</param>
public sealed record EvidenceFound(string Suspect, EvidenceBy By, string Found, Speaks Speaks) : Act
{
    public override string Kind => ActKinds.EvidenceFound;

    public override JsonObject ToData() => new()
    {
        ["suspect"] = Suspect,
        ["by"] = Words<EvidenceBy>.Of(By),
        ["found"] = Found,
        ["speaks"] = Words<Speaks>.Of(Speaks),
    };

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static EvidenceFound Read(Entry entry) => new(
        ActKinds.Text(entry, "suspect"),
        ActKinds.WordOf<EvidenceBy>(entry, "by"),
        ActKinds.Text(entry, "found"),
        ActKinds.WordOf<Speaks>(entry, "speaks"));
}

/// <summary>The cause, as it is known now, and what puts it right. The last one said holds.</summary>
public sealed record CauseNamed(string Cause, string Correction) : Act
{
    public override string Kind => ActKinds.CauseNamed;

    public override JsonObject ToData() => new() { ["cause"] = Cause, ["correction"] = Correction };
}
