using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff restore [BACKUP]</c>: brings a backup back into a data folder, or lists those there are.</summary>
internal static class RestoreCommand
{
    private static readonly Argument<string?> Backup = new("BACKUP") { Description = "The file of the backup; without it the backups are listed.", Arity = ArgumentArity.ZeroOrOne };

    private static readonly Option<bool> Look = new("--look") { Description = "Only say what would be lost." };

    public static Command Build()
    {
        var command = new Command("restore", "Bring a backup of the records back. The present file is kept aside.") { Backup, Look, Output.Json };
        StoreOptions.AddTo(command);
        command.SetAction((parsed, _) => StoreOptions.RunAsync("Nothing was brought back", () => Task.FromResult(Restore(parsed))));
        return command;
    }

    private static int Restore(ParseResult parsed)
    {
        if (parsed.GetValue(StoreOptions.Postgres) is null && !Directory.Exists(parsed.GetValue(StoreOptions.Data)))
        {
            throw new Failure($"{parsed.GetValue(StoreOptions.Data)}: there is no such folder; give the folder that `lastoff serve --data` has.");
        }

        var folder = StoreOptions.Folder(parsed, mustExist: false)
            ?? throw new Failure("--postgres: PostgreSQL brings its own backups back (pg_restore, or its archive); the devices find out and send again what is missing.");
        if (parsed.GetValue(Backup) is not { } backup)
        {
            return List(folder, parsed.GetValue(Output.Json));
        }

        var isTrial = parsed.GetValue(Look);
        var restored = Restoring.Restore(folder, backup, isTrial);
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["backup"] = backup,
                ["restored"] = !isTrial,
                ["readable"] = restored.Lost is not null,
                ["lost"] = Output.List(restored.Lost ?? [], lost => new JsonObject { ["job"] = lost.Job.ToString(), ["entries"] = lost.Entries }),
                ["aside"] = restored.Aside,
            });
            return 0;
        }

        foreach (var sentence in Sentences(restored, isTrial))
        {
            Console.WriteLine(sentence);
        }

        return 0;
    }

    private static IEnumerable<string> Sentences(Restored restored, bool isTrial)
    {
        if (restored.Lost is not { } lost)
        {
            yield return "The present file cannot be read, so what it has and the backup has not is not known.";
        }
        else if (lost.Count == 0)
        {
            yield return "The backup has every entry of the present file.";
        }
        else
        {
            yield return $"{lost.Sum(l => l.Entries)} entries of the present file are not in the backup:";
            foreach (var job in lost)
            {
                yield return $"  {job.Entries} of job {job.Job}";
            }
        }

        if (isTrial)
        {
            yield return "Nothing was changed; without --look the backup is brought back.";
            yield break;
        }

        yield return restored.Aside is null ? "The backup is brought back." : $"The backup is brought back; the file that was there is kept as {restored.Aside}.";
        yield return "Devices that still have what is missing send it again by themselves.";
    }

    private static int List(DataFolder folder, bool json)
    {
        if (json)
        {
            Output.Write(new JsonObject { ["backups"] = Output.List(folder.Backups(), file => JsonValue.Create(file)) });
            return 0;
        }

        Console.WriteLine(folder.Backups().Count == 0 ? $"There is no backup in {folder.BackupFolder}." : "Newest first:");
        foreach (var file in folder.Backups())
        {
            Console.WriteLine($"  {file}");
        }

        return 0;
    }
}
