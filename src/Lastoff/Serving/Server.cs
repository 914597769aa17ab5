namespace Lastoff.Serving;

/// <summary>The web server: the app's files and the workshop's endpoints.</summary>
public static class Server
{
    // 'wasm-unsafe-eval' lets the browser compile the app's WebAssembly; no script from elsewhere, inline or evaluated, runs.
    private const string ContentSecurityPolicy =
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; " +
        "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public static WebApplication Build(string urls, Workshop workshop)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseUrls(urls);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = Endpoints.LargestBody;
        });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // A start that fails is told in one sentence by the command; the host need not tell it again.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);

        var app = builder.Build();
        app.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = ContentSecurityPolicy;
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            return next(context);
        });
        app.MapWorkshop(workshop);
        app.MapStaticAssets();
        app.MapFallbackToFile("index.html");
        return app;
    }
}
