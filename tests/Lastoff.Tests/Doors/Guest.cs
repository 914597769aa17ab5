using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Tests.Serving;

namespace Lastoff.Tests.Doors;

/// <summary>A browser at the door: it keeps its cookies, as browsers do.</summary>
public sealed class Guest : IDisposable
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    public Guest(RunningServer server)
    {
        Cookies = new CookieContainer();
        Client = new HttpClient(new SocketsHttpHandler { CookieContainer = Cookies, AllowAutoRedirect = false }) { BaseAddress = server.Address };
    }

    public CookieContainer Cookies { get; }

    public HttpClient Client { get; }

    public Task<HttpResponseMessage> Post(string path, object? given = null) => Client.PostAsJsonAsync(path, given ?? new { }, Cancel);

    public Task<HttpResponseMessage> Get(string path) => Client.GetAsync(path, Cancel);

    public async Task<JsonNode> Read(string path) => JsonNode.Parse(await Client.GetStringAsync(path, Cancel))!;

    /// <summary>What is left of an invitation once only the code is taken from its link.</summary>
    public async Task<string> Invited(string? person = null)
    {
        var answer = await Post("/api/devices/invite", new { person });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var link = (string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["link"]!;
        return link[(link.IndexOf('#', StringComparison.Ordinal) + 1)..];
    }

    public static async Task<string> Why(HttpResponseMessage answer) => (string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["detail"]!;

    public void Dispose() => Client.Dispose();
}
