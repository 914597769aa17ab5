using System.Net;
using System.Runtime.InteropServices.JavaScript;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Pricing;

namespace Lastoff.App.Device;

/// <summary>The workshop's price terms and price list: the server's, as this device last had them, and the prices written here that the server does not have yet.</summary>
public sealed class PriceBook(HttpClient server)
{
    private const string TermsName = "terms";
    private const string PricesName = "prices";
    private const string WaitingName = "prices waiting";
    private const string VersionHeader = "Lastoff-Version";
    private const int MostTries = 5;

    private List<ListedItem> _waiting = [];
    private long _termsVersion;

    /// <summary>Null while the owner has set none.</summary>
    public PriceTerms? Terms { get; private set; }

    /// <summary>The list with what waits here; null without terms, whose currency it is in.</summary>
    public PriceList? Prices { get; private set; }

    public async Task LoadAsync()
    {
        Terms = TermsJson.Read(await StoreModule.SettingAsync(TermsName)).Value;
        _waiting = [.. PriceListJson.Read(await StoreModule.SettingAsync(WaitingName)).Value?.Items ?? []];
        Show(PriceListJson.Read(await StoreModule.SettingAsync(PricesName)).Value);
    }

    /// <summary>Fetches both from the server and gives it what waits; without it, what was here stays.</summary>
    public async Task FetchAsync()
    {
        try
        {
            var (terms, version) = await GetAsync(TermsName);
            (Terms, _termsVersion) = (TermsJson.Read(terms).Value, version);
            await StoreModule.KeepSettingAsync(TermsName, terms);
            await SendPricesAsync();
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JSException)
        {
            // It is tried again the next time somebody looks.
        }
    }

    /// <summary>Sets the terms for the whole workshop: null once the server has them, or else why it has not.</summary>
    public async Task<string?> SetTermsAsync(PriceTerms terms)
    {
        if (Prices is { Items.Count: > 0 } && Terms is { } had && had.Currency != terms.Currency)
        {
            return $"There are prices in {had.Currency} in the list; in {terms.Currency} they would say something else. Export the workshop, change both files, and import them.";
        }

        try
        {
            if (_termsVersion == 0)
            {
                // Opened out of reach, it is not known yet which terms these are changed from.
                _termsVersion = (await GetAsync(TermsName)).Version;
            }

            var text = TermsJson.Write(terms).ToJsonString();
            var (answer, now, version) = await PutAsync(TermsName, text, _termsVersion);
            if (answer == HttpStatusCode.Conflict)
            {
                (Terms, _termsVersion) = (TermsJson.Read(now).Value, version);
                return "Somebody else changed the terms meanwhile; look at what they are now, and save again.";
            }

            if (answer != HttpStatusCode.OK)
            {
                return Said(now) ?? $"The server did not take it ({(int)answer}).";
            }

            (Terms, _termsVersion) = (terms, version);
            await StoreModule.KeepSettingAsync(TermsName, text);
            Show(Prices);
            return null;
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JSException)
        {
            return "The server is out of reach, and terms are set for the whole workshop; try again near it.";
        }
    }

    /// <summary>Writes a price down, here at once and on the server when it is reached.</summary>
    public async Task WriteAsync(ListedItem item)
    {
        _waiting = [.. _waiting.Where(other => !Same(other, item)), item];
        Show(Prices);
        await KeepWaitingAsync();
        try
        {
            await SendPricesAsync();
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JSException)
        {
            // It waits.
        }
    }

    /// <summary>Fetches the list, and writes on it what waits here.</summary>
    private async Task SendPricesAsync()
    {
        var (text, version) = await GetAsync(PricesName);
        // A list in another currency is never written over.
        var isForeign = Terms is { } set && PriceListJson.Read(text).Value is { } there && there.Currency != set.Currency;
        for (var tries = 0; !isForeign && _waiting.Count > 0 && Terms is { } terms && tries < MostTries; tries++)
        {
            var sent = _waiting;
            var (answer, now, number) = await PutAsync(PricesName, PriceListJson.Write(With(PriceListJson.Read(text).Value, sent, terms)).ToJsonString(), version);
            if (answer == HttpStatusCode.OK)
            {
                _waiting = [.. _waiting.Except(sent)];
                await KeepWaitingAsync();
            }
            else if (answer != HttpStatusCode.Conflict)
            {
                break;
            }

            (text, version) = (now, number);
        }

        await StoreModule.KeepSettingAsync(PricesName, text);
        Show(PriceListJson.Read(text).Value);
    }

    private void Show(PriceList? list) => Prices = Terms is { } terms ? With(list, _waiting, terms) : null;

    /// <summary>The list with other items in place of those of the same name. One in another currency than the terms' says nothing here.</summary>
    private static PriceList With(PriceList? list, IReadOnlyList<ListedItem> more, PriceTerms terms) => new(
        terms.Currency,
        [.. (list is not null && list.Currency == terms.Currency ? list.Items : []).Where(item => !more.Any(other => Same(other, item))), .. more],
        list?.Invented ?? false);

    private static bool Same(ListedItem one, ListedItem other) => string.Equals(one.Item, other.Item, StringComparison.OrdinalIgnoreCase);

    private Task KeepWaitingAsync() =>
        StoreModule.KeepSettingAsync(WaitingName, Terms is { } terms && _waiting.Count > 0 ? PriceListJson.Write(new PriceList(terms.Currency, _waiting)).ToJsonString() : "");

    private async Task<(string Text, long Version)> GetAsync(string name)
    {
        using var answer = await server.GetAsync($"api/settings/{name}");
        return (await answer.EnsureSuccessStatusCode().Content.ReadAsStringAsync(), VersionOf(answer));
    }

    private async Task<(HttpStatusCode Answer, string Text, long Version)> PutAsync(string name, string text, long version)
    {
        using var content = new StringContent(text, Encoding.UTF8, "application/json");
        using var answer = await server.PutAsync($"api/settings/{name}?version={version}", content);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(), VersionOf(answer));
    }

    private static long VersionOf(HttpResponseMessage answer) =>
        answer.Headers.TryGetValues(VersionHeader, out var values) && long.TryParse(values.First(), out var version) ? version : 0;

    private static string? Said(string problem)
    {
        try
        {
            return (string?)JsonNode.Parse(problem)?["detail"];
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
