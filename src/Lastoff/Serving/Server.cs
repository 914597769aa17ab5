using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>The web server: the app's files and the workshop's endpoints.</summary>
public static class Server
{
    /// <summary>How much a device may send at once; it sends a long outbox in several pieces.</summary>
    public const int LargestBody = 4 * 1024 * 1024;

    // 'wasm-unsafe-eval' lets the browser compile the app's WebAssembly; no script from elsewhere, inline or evaluated, runs.
    private const string ContentSecurityPolicy =
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; " +
        "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    /// <param name="backedUp">The folder to back up while the server runs; null when somebody else sees to that.</param>
    /// <param name="logsJson">Log what happens, one JSON object a line; otherwise only what goes wrong, in plain words.</param>
    public static WebApplication Build(string urls, Workshop workshop, DataFolder? backedUp, bool logsJson)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseUrls(urls);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = LargestBody;
        });
        AddLogs(builder.Logging, logsJson);
        builder.Services.AddObserving();
        if (backedUp is not null)
        {
            builder.Services.AddSingleton(backedUp).AddHostedService<HourlyBackup>();
        }

        var app = builder.Build();
        app.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = ContentSecurityPolicy;
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            return next(context);
        });
        app.UseAwayAnswer(workshop.Database, app.Logger);
        app.MapHealth(workshop);
        var api = app.MapGroup("/api");
        api.MapMaps(workshop.Maps);
        api.MapJobs(workshop);
        api.MapLive(workshop.News, app.Lifetime.ApplicationStopping);
        api.MapFallback(() => Results.NotFound());
        app.MapStaticAssets();
        app.MapFallbackToFile("index.html");
        return app;
    }

    private static void AddLogs(ILoggingBuilder logs, bool isJson)
    {
        logs.SetMinimumLevel(LogLevel.Warning);
        // A start that fails is told in one sentence by the command; the host need not tell it again.
        logs.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        if (isJson)
        {
            logs.ClearProviders().AddJsonConsole();
            logs.AddFilter("Lastoff", LogLevel.Information);
            logs.AddFilter("Microsoft.Hosting.Lifetime", LogLevel.Information);
        }
    }
}
