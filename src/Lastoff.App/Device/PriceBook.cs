using System.Net;
using System.Runtime.InteropServices.JavaScript;
using Lastoff.App.Exchange;
using Lastoff.Core.Pricing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Device;

/// <summary>The workshop's price terms and price list: the server's, as this device last had them, and the changes made here that the server does not have yet.</summary>
public sealed class PriceBook(Server server)
{
    private const string TermsName = "terms";
    private const string PricesName = "prices";
    private const string WaitingName = "prices waiting";
    private const int MostTries = 5;

    /// <summary>One at a time asks the server, so that an older list never comes to stand for a newer one.</summary>
    private readonly SemaphoreSlim _turn = new(1);

    private PriceChanges? _changes;
    private long _termsVersion;

    /// <summary>The list, or what waits, is another.</summary>
    public event Action? Changed;

    /// <summary>The list was changed here, and somebody has to carry that to the server.</summary>
    public event Action? Written;

    /// <summary>Null while the owner has set none.</summary>
    public PriceTerms? Terms { get; private set; }

    /// <summary>The list with what waits here; null without terms, whose currency it is in.</summary>
    public PriceList? Prices { get; private set; }

    /// <summary>Why what is here is not the server's list, or what waits here is not on it, as of when the server was last asked; null when nothing stands in the way.</summary>
    public string? Refused { get; private set; }

    /// <summary>How many changes to the list the server does not have yet.</summary>
    public int Waiting => Changes?.Count ?? 0;

    /// <summary>Null without terms. What waits in a currency that is the workshop's no more says nothing.</summary>
    private PriceChanges? Changes => Terms is not { } terms ? null : _changes?.Currency == terms.Currency ? _changes : PriceChanges.None(terms.Currency);

    public async Task LoadAsync()
    {
        Terms = TermsJson.Read(await StoreModule.SettingAsync(TermsName)).Value;
        _changes = PriceChangesJson.Read(await StoreModule.SettingAsync(WaitingName)).Value;
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
            await SendAsync();
        }
        catch (Exception e) when (e is ServerException or JSException)
        {
            // It is tried again the next time somebody looks.
        }
    }

    /// <summary>Sets the terms for the whole workshop: null once the server has them, or else why it has not.</summary>
    public async Task<string?> SetTermsAsync(PriceTerms terms)
    {
        if (Prices is { Items.Count: > 0 } && Terms is { } had && had.Currency != terms.Currency)
        {
            return Say($"There are prices in {had.Currency} in the list; in {terms.Currency} they would say something else. Export the workshop, change both files, and import them.");
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
                return Say("Somebody else changed the terms meanwhile; look at what they are now, and save again.");
            }

            if (answer != HttpStatusCode.OK)
            {
                return Problem.Detail(now) is { } why ? Say(why) : Say($"The server did not take it ({(int)answer}).");
            }

            (Terms, _termsVersion) = (terms, version);
            await StoreModule.KeepSettingAsync(TermsName, text);
            Show(Prices);
            return null;
        }
        catch (Exception e) when (e is ServerException or JSException)
        {
            return Say("The server is out of reach, and terms are set for the whole workshop; try again near it.");
        }
    }

    /// <summary>Changes the list: here at once, and on the server when it is reached. Null once it is kept, or else why it is not.</summary>
    public async Task<string?> ChangeAsync(Func<PriceChanges, PriceChanges> change)
    {
        if (Changes is not { } changes)
        {
            return Say("The workshop has set no rates yet, and prices are in their currency; an owner does it under “Rates and taxes”.");
        }

        _changes = change(changes);
        Show(Prices);
        try
        {
            await KeepWaitingAsync();
            return null;
        }
        catch (JSException e)
        {
            return Say($"The price may not outlast this page, because the device could not write it down ({e.Message.TrimEnd('.')}); make room on the device and try again.");
        }
        finally
        {
            Changed?.Invoke();
            Written?.Invoke();
        }
    }

    /// <summary>Fetches the list, and writes on it what waits here.</summary>
    /// <exception cref="ServerException">The server is out of reach, or does not let this device in.</exception>
    public async Task SendAsync()
    {
        await _turn.WaitAsync();
        try
        {
            await SendPricesAsync();
        }
        finally
        {
            _turn.Release();
        }

        Changed?.Invoke();
    }

    private async Task SendPricesAsync()
    {
        var (text, version) = await GetAsync(PricesName);
        string? refused = null;
        for (var tries = 0; Changes is { Count: > 0 } sent && tries < MostTries; tries++)
        {
            if (!PriceChangesJson.On(sent, text).TryGet(out var list, out refused))
            {
                break;
            }

            var (answer, now, number) = await PutAsync(PricesName, PriceListJson.Write(list).ToJsonString(), version);
            if (answer == HttpStatusCode.OK)
            {
                _changes = Changes?.Without(sent);
                await KeepWaitingAsync();
            }
            else if (answer != HttpStatusCode.Conflict)
            {
                refused = $"{Say("The server did not take what was changed here; it stays on this device.")} {(Problem.Detail(now) is { } why ? Say(why) : Say($"It answered {(int)answer}."))}";
                break;
            }

            (text, version) = (now, number);
        }

        if (Terms is { } terms && !PriceChangesJson.On(PriceChanges.None(terms.Currency), text).TryGet(out _, out var unfit))
        {
            // What was here before says more than a list that cannot be read.
            Refused = unfit;
            Show(Prices);
            return;
        }

        Refused = refused;
        await StoreModule.KeepSettingAsync(PricesName, text);
        Show(PriceListJson.Read(text).Value);
    }

    private void Show(PriceList? list) => Prices = Changes?.On(list);

    private Task KeepWaitingAsync() => StoreModule.KeepSettingAsync(WaitingName, _changes is { Count: > 0 } changes ? PriceChangesJson.Write(changes).ToJsonString() : "");

    private async Task<(string Text, long Version)> GetAsync(string name)
    {
        var answer = (await server.GetAsync($"api/settings/{name}")).IfGood();
        return (answer.Text, answer.Version);
    }

    private async Task<(HttpStatusCode Answer, string Text, long Version)> PutAsync(string name, string text, long version)
    {
        var answer = await server.PutAsync($"api/settings/{name}?version={version}", text);
        return (answer.Status, answer.Text, answer.Version);
    }
}
