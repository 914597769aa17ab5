using System.Net;

namespace Lastoff.Doors;

/// <summary>How a phone comes to trust the workshop's own authority. Served without HTTPS too: whoever reads it has none yet.</summary>
internal static class TrustEndpoints
{
    public static void MapTrust(this IEndpointRouteBuilder routes, Authority authority)
    {
        routes.MapGet("/trust", () => Results.Content(Page(authority), "text/html; charset=utf-8"));
        routes.MapGet("/trust/authority.crt", () => Results.File(authority.Certificate, "application/x-x509-ca-cert", "lastoff-authority.crt"));
    }

    private static string Page(Authority authority) => $"""
        <!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
        <title>Trust this workshop</title><link rel="stylesheet" href="/css/record.css"></head>
        <body><main><h1>Trust this workshop</h1>
        <p>The workshop's server vouches for itself. Once this phone knows its certificate, the app opens over HTTPS and works offline.</p>
        <ol>
        <li>Compare this with what stands on the screen where Lastoff was started:<br><code>{WebUtility.HtmlEncode(authority.Fingerprint)}</code><br>If a single letter differs, stop.</li>
        <li><a href="/trust/authority.crt">Get the certificate</a>.</li>
        <li>Android: open Settings, search for “CA certificate”, and install the file as one.</li>
        <li>iPhone, iPad: open Settings, install the profile that was downloaded. Then, under General, About, Certificate Trust Settings, switch it on.</li>
        <li>Open the workshop's address again, beginning with https://.</li>
        </ol>
        <p>A phone that trusts it takes this workshop's server for what it says it is. Take it out again when the phone leaves the workshop.</p>
        </main></body></html>
        """;
}
