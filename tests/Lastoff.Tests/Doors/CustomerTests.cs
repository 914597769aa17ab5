using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Doors;

/// <summary>What a customer reads and says by the link to their job, before the real server on either store.</summary>
public abstract class CustomerTests(IReadOnlyList<string> store) : AtTheDoor(store)
{
    [Fact]
    public async Task A_customer_opens_their_own_record_by_its_link_and_a_guessed_one_opens_nothing()
    {
        await Own();
        using var customer = new Guest(Server);
        var job = (await Owner.Read("/api/jobs"))[0]!;
        var answer = await Owner.Post($"/api/jobs/{(string)job["id"]!}/link");
        var link = new Uri((string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["address"]!).AbsolutePath;
        var page = await customer.Get(link);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        Assert.Equal("no-store", page.Headers.CacheControl!.ToString());
        Assert.Contains("invented", await page.Content.ReadAsStringAsync(Cancel), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.Unauthorized, (await customer.Get("/api/jobs")).StatusCode);
        // It is in the first language that the customer's browser asks for and there are words for (RFC 9110, section 12.5.4).
        foreach (var (asked, language) in new[] { ("de-AT,de;q=0.9,en;q=0.8", "de"), ("xx, en;q=0.5, de;q=0.7", "de"), ("en-GB,de;q=0.5", "en"), ("xx", "en"), ("de;q=0", "en") })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, link);
            request.Headers.TryAddWithoutValidation("Accept-Language", asked);
            var said = await customer.Client.SendAsync(request, Cancel);
            Assert.Contains($"<html lang=\"{language}\">", await said.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
            Assert.Contains("Accept-Language", said.Headers.Vary);
        }

        foreach (var guessed in new[] { link[..^2] + (link[^2] == 'A' ? "BA" : "AA"), "/record/" + (string)job["id"]!, "/record/..%2f..%2fetc%2fpasswd" })
        {
            Assert.Equal(HttpStatusCode.NotFound, (await customer.Get(guessed)).StatusCode);
        }
    }

