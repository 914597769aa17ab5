using System.Net;
using System.Text;

namespace Lastoff.BrowserTests;

/// <summary>Stands between the browser and the server, and once told to, hands out the list of the app's files under another version: to the browser a newer app.</summary>
internal sealed class NewerVersion : IAsyncDisposable
{
    private static readonly string[] s_ofTheConnection = ["Transfer-Encoding", "Content-Length", "Connection", "Keep-Alive"];

    private readonly HttpListener _listener = new();
    private readonly HttpClient _server;
    private readonly Task _served;
    private bool _isNewer;

    public NewerVersion(Uri server)
    {
        _server = new HttpClient { BaseAddress = server };
        Address = new Uri($"http://localhost:{FreePort()}/");
        _listener.Prefixes.Add(Address.ToString());
        _listener.Start();
        _served = ServeAsync();
    }

    public Uri Address { get; }

    public void Publish() => _isNewer = true;

    public async ValueTask DisposeAsync()
    {
        _listener.Close();
        await _served;
        _server.Dispose();
    }

    private static int FreePort()
    {
        using var socket = new System.Net.Sockets.TcpListener(IPAddress.Loopback, 0);
        socket.Start();
        return ((IPEndPoint)socket.LocalEndpoint).Port;
    }

    private async Task ServeAsync()
    {
        while (true)
        {
            try
            {
                _ = AnswerAsync(await _listener.GetContextAsync());
            }
            catch (Exception e) when (e is HttpListenerException or ObjectDisposedException)
            {
                return;
            }
        }
    }

    private async Task AnswerAsync(HttpListenerContext call)
    {
        try
        {
            using var request = new HttpRequestMessage(new HttpMethod(call.Request.HttpMethod), call.Request.RawUrl);
            if (call.Request.HasEntityBody)
            {
                request.Content = new StreamContent(call.Request.InputStream);
                request.Content.Headers.TryAddWithoutValidation("Content-Type", call.Request.ContentType);
            }

            using var answer = await _server.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
            call.Response.StatusCode = (int)answer.StatusCode;
            foreach (var (name, values) in answer.Headers.Concat(answer.Content.Headers).Where(header => !s_ofTheConnection.Contains(header.Key, StringComparer.OrdinalIgnoreCase)))
            {
                call.Response.Headers[name] = string.Join(", ", values);
            }

            if (_isNewer && call.Request.Url!.AbsolutePath == "/service-worker-assets.js")
            {
                call.Response.Headers.Remove("ETag");
                var list = await answer.Content.ReadAsStringAsync();
                await call.Response.OutputStream.WriteAsync(Encoding.UTF8.GetBytes(list.Replace("\"version\": \"", "\"version\": \"newer-", StringComparison.Ordinal)));
            }
            else
            {
                await answer.Content.CopyToAsync(call.Response.OutputStream);
            }

            call.Response.Close();
        }
        catch (Exception e) when (e is HttpListenerException or ObjectDisposedException or HttpRequestException or IOException or InvalidOperationException)
        {
            // The browser or the server hung up.
            call.Response.Abort();
        }
    }
}
