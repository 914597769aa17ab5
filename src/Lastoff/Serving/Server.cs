using System.Security.Cryptography.X509Certificates;
using Lastoff.Doors;
using Lastoff.Papers;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>The web server: the app's files and the workshop's endpoints.</summary>
public static class Server
{
    /// <summary>How much a device may send at once; it sends a long outbox in several pieces.</summary>
    public const int LargestBody = 4 * 1024 * 1024;

    // 'wasm-unsafe-eval' lets the browser compile the app's WebAssembly; no script from elsewhere, inline or evaluated, runs.
    private const string ContentSecurityPolicy =
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " +
        "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    /// <param name="backedUp">The folder to back up while the server runs; null when somebody else sees to that.</param>
    /// <param name="logsJson">Log what happens, one JSON object a line; otherwise only what goes wrong, in plain words.</param>
    /// <param name="certificate">For addresses with https; null when there are none.</param>
    /// <param name="authority">The workshop's own, to be trusted by its phones; null when there is none.</param>
    public static WebApplication Build(string urls, Workshop workshop, DataFolder? backedUp, bool logsJson, X509Certificate2? certificate = null, Authority? authority = null)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseUrls(urls);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = LargestBody;
            kestrel.ConfigureHttpsDefaults(https => https.ServerCertificate = certificate);
        });
        AddLogs(builder.Logging, logsJson);
        builder.Services.AddObserving();
        builder.Services.AddSingleton(TimeProvider.System).AddSingleton(workshop).AddSingleton<WorkshopPapers>().AddSingleton<CustomerYes>();
        builder.Services.AddDoors(workshop);
        if (backedUp is not null)
        {
            builder.Services.AddSingleton(backedUp).AddHostedService<HourlyBackup>();
        }

        // A map's text packs to a tenth and holds no secret that its length could give away; answers that may hold one go as they are.
        builder.Services.AddResponseCompression(packed =>
        {
            packed.EnableForHttps = true;
            packed.MimeTypes = [MapEndpoints.Yaml];
        });
        var app = builder.Build();
        app.UseResponseCompression();
        app.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = ContentSecurityPolicy;
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            context.Response.Headers["Cross-Origin-Opener-Policy"] = "same-origin";
            context.Response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
            context.Response.Headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=(), payment=(), usb=()";
            if (context.Request.Path.StartsWithSegments("/api") || context.Request.Path.StartsWithSegments("/record"))
            {
                context.Response.Headers.CacheControl = "no-store";
            }

            return next(context);
        });
        app.UseAwayAnswer(workshop.Database, app.Logger);
        app.UseDoors();
        app.MapHealth(workshop);
        if (authority is not null)
        {
            app.MapTrust(authority);
        }

        app.MapCustomerRecord();
        var api = app.MapGroup("/api");
        api.MapEnter();
        api.MapPeople();
        api.MapCustomerLinks();
        var inside = api.MapGroup("").RequireAuthorization(DoorSetup.Inside);
        inside.MapMaps(workshop.Maps);
        inside.MapSettings(workshop.Settings);
        inside.MapJobs(workshop);
        inside.MapPapers();
        inside.MapPhotos(workshop.Photos);
        api.MapBackups(backedUp);
        inside.MapLive(workshop.News, app.Lifetime.ApplicationStopping);
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
        // That the signing keys lie in the records as they are was decided; it need not be told at every start.
        logs.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        if (isJson)
        {
            logs.ClearProviders().AddJsonConsole();
            logs.AddFilter("Lastoff", LogLevel.Information);
            logs.AddFilter("Microsoft.Hosting.Lifetime", LogLevel.Information);
        }
    }
}
