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
    /// <summary>In how many fills it went in, with a drain before each, where a plan of several was followed and told at once; null for one.</summary>
    public int? Fills { get; init; }

    private const int MostFills = 100;

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

        if (Fills is not null)
        {
            data["fills"] = Fills;
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
        return new Poured(fluid.GetString()!, Share("percent"), Share("before_percent"), Share("mix_percent"), Share("plus_minus_percent"))
        {
            Fills = poured.TryGetProperty("fills", out var fills) && fills.ValueKind == JsonValueKind.Number && fills.TryGetInt32(out var count) && count > 1 ? count : null,
        };
    }

    /// <summary>Why this cannot have been poured; null when it can.</summary>
    internal static Refusal? Check(Moved moved)
    {
        if (moved.Amount_L is { } litres && !(litres >= 0 && litres <= 100_000))
        {
            return new Refusal(RefusalKind.Forbidden, "The litres are not below nothing and no lake; check the number and its unit.");
        }

        if (moved.Left_ppm is { } left && !(left is >= 0 and <= 1_000_000))
        {
            return new Refusal(RefusalKind.Forbidden, "What is left of what had got in is between 0 and 1 000 000 ppm; check the number.");
        }

        if (moved.Poured is not { } poured)
        {
            return null;
        }

        return moved.Move != Move.SupplyRestored ? new Refusal(RefusalKind.Forbidden, "Something is poured in only when a supply is restored.")
            : poured.Fills is { } fills && fills is not (> 1 and <= MostFills) ? new Refusal(RefusalKind.Forbidden, $"It went in by 2 to {MostFills} fills, or by one and no number; check it.")
            : Shares.Any(share => share.Of(poured) is { } percent && !(percent >= 0 && percent <= 100)) ? new Refusal(RefusalKind.Forbidden, "Strengths are percent by volume, from 0 to 100; check what was read.")
            : null;
    }

    /// <summary>What was poured and what it makes, as the end of a line.</summary>
    public string Words() => Fluid
        + (Percent is { } percent ? FormattableString.Invariant($", {percent:0.#} %") : "")
        + (Fills is { } fills ? $", in {fills} fills" : "")
        + (MixPercent is { } mix ? FormattableString.Invariant($"; the mix is {mix:0.#} %{(PlusMinusPercent is { } off ? FormattableString.Invariant($" ± {off:0.#}") : "")}") : "");
}
