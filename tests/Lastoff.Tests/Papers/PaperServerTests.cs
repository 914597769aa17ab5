using System.Net;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Tests.Serving;

namespace Lastoff.Tests.Papers;

/// <summary>A server with a job that was handed over, for all who only read.</summary>
public sealed class ServedPapers : IAsyncLifetime
{
    private RunningServer _server = null!;

    public HttpClient Client => _server.Client;

    /// <summary>Where the papers of the job are.</summary>
    public string Path { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        _server = await RunningServer.Start();
        var job = Bench.HandedOver().Job;
        var sent = await Client.PostAsync($"/api/jobs/{job.Entries[0].Id}/entries", new StringContent(LedgerFile.Write(job.Entries)));
        Assert.Equal(HttpStatusCode.OK, sent.StatusCode);
        Path = $"/api/jobs/{job.Entries[0].Id}/papers";
    }

    public ValueTask DisposeAsync() => _server.DisposeAsync();
}

/// <summary>Papers from the running server.</summary>
public sealed class PaperServerTests(ServedPapers papers) : IClassFixture<ServedPapers>
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("labels")]
    [InlineData("standing")]
    [InlineData("record")]
    [InlineData("handover")]
    [InlineData("estimate")]
    [InlineData("invoice")]
    public async Task Each_is_had_as_a_page_as_data_and_as_pdf(string kind)
    {
        var page = await papers.Client.GetAsync($"{papers.Path}/{kind}.html", Cancel);
        Assert.Equal("text/html", page.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("default-src 'none'; style-src 'sha256-", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Contains("An invented sprayer", await page.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Assert.Equal(kind, (string)JsonNode.Parse(await papers.Client.GetStringAsync($"{papers.Path}/{kind}.json", Cancel))!["paper"]!);
        var pdf = await papers.Client.GetAsync($"{papers.Path}/{kind}.pdf?sheet=letter", Cancel);
        Assert.Equal("application/pdf", pdf.Content.Headers.ContentType!.MediaType);
        Assert.Equal("%PDF"u8.ToArray(), (await pdf.Content.ReadAsByteArrayAsync(Cancel))[..4]);
        Assert.Equal("no-store", pdf.Headers.CacheControl!.ToString());
    }

    [Fact]
    public async Task A_page_is_had_in_another_language_and_data_is_not()
    {
        var page = await papers.Client.GetStringAsync($"{papers.Path}/handover.html?language=de", Cancel);
        Assert.Contains("<html lang=\"de\">", page, StringComparison.Ordinal);
        Assert.Contains("<h1 dir=\"auto\">Übergabe</h1>", page.Replace("&#220;", "Ü", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(await papers.Client.GetStringAsync($"{papers.Path}/handover.json", Cancel), await papers.Client.GetStringAsync($"{papers.Path}/handover.json?language=de", Cancel));
        Assert.Equal("%PDF"u8.ToArray(), (await papers.Client.GetByteArrayAsync($"{papers.Path}/handover.pdf?language=de", Cancel))[..4]);
    }

    [Theory]
    [InlineData("record.html?language=xx", HttpStatusCode.BadRequest)]
    [InlineData("invoicing.html", HttpStatusCode.NotFound)]
    [InlineData("record.docx", HttpStatusCode.NotFound)]
    [InlineData("record.pdf?sheet=a5", HttpStatusCode.BadRequest)]
    public async Task What_is_not_had_is_said(string path, HttpStatusCode status)
    {
        var answer = await papers.Client.GetAsync($"{papers.Path}/{path}", Cancel);
        Assert.Equal(status, answer.StatusCode);
        Assert.NotEqual("", (string?)JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["detail"]);
    }

    [Fact]
    public async Task A_job_that_is_not_here_has_none() =>
        Assert.Equal(HttpStatusCode.NotFound, (await papers.Client.GetAsync($"/api/jobs/{Guid.CreateVersion7()}/papers/record.html", Cancel)).StatusCode);

    [Fact]
    public async Task Many_at_once_are_all_served()
    {
        var kinds = Enumerable.Range(0, 24).Select(n => $"{papers.Path}/{new[] { "labels", "standing", "record", "handover" }[n % 4]}.pdf");
        var sizes = await Task.WhenAll(kinds.Select(async path => (await papers.Client.GetByteArrayAsync(path, Cancel)).Length));
        Assert.All(sizes, size => Assert.True(size > 10_000));
    }
}
