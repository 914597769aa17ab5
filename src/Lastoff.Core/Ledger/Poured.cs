using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>What went in when a fluid supply was restored. The litres stand with the move itself.</summary>
/// <param name="Fluid">What stands on its label.</param>
/// <param name="Percent">The strength of what was poured, glycol by volume; null for what is no coolant.</param>
/// <param name="BeforePercent">The strength of what had stayed in, as it was read.</param>
/// <param name="MixPercent">What the two make together.</param>
/// <param name="PlusMinusPercent">How far that may be off.</param>
public sealed record Poured(string Fluid, double? Percent = null, double? BeforePercent = null, double? MixPercent = null, double? PlusMinusPercent = null)
{
    private static readonly (string Name, Func<Poured, double?> Of)[] Shares =
    [
        ("percent", poured => poured.Percent),
        ("before_percent", poured => poured.BeforePercent),
        ("mix_percent", poured => poured.MixPercent),
        ("plus_minus_percent", poured => poured.PlusMinusPercent),
    ];

    internal JsonObject ToData()
    {
        var data = new JsonObject { ["fluid"] = Fluid };
        foreach (var (name, of) in Shares)
        {
            if (of(this) is { } share)
            {
                data[name] = share;
            }
        }

        return data;
    }

    /// <exception cref="FormatException">It is there, and names no fluid.</exception>
    internal static Poured? Read(JsonElement data)
    {
        if (!data.TryGetProperty("poured", out var poured))
        {
            return null;
        }

        if (poured.ValueKind != JsonValueKind.Object || !poured.TryGetProperty("fluid", out var fluid) || fluid.ValueKind != JsonValueKind.String)
        {
            throw new FormatException("it does not say which fluid was poured");
        }

        double? Share(string name) => poured.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
        return new Poured(fluid.GetString()!, Share("percent"), Share("before_percent"), Share("mix_percent"), Share("plus_minus_percent"));
    }

    /// <summary>Why this cannot have been poured; null when it can.</summary>
    internal static Refusal? Check(Moved moved)
    {
        if (moved.Amount_L is { } litres && !(litres >= 0 && litres <= 100_000))
        {
            return new Refusal(RefusalKind.Forbidden, "The litres are not below nothing and no lake; check the number and its unit.");
        }

        if (moved.Poured is not { } poured)
        {
            return null;
        }

        return moved.Move != Move.SupplyRestored ? new Refusal(RefusalKind.Forbidden, "Something is poured in only when a supply is restored.")
            : Shares.Any(share => share.Of(poured) is { } percent && !(percent >= 0 && percent <= 100)) ? new Refusal(RefusalKind.Forbidden, "Strengths are percent by volume, from 0 to 100; check what was read.")
            : null;
    }

    /// <summary>What was poured and what it makes, as the end of a line.</summary>
    public string Words() => Fluid
        + (Percent is { } percent ? FormattableString.Invariant($", {percent:0.#} %") : "")
        + (MixPercent is { } mix ? FormattableString.Invariant($"; the mix is {mix:0.#} %{(PlusMinusPercent is { } off ? FormattableString.Invariant($" ± {off:0.#}") : "")}") : "");
}
