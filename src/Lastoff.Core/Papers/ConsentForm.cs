using System.Globalization;
using System.Net;
using Lastoff.Core.Languages;
using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>Under an estimate that the customer reads on a screen: a yes to the price that stands above it, and to no other.</summary>
public sealed record ConsentForm
{
    public const string NameField = "name";
    public const string PriceField = "price";
    public const string OldPartsField = "old_parts";

    private const int LongestName = 200;

    private readonly string _sha256;
    private readonly string _total;
    private readonly bool _asksForOldParts;

    private ConsentForm(string sha256, string total, bool asksForOldParts) => (_sha256, _total, _asksForOldParts) = (sha256, total, asksForOldParts);

    /// <summary>Why the last try was not taken; null on the first.</summary>
    public string? Fault { get; init; }

    /// <summary>What was typed at the last try.</summary>
    public string Name { get; init; } = "";

    public bool WantsOldParts { get; init; }

    /// <summary>Null where there is no price that waits for a yes, or where work was taken in that may not be in it.</summary>
    public static ConsentForm? For(Standing standing) =>
        standing.HandedOver is null && standing.LatestPrice is { } price && standing.AgreedPrice?.Price?.Priced.Sha256 != price.Priced.Sha256
            && price.Covers(standing)
            ? new ConsentForm(price.Priced.Sha256, price.Price.Total.ToString(), standing.GoalParts.Count > 0) { WantsOldParts = standing.WantsOldParts }
            : null;

    /// <summary>What is wrong with a name that says yes, as a sentence; null when nothing is.</summary>
    public static string? NameFault(string name) =>
        string.IsNullOrWhiteSpace(name) ? "Write your name."
        : name.Length > LongestName ? $"Your name is {name.Length} characters long, and {LongestName} is the most."
        : PlainText.Fault(name) is { } odd ? $"Your name {odd}."
        : null;

    internal string Html(Tongue tongue) => string.Create(CultureInfo.InvariantCulture, $"""
        <form class="consent" method="post"><h2>{Text(tongue, "Do you say yes?")}</h2>{(Fault is null ? "" : $"<p class=\"caution\" role=\"alert\">{Text(tongue, Fault)}</p>")}
        <input type="hidden" name="{PriceField}" value="{_sha256}"/>
        <label for="consent-name">{Text(tongue, "Your name")}</label><input id="consent-name" name="{NameField}" value="{WebUtility.HtmlEncode(Name)}" maxlength="{LongestName}" autocomplete="name" required="required"/>
        {(_asksForOldParts ? $"<label class=\"tick\"><input type=\"checkbox\" name=\"{OldPartsField}\" value=\"back\"{(WantsOldParts ? " checked=\"checked\"" : "")}/> {Text(tongue, "I want the old parts back")}</label>" : "")}
        <button type="submit">{Text(tongue, $"Yes, for {_total}")}</button>
        <p>{Text(tongue, "It is written down with the time and this price. If you do not agree, or want to ask something first, close this page and speak with the workshop.")}</p></form>

        """);

    private static string Text(Tongue tongue, string english) => WebUtility.HtmlEncode(Unbroken.Of(tongue.Say(english)));
}
