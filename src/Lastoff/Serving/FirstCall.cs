namespace Lastoff.Serving;

/// <summary>The first call of a server costs what all later ones are spared: finding its way among all its addresses, and much that is compiled. The server makes it itself.</summary>
internal static class FirstCall
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    /// <summary>Calls the server that was started, as a device would.</summary>
    public static async Task CallItselfAsync(this WebApplication server, CancellationToken stop)
    {
        // Its own certificate is made for other names, and nothing is sent that anybody could want.
        using var handler = new SocketsHttpHandler { UseProxy = false, SslOptions = { RemoteCertificateValidationCallback = (_, _, _, _) => true } };
        using var client = new HttpClient(handler) { Timeout = Patience };
        var address = BindingAddress.Parse(server.Urls.First());
        try
        {
            foreach (var path in (string[])["health", "api/jobs"])
            {
                using var answer = await client.GetAsync(new Uri($"{address.Scheme}://localhost:{address.Port}/{path}"), stop);
            }
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
        {
            // It listens elsewhere only, or is being stopped; then a device makes the first call.
        }
    }
}
