using System.CommandLine;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Lastoff.Doors;
using Lastoff.Serving;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff serve</c>, and <c>lastoff</c> alone: serves the app to the browsers of the workshop.</summary>
internal static class ServeCommand
{
    private static readonly Option<string> Urls = new("--urls")
    {
        Description = "Where to listen.",
        DefaultValueFactory = _ => "http://localhost:5210",
    };

    private static readonly Option<string?> Demo = new("--demo")
    {
        Description = "A folder with an invented workshop, moved in when there is no job yet.",
    };

    private static readonly Option<string> Log = new("--log")
    {
        Description = "plain: what goes wrong, in words. json: all that happens, one JSON object a line.",
        DefaultValueFactory = _ => "plain",
    };

    private static readonly Option<string?> Certificate = new("--certificate")
    {
        Description = "For https addresses: a file with the certificate and its key, in PEM. Left out, the workshop vouches for itself and shows how phones come to trust it.",
    };

    public static Command Build()
    {
        var command = new Command("serve", "Serve the app to the browsers of the workshop.");
        AddTo(command);
        return command;
    }

    public static void AddTo(Command command)
    {
        command.Options.Add(Urls);
        StoreOptions.AddTo(command);
        command.Options.Add(Demo);
        command.Options.Add(Certificate);
        command.Options.Add(Log.AcceptOnlyFromAmong("plain", "json"));
        command.SetAction((parsed, stop) => Serve(parsed, stop));
    }

    private static async Task<int> Serve(ParseResult parsed, CancellationToken stop)
    {
        var urls = parsed.GetValue(Urls)!;
        if (!urls.Split(';').All(url => Uri.TryCreate(url, UriKind.Absolute, out var uri) && uri is { Scheme: "http" or "https", PathAndQuery: "/" }))
        {
            throw new Failure($"--urls {urls}: this is not an address to listen on; write it like http://localhost:5210 or https://0.0.0.0:5211.");
        }

        return await StoreOptions.RunAsync($"Lastoff cannot start on {urls}", async () =>
        {
            var folder = StoreOptions.Folder(parsed, mustExist: false);
            using var claim = folder?.Claim();
            await using var workshop = StoreOptions.Open(parsed, folder);
            if (parsed.GetValue(Demo) is { } demo)
            {
                await DemoWorkshop.MoveIntoAsync(workshop, demo);
            }

            var isHttps = urls.Contains("https://", StringComparison.OrdinalIgnoreCase);
            var authority = isHttps && folder is not null && parsed.GetValue(Certificate) is null ? Authority.Of(folder.Path, DateTimeOffset.UtcNow) : null;
            using var certificate = isHttps ? authority?.ForThisMachine(DateTimeOffset.UtcNow) ?? Given(parsed.GetValue(Certificate)) : null;
            await using var server = Server.Build(urls, workshop, folder, logsJson: parsed.GetValue(Log) == "json", certificate, authority);
            await server.StartAsync(stop);
            await server.CallItselfAsync(stop);
            if (authority is not null)
            {
                Console.WriteLine($"Phones come to trust it on the page /trust; compare there: {authority.Fingerprint}");
            }

            Console.WriteLine($"Lastoff is ready on {string.Join(" and ", server.Urls)}, with its records in {Place(workshop, folder)}. Ctrl+C stops it.");
            await server.WaitForShutdownAsync(stop);
            return 0;
        });
    }

    private static X509Certificate2 Given(string? file)
    {
        if (file is null)
        {
            throw new Failure("--certificate: several servers on one database cannot vouch for themselves; give a certificate for the https address.");
        }

        try
        {
            using var read = X509Certificate2.CreateFromPemFile(file);
            // Servers on some systems only take a key that was read from a file.
            return X509CertificateLoader.LoadPkcs12(read.Export(X509ContentType.Pkcs12), null);
        }
        catch (Exception e) when (e is CryptographicException or IOException or UnauthorizedAccessException)
        {
            throw new Failure($"--certificate {file}: this is no certificate with its key in PEM ({e.Message.TrimEnd('.')}); give a file that holds both.");
        }
    }

    private static string Place(Workshop workshop, DataFolder? folder) => folder is null ? workshop.Database.Where : Path.GetFullPath(folder.Path);
}
