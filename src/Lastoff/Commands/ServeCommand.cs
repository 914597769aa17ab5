using System.CommandLine;
using System.Text.Json;
using Lastoff.Serving;
using Microsoft.Data.Sqlite;

namespace Lastoff.Commands;

/// <summary><c>lastoff serve</c>, and <c>lastoff</c> alone: serves the app to the browsers of the workshop.</summary>
internal static class ServeCommand
{
    private static readonly Option<string> Urls = new("--urls")
    {
        Description = "Where to listen.",
        DefaultValueFactory = _ => "http://localhost:5210",
    };

    private static readonly Option<string> Data = new("--data")
    {
        Description = "The folder of the workshop's maps and records; made when it is not there.",
        DefaultValueFactory = _ => Path.Combine(
            Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "lastoff"),
    };

    private static readonly Option<string?> Demo = new("--demo")
    {
        Description = "A folder with an invented workshop, moved in when the data folder is new.",
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
        command.Options.Add(Data);
        command.Options.Add(Demo);
        command.SetAction((parsed, stop) => Serve(parsed.GetValue(Urls)!, parsed.GetValue(Data)!, parsed.GetValue(Demo), stop));
    }

    private static async Task<int> Serve(string urls, string data, string? demo, CancellationToken stop)
    {
        if (!urls.Split(';').All(url => Uri.TryCreate(url, UriKind.Absolute, out var uri) && uri is { Scheme: "http", PathAndQuery: "/" }))
        {
            throw new Failure($"--urls {urls}: this is not an address to listen on; write it like http://localhost:5210, and put a server that does HTTPS before it.");
        }

        if (string.IsNullOrWhiteSpace(data))
        {
            throw new Failure("--data: name the folder of the workshop's records, or leave the option out.");
        }

        try
        {
            await using var server = Server.Build(urls, Workshop.Open(data, demo));
            await server.StartAsync(stop);
            Console.WriteLine($"Lastoff is ready on {string.Join(" and ", server.Urls)}, with its records in {Path.GetFullPath(data)}. Ctrl+C stops it.");
            await server.WaitForShutdownAsync(stop);
            return 0;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SqliteException or InvalidDataException or JsonException)
        {
            throw new Failure($"Lastoff cannot start on {urls} with its records in {data}: {e.Message.TrimEnd('.')}.");
        }
    }
}
