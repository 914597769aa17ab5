using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff export DIR-or-FILE</c>: a whole workshop as files.</summary>
internal static class ExportCommand
{
    private static readonly Argument<string> Target = new("TARGET") { Description = "A folder, or a file that ends in .zip." };

    public static Command Build()
    {
        var command = new Command("export", "Write a whole workshop as files: its maps, one ledger for each job, and its photos.") { Target, Output.Json };
        StoreOptions.AddTo(command);
        command.SetAction((parsed, _) => StoreOptions.RunAsync("Nothing whole was exported", () => ExportAsync(parsed)));
        return command;
    }

    private static async Task<int> ExportAsync(ParseResult parsed)
    {
        var target = parsed.GetValue(Target)!;
        if (string.IsNullOrWhiteSpace(target))
        {
            throw new Failure("Name a folder, or a file that ends in .zip, to export to.");
        }

        var folder = StoreOptions.Folder(parsed, mustExist: true);
        await using var workshop = StoreOptions.Open(parsed, folder);
        using var records = new Snapshot(workshop);
        if (Verification.Of(records).Fault is { } fault)
        {
            throw new Failure(fault);
        }

        var photos = PhotoVerification.Of(records, workshop.Photos);
        if ((MapVerification.Of(records).Fault ?? photos.Fault) is { } broken)
        {
            throw new Failure(broken);
        }

        var maps = workshop.Maps.All().ToList();
        var texts = records.MapTexts().ToList();
        var jobs = records.Jobs;
        Bundle.Write(target, maps.Select(map => (Bundle.MapPath(map.Name), Bundle.Bytes(map.Text)))
            .Concat(texts.Select(text => (Bundle.TextPath(text.Hash), Bundle.Bytes(text.Yaml))))
            .Append((Bundle.TextsPath, Bundle.Bytes(string.Concat(texts.Select(text => ToJson(text).ToJsonString() + "\n")))))
            .Concat(jobs.Select(job => (Bundle.LedgerPath(job.Id), Bundle.Bytes(string.Concat(records.Lines(job.Id).Select(stored => stored.Line + "\n"))))))
            .Concat(from name in Settings.Names let setting = workshop.Settings.Find(name) where setting.Version > 0 select (Bundle.SettingPath(name), Bundle.Bytes(setting.Text)))
            .Concat(photos.Here.Select(hash => (Bundle.PhotoPath(hash), workshop.Photos.Find(hash)!))));
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject { ["target"] = target, ["maps"] = maps.Count, ["map_texts"] = texts.Count, ["jobs"] = jobs.Count, ["entries"] = jobs.Sum(job => job.Entries), ["photo_files"] = photos.Here.Count, ["photo_files_away"] = photos.Away });
        }
        else
        {
            Console.WriteLine($"{maps.Count} maps with {texts.Count} texts and {jobs.Count} jobs with {jobs.Sum(job => job.Entries)} entries are in {target}. Photo files: {photos.Here.Count}{(photos.Away > 0 ? $", and {photos.Away} more that are named and not here" : "")}.");
        }

        return 0;
    }

    private static JsonObject ToJson(SavedText text) => new()
    {
        ["sha256"] = text.Hash,
        ["map"] = text.Name,
        ["saved_by"] = text.By,
        ["saved_at"] = text.At,
        ["edited_from"] = text.EditedFrom,
    };
}
