using System.CommandLine;
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
        command.Options.Add(Log.AcceptOnlyFromAmong("plain", "json"));
        command.SetAction((parsed, stop) => Serve(parsed, stop));
    }

    private static async Task<int> Serve(ParseResult parsed, CancellationToken stop)
    {
        var urls = parsed.GetValue(Urls)!;
        if (!urls.Split(';').All(url => Uri.TryCreate(url, UriKind.Absolute, out var uri) && uri is { Scheme: "http", PathAndQuery: "/" }))
        {
            throw new Failure($"--urls {urls}: this is not an address to listen on; write it like http://localhost:5210, and put a server that does HTTPS before it.");
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

            await using var server = Server.Build(urls, workshop, folder, logsJson: parsed.GetValue(Log) == "json");
            await server.StartAsync(stop);
            Console.WriteLine($"Lastoff is ready on {string.Join(" and ", server.Urls)}, with its records in {Place(workshop, folder)}. Ctrl+C stops it.");
            await server.WaitForShutdownAsync(stop);
            return 0;
        });
    }

    private static string Place(Workshop workshop, DataFolder? folder) => folder is null ? workshop.Database.Where : Path.GetFullPath(folder.Path);
}
