using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Lastoff.Tests.Serving;

namespace Lastoff.BrowserTests;

/// <summary>What a phone fetches the first time it comes.</summary>
public class FirstVisitTests
{
    /// <summary>The budget of this project.</summary>
    private const int Most_B = 2_500_000;

    [Fact]
    public async Task All_that_is_fetched_and_kept_is_at_most_two_and_a_half_megabytes()
    {
        var ct = TestContext.Current.CancellationToken;
        await using var server = await RunningServer.Start();
        server.Client.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");
        // The list for the worker that keeps the app: everything there is.
        var list = await server.Client.GetAsync("service-worker-assets.js", ct);
        var packed_B = await list.Content.ReadAsByteArrayAsync(ct);
        Assert.Equal("br", Assert.Single(list.Content.Headers.ContentEncoding));
        using var text = new StreamReader(new BrotliStream(new MemoryStream(packed_B), CompressionMode.Decompress), Encoding.UTF8);
        var said = await text.ReadToEndAsync(ct);
        var files = JsonNode.Parse(said[said.IndexOf('{')..(said.LastIndexOf('}') + 1)])!["assets"]!.AsArray().Select(asset => (string)asset!["url"]!).ToList();
        Assert.Contains("_framework/assemblies.dat", files);
        var sum_B = packed_B.Length;
        foreach (var file in files)
        {
            sum_B += (await server.Client.GetByteArrayAsync(file, ct)).Length;
        }

        Assert.True(sum_B <= Most_B, $"{sum_B} bytes are fetched");
    }
}
