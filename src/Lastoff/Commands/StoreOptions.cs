using System.CommandLine;
using System.Data.Common;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary>Where a workshop's records are: a data folder, or a workshop in a PostgreSQL database.</summary>
internal static class StoreOptions
{
    public static Option<string> Data { get; } = new("--data")
    {
        Description = "The folder of the workshop's maps and records.",
        DefaultValueFactory = _ => Path.Combine(
            Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "lastoff"),
    };

    public static Option<string?> Postgres { get; } = new("--postgres")
    {
        Description = "A PostgreSQL database instead of the folder, as \"Host=…;Database=…;Username=…\"; the password may stand in PGPASSWORD or in a password file.",
    };

    public static Option<string> Workshop { get; } = new("--workshop")
    {
        Description = "Which workshop in the PostgreSQL database.",
        DefaultValueFactory = _ => "workshop",
    };

    public static void AddTo(Command command)
    {
        command.Options.Add(Data);
        command.Options.Add(Postgres);
        command.Options.Add(Workshop);
    }

    /// <summary>The folder, or null when the records are in PostgreSQL.</summary>
    /// <exception cref="Failure">The options do not say one place.</exception>
    public static DataFolder? Folder(ParseResult parsed, bool mustExist)
    {
        if (parsed.GetValue(Postgres) is not null)
        {
            return parsed.GetResult(Data) is { Implicit: false }
                ? throw new Failure("--data and --postgres name two places for the records; give one of them.")
                : null;
        }

        if (parsed.GetResult(Workshop) is { Implicit: false })
        {
            throw new Failure("--workshop chooses a workshop in a PostgreSQL database; give --postgres with it, or leave it out.");
        }

        var path = parsed.GetValue(Data)!;
        if (string.IsNullOrWhiteSpace(path))
        {
            throw new Failure("--data: name the folder of the workshop's records, or leave the option out.");
        }

        if (mustExist && !File.Exists(Path.Combine(path, "lastoff.db")))
        {
            throw new Failure($"{path}: there are no records in this folder (no lastoff.db); give the folder that `lastoff serve --data` has.");
        }

        return new DataFolder(path);
    }

    /// <param name="folder">As <see cref="Folder"/> gave it.</param>
    /// <exception cref="Failure">It is no connection string, or the name is none.</exception>
    public static Workshop Open(ParseResult parsed, DataFolder? folder)
    {
        if (folder is not null)
        {
            return Storing.Workshop.Open(folder);
        }

        var name = parsed.GetValue(Workshop)!;
        if (string.IsNullOrWhiteSpace(name) || name.Length > 100 || name.Any(char.IsControl))
        {
            throw new Failure("--workshop: a workshop has a name of at most 100 letters.");
        }

        PostgresDatabase database;
        try
        {
            database = new PostgresDatabase(parsed.GetValue(Postgres)!);
        }
        catch (ArgumentException e)
        {
            throw new Failure($"--postgres: this does not say how to reach a database ({e.Message.ReplaceLineEndings(" ").TrimEnd('.')}); write it like \"Host=localhost;Database=lastoff;Username=lastoff\".");
        }

        return Storing.Workshop.Open(database, name);
    }

    /// <summary>Does what needs the records; when they cannot be had, that is one sentence.</summary>
    public static async Task<int> RunAsync(string what, Func<Task<int>> work)
    {
        try
        {
            return await work();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or DbException or InvalidDataException or TimeoutException or StoreAwayException or System.Text.Json.JsonException)
        {
            throw new Failure($"{what}: {e.Message.ReplaceLineEndings(" ").TrimEnd('.')}.");
        }
    }
}
