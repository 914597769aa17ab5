using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>A rounding rule as JSON, both ways.</summary>
internal static class RoundingJson
{
    public static JsonObject Write(Rounding rounding)
    {
        var json = new JsonObject { ["half"] = Words<HalfWay>.Of(rounding.Half), ["tax_per"] = Words<TaxedPer>.Of(rounding.TaxedPer) };
        if (rounding.CashStep is { } step)
        {
            json["cash_step"] = Money.Plain(step);
        }

        return json;
    }

    /// <exception cref="FormatException">It is none; the message is the sentence to show.</exception>
    public static Rounding Read(JsonFields json, Currency currency)
    {
        json.Only("half", "tax_per", "cash_step");
        var step = json.OptionalNumber("cash_step", currency);
        return step is { } given && Rounding.StepFault(given, currency) is { } fault
            ? throw new FormatException($"{json.Where}: {fault}.")
            : new Rounding(json.Word<HalfWay>("half"), json.Word<TaxedPer>("tax_per")) { CashStep = step };
    }
}
