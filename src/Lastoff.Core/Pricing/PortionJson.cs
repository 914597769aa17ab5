using System.Text.Json.Nodes;

namespace Lastoff.Core.Pricing;

/// <summary>A part of a sum as JSON, both ways: <c>{"percent": "10"}</c> or <c>{"amount": "50.00"}</c>.</summary>
internal static class PortionJson
{
    public static JsonObject Write(Portion portion) => portion.Percent is { } percent
        ? new JsonObject { ["percent"] = Money.Plain(percent) }
        : new JsonObject { ["amount"] = portion.Amount!.Digits };

    /// <param name="of">What percent are of: "total".</param>
    /// <exception cref="FormatException">It is none; the message is the sentence to show.</exception>
    public static Portion Read(JsonFields json, Currency currency, string of)
    {
        json.Only("percent", "amount");
        if (json.Has("percent") == json.Has("amount"))
        {
            throw new FormatException($"{json.Where}: write either percent (of the {of}) or amount.");
        }

        return json.OptionalNumber("percent", 0, 100, " %") is { } percent ? Portion.OfPercent(percent)
            : json.Amount("amount", currency) is { IsNegative: false } amount ? Portion.Fixed(amount)
            : throw new FormatException($"{json.Path("amount")} is below zero.");
    }
}