    [Fact]
    public async Task A_customer_says_yes_by_the_link_to_the_price_that_stood_on_the_page_and_to_no_other()
    {
        await Own();
        using var customer = new Guest(Server);
        var (job, opened) = await JobWithoutYes();
        var answer = await Owner.Post($"/api/jobs/{job}/link");
        var link = new Uri((string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["address"]!).AbsolutePath;
        Assert.DoesNotContain("<form", await customer.Client.GetStringAsync(link, Cancel));

        var euro = Currency.Of("EUR").Value!;
        var priced = Priced.Of(Price.Of(new PriceDraft(euro, Rounding.Usual, [PriceLine.Of(euro, HalfWay.Up, LineGroup.Labour, "Labour", 1.5m, "h", 80, []).Value!])).Value!);
        var entry = EntryLine.Write(priced, EntryId.Next(DateTimeOffset.UtcNow, opened, new byte[10]), "door-test", DateTimeOffset.UtcNow, "Tester", null);
        await Owner.Client.PostAsync($"/api/jobs/{job}/entries", new StringContent(entry.Line), Cancel);
        var page = await customer.Get(link);
        Assert.Contains("form-action 'self'", page.Headers.GetValues("Content-Security-Policy").Single());
        Assert.Contains("Yes, for 120.00&#160;EUR", await page.Content.ReadAsStringAsync(Cancel));

        Assert.Contains("Write your name", await Say(" ", priced.Sha256));
        Assert.Contains("Your name holds a character that turns the reading direction round", await Say("Own\u202Eer", priced.Sha256));
        var again = await Say("The <owner>", new string('0', 64));
        Assert.Contains("The workshop has made another price meanwhile", again);
        // What was typed is still there.
        Assert.Contains("value=\"The &lt;owner&gt;\"", again);
        Assert.Contains("checked=\"checked\"", again);
        using (var elsewhere = new HttpRequestMessage(HttpMethod.Post, link) { Content = Form("Mallory", priced.Sha256) })
        {
            elsewhere.Headers.TryAddWithoutValidation("Origin", "https://elsewhere.example");
            Assert.Equal(HttpStatusCode.Forbidden, (await customer.Client.SendAsync(elsewhere, Cancel)).StatusCode);
        }

        Assert.Empty(await Yeses());
        var said = await Say("The <owner>", priced.Sha256);
        Assert.Contains("The &lt;owner&gt; said yes to this, by the signed link.", said);
        Assert.DoesNotContain("<form", said);
        // Sent twice, it is said once.
        await Say("The <owner>", priced.Sha256);
        var yes = Assert.Single(await Yeses());
        Assert.Equal(("The <owner>", "by the signed link", priced.Sha256, entry.Id, true), (yes.Who, yes.Way, yes.Price!.Sha256, yes.Price.Entry, yes.OldPartsBack));

        FormUrlEncodedContent Form(string name, string price) => new(new Dictionary<string, string> { ["name"] = name, ["price"] = price, ["old_parts"] = "back" });
        async Task<string> Say(string name, string price)
        {
            var answer = await customer.Client.PostAsync(link, Form(name, price), Cancel);
            return await (answer.StatusCode == HttpStatusCode.Redirect ? await customer.Get(answer.Headers.Location!.OriginalString) : answer).Content.ReadAsStringAsync(Cancel);
        }

        async Task<List<Agreed>> Yeses() => [.. (await Entries(job)).Select(written => ActKinds.Read(written, out _)).OfType<Agreed>()];
    }

    /// <summary>A job of the demo that nobody has said yes to, and the entry that opens it.</summary>
    private async Task<(string Job, Guid Opened)> JobWithoutYes()
    {
        foreach (var listed in (await Owner.Read("/api/jobs")).AsArray())
        {
            var entries = await Entries((string)listed!["id"]!);
            if (entries.All(entry => entry.Kind != ActKinds.Agreed))
            {
                return ((string)listed["id"]!, entries.Max(entry => entry.Id));
            }
        }

        throw new InvalidOperationException("Every job of the demo is agreed.");
    }

    private async Task<IReadOnlyList<Entry>> Entries(string job) =>
        [.. EntryLine.ReadAll((await Owner.Read($"/api/jobs/{job}/entries"))["lines"]!.AsArray().Select(line => (string)line!))];

    [Fact]
    public async Task What_a_customer_reads_is_text_and_never_script()
    {
        var job = (await Owner.Read("/api/jobs"))[0]!;
        var entries = (await Owner.Read($"/api/jobs/{(string)job["id"]!}/entries"))["lines"]!.AsArray().Select(line => (string)line!).ToList();
        Assert.True(EntryLine.TryRead(entries[0], out var opened, out _));
        var agreed = EntryLine.Write(
            new Agreed("<script>alert(1)</script>", "in person", "<img src=x onerror=alert(2)>"),
            EntryId.Next(DateTimeOffset.UtcNow, opened!.Id, new byte[10]), "door-test", DateTimeOffset.UtcNow, "<b>Tester</b>", null);
        await Owner.Client.PostAsync($"/api/jobs/{(string)job["id"]!}/entries", new StringContent(agreed.Line), Cancel);
        var answer = await Owner.Post($"/api/jobs/{(string)job["id"]!}/link");
        var link = new Uri((string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["address"]!).AbsolutePath;
        var page = await Owner.Client.GetStringAsync(link, Cancel);
        Assert.Contains("&lt;script&gt;", page);
        Assert.DoesNotContain("<script>", page);
        Assert.DoesNotContain("<img", page);
        Assert.Contains("<h1 dir=\"auto\">Your machine so far</h1>", page);
    }
}

public sealed class CustomersOnSqliteTests() : CustomerTests([]);

public sealed class CustomersOnPostgresTests() : CustomerTests(TestPostgres.NewWorkshop());
