using System.Net;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Lastoff.App.Device;

namespace Lastoff.App.Exchange;

/// <summary>Asks the workshop's server by the browser's own means: text goes there, and text comes back.</summary>
/// <param name="patience">How long an answer may take.</param>
public sealed class Server(TimeSpan patience)
{
    private static int s_asked;

    /// <exception cref="ServerException">The server is out of reach, or took too long.</exception>
    public Task<Reply> GetAsync(string path, CancellationToken ct = default) => AskAsync("GET", path, null, "", ct);

    /// <inheritdoc cref="GetAsync"/>
    public Task<Reply> PostAsync(string path, string? body, string type = "application/json") => AskAsync("POST", path, body, type, default);

    /// <inheritdoc cref="GetAsync"/>
    public Task<Reply> PutAsync(string path, string body, string type = "application/json") => AskAsync("PUT", path, body, type, default);

    /// <exception cref="ServerException">The server is out of reach, took too long, or would not.</exception>
    public async Task<T> ReadAsync<T>(string path, JsonTypeInfo<T> type) => JsonSerializer.Deserialize((await GetAsync(path)).IfGood().Text, type)!;

    private async Task<Reply> AskAsync(string method, string path, string? body, string type, CancellationToken ct)
    {
        ct.ThrowIfCancellationRequested();
        var number = ++s_asked;
        await using var stop = ct.Register(() => ServerModule.Stop(number));
        try
        {
            using var answer = await ServerModule.AskAsync(number, method, path, body, type, (int)patience.TotalMilliseconds);
            return new Reply((HttpStatusCode)answer.GetPropertyAsInt32("status"), answer.GetPropertyAsString("text")!, answer.GetPropertyAsString("store") ?? "", (long)answer.GetPropertyAsDouble("version"));
        }
        catch (JSException)
        {
            ct.ThrowIfCancellationRequested();
            throw new ServerException(null);
        }
    }
}

/// <summary>What the server answered.</summary>
/// <param name="Store">Which store it has, where it says so.</param>
/// <param name="Version">Of the text it gave, where it says so; else zero.</param>
public sealed record Reply(HttpStatusCode Status, string Text, string Store, long Version)
{
    public bool IsGood => (int)Status is >= 200 and < 300;

    /// <exception cref="ServerException">It would not.</exception>
    public Reply IfGood() => IsGood ? this : throw new ServerException(Status);
}

/// <summary>The server did not give what it was asked for.</summary>
/// <param name="status">What it answered; null when it is out of reach.</param>
public sealed class ServerException(HttpStatusCode? status) : Exception
{
    public HttpStatusCode? Status => status;
}
