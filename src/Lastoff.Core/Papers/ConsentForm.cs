using System.Globalization;
using System.Net;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>Under an estimate that the customer reads on a screen: a yes to the price that stands above it, and to no other.</summary>
public sealed record ConsentForm
{
    public const string NameField = "name";
    public const string PriceField = "price";
    public const string OldPartsField = "old_parts";

    private readonly string _sha256;
    private readonly string _total;
    private readonly bool _asksForOldParts;
    private readonly string? _fault;

    private ConsentForm(string sha256, string total, bool asksForOldParts, string? fault) => (_sha256, _total, _asksForOldParts, _fault) = (sha256, total, asksForOldParts, fault);

    /// <summary>Null where there is no price that waits for a yes.</summary>
    /// <param name="fault">Why the last try was not taken; null on the first.</param>
    public static ConsentForm? For(Standing standing, string? fault = null) =>
        standing.HandedOver is null && standing.LatestPrice is { } price && standing.AgreedPrice?.Price?.Priced.Sha256 != price.Priced.Sha256
            ? new ConsentForm(price.Priced.Sha256, price.Price.Total.ToString(), standing.GoalParts.Count > 0, fault)
            : null;

    internal string Html() => string.Create(CultureInfo.InvariantCulture, $"""
        <form class="consent" method="post"><h2>Do you say yes?</h2>{(_fault is null ? "" : $"<p class=\"caution\" role=\"alert\">{WebUtility.HtmlEncode(_fault)}</p>")}
        <input type="hidden" name="{PriceField}" value="{_sha256}"/>
        <label for="consent-name">Your name</label><input id="consent-name" name="{NameField}" maxlength="200" autocomplete="name" required="required"/>
        {(_asksForOldParts ? $"<label class=\"tick\"><input type=\"checkbox\" name=\"{OldPartsField}\" value=\"back\"/> I want the old parts back</label>" : "")}
        <button type="submit">Yes, for {WebUtility.HtmlEncode(_total)}</button>
        <p>It is written down with the time and this price. If you do not agree, or want to ask something first, close this page and speak with the workshop.</p></form>

        """);
}
