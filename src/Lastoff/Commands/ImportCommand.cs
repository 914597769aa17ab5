using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff import DIR-or-FILE</c>: takes a whole workshop in. Nothing is taken while anything in it is broken; taking it again changes nothing.</summary>
internal static class ImportCommand
{
    private const int EntriesAtOnce = 1000;

    private static readonly Argument<string> Origin = new("ORIGIN") { Description = "A folder or ZIP file that `lastoff export` wrote." };

    private static readonly Option<bool> ReplaceMaps = new("--replace-maps") { Description = "Take a map even where another text is here under its name." };

    public static Command Build()
    {
        var command = new Command("import", "Take in a whole workshop that was exported.") { Origin, ReplaceMaps, Output.Json };
        StoreOptions.AddTo(command);
        command.SetAction((parsed, _) => StoreOptions.RunAsync("The import is not whole", () => ImportAsync(parsed)));
        return command;
    }

    private static async Task<int> ImportAsync(ParseResult parsed)
    {
        var origin = parsed.GetValue(Origin)!;
        var files = Bundle.Read(origin);
        if (files.Count == 0)
        {
            throw new Failure($"{origin}: there is no map and no ledger in it; give what `lastoff export` wrote.");
        }

        var maps = files.Where(file => file.Path.EndsWith(Bundle.MapEnding, StringComparison.Ordinal)).Select(file => (Name: NameOf(file), file.Text)).ToList();
        var ledgers = files.Where(file => file.Path.EndsWith(Bundle.LedgerEnding, StringComparison.Ordinal)).Select(file => (file.Path, Entries: EntriesOf(file))).ToList();
        var texts = TextsOf(files);
        var settings = files.Select(file => (Name: Bundle.SettingOf(file.Path), file.Path, file.Text)).Where(file => file.Name is not null).ToList();
        if (settings.Select(file => (file.Path, Fault: Settings.Fault(file.Name!, file.Text))).FirstOrDefault(file => file.Fault is not null) is { Fault: { } fault } wrong)
        {
            throw new Failure($"{wrong.Path}: {fault}");
        }

        var folder = StoreOptions.Folder(parsed, mustExist: false);
        await using var workshop = StoreOptions.Open(parsed, folder);
        if (!parsed.GetValue(ReplaceMaps) && maps.Find(map => workshop.Maps.Text(map.Name) is { } here && here != map.Text) is { Name: { } other })
        {
            throw new Failure($"{origin}: the map “{other}” is here with another text; give --replace-maps to take the one that comes, or take it out of {origin}.");
        }

        foreach (var text in texts)
        {
            workshop.Maps.Keep(text);
        }

        // Terms and prices that are set here already stay.
        foreach (var (name, _, text) in settings)
        {
            workshop.Settings.Save(name!, text, 0);
        }

        var fresh = maps.Where(map => workshop.Maps.Text(map.Name) != map.Text).ToList();
        foreach (var (name, text) in fresh)
        {
            workshop.Maps.Keep(name, text);
        }

        var before = workshop.Entries.Jobs().Jobs.Sum(job => job.Entries);
        foreach (var (path, entries) in ledgers)
        {
            foreach (var piece in entries.Chunk(EntriesAtOnce))
            {
                var receipt = await workshop.Entries.TakeAsync(entries[0].Id, piece.Select(entry => entry.Line));
                if (receipt.Refused is [var refused, ..])
                {
                    throw new Failure($"{path}: entry {refused.Id} is not taken. {refused.Why} What was taken before it stays; mend this and import again.");
                }
            }
        }

        var photos = 0;
        foreach (var (name, bytes) in Bundle.Photos(origin))
        {
            photos += Take(workshop.Photos, name, bytes) ? 1 : 0;
        }

        var more = workshop.Entries.Jobs().Jobs.Sum(job => job.Entries) - before;
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject { ["maps"] = fresh.Count, ["jobs"] = ledgers.Count, ["entries"] = more, ["photo_files"] = photos });
        }
        else
        {
            Console.WriteLine($"New here: {fresh.Count} maps, {more} entries, {photos} photo files. {ledgers.Count} jobs were looked through.");
        }

        return 0;
    }

    /// <summary>True when the photo was not here.</summary>
    private static bool Take(PhotoLibrary photos, string file, byte[] bytes)
    {
        var hash = Path.GetFileNameWithoutExtension(file);
        if (photos.Has(hash))
        {
            return false;
        }

        try
        {
            photos.Keep(hash, bytes);
            return true;
        }
        catch (InvalidDataException e)
        {
            throw new Failure($"{file}: {e.Message} What was taken before it stays; take the file out and import again.");
        }
    }

    /// <summary>The texts that jobs stand on, each what its name says, with what the list beside them says of it.</summary>
    private static List<SavedText> TextsOf(IReadOnlyList<(string Path, string Text)> files)
    {
        var list = new Dictionary<string, JsonNode>();
        foreach (var (path, lines) in files.Where(file => Bundle.IsTexts(file.Path)))
        {
            foreach (var line in lines.Split('\n', StringSplitOptions.RemoveEmptyEntries))
            {
                try
                {
                    var said = JsonNode.Parse(line)!;
                    list[(string)said["sha256"]!] = said;
                }
                catch (Exception e) when (e is System.Text.Json.JsonException or InvalidOperationException or ArgumentNullException or NullReferenceException)
                {
                    throw new Failure($"{path}: a line in it does not say of which text it is; restore the file from where it was exported.");
                }
            }
        }

        return [.. files.Where(file => Bundle.IsText(file.Path)).Select(file => TextOf(file, list))];
    }

    private static SavedText TextOf((string Path, string Text) file, Dictionary<string, JsonNode> list)
    {
        var hash = Path.GetFileNameWithoutExtension(file.Path);
        if (Entry.Sha256(file.Text) != hash)
        {
            throw new Failure($"{file.Path}: the text in it is not the one of this SHA-256; restore the file from where it was exported.");
        }

        try
        {
            return list.GetValueOrDefault(hash) is { } said && (string?)said["map"] is { } map && MapLibrary.IsName(map)
                ? new SavedText(hash, map, file.Text, (string?)said["saved_by"] ?? "", (DateTimeOffset)said["saved_at"]!, (string?)said["edited_from"])
                : throw new Failure($"{file.Path}: {Bundle.TextsPath} does not say of which map this is a text; restore the files from where they were exported.");
        }
        catch (Exception e) when (e is FormatException or InvalidOperationException or ArgumentNullException or NullReferenceException)
        {
            throw new Failure($"{file.Path}: what {Bundle.TextsPath} says of it cannot be read; restore the files from where they were exported.");
        }
    }

    private static string NameOf((string Path, string Text) file)
    {
        var reading = MapReader.Read(file.Text, file.Path);
        if (reading.Map is not { } map)
        {
            throw new Failure(reading.Describe(reading.Faults[0]));
        }

        return Path.GetFileName(file.Path) == map.Name + Bundle.MapEnding
            ? map.Name
            : throw new Failure($"{file.Path}: the map in it is named “{map.Name}”; name the file {map.Name}{Bundle.MapEnding}.");
    }

    private static IReadOnlyList<Entry> EntriesOf((string Path, string Text) file)
    {
        var reading = LedgerFile.Read(file.Text, file.Path);
        if (reading.Fault is not null)
        {
            throw new Failure(reading.Fault);
        }

        var entries = reading.Entries;
        return ActKinds.Read(entries[0], out _) is not JobOpened ? throw new Failure($"{file.Path}, line 1: a ledger begins with the entry that opens its job; restore the file from where it was exported.")
            : entries.Any(entry => entry.Seal is null) ? throw new Failure($"{file.Path}: entry {entries[0].Id} has no seal, so it cannot be trusted; import ledgers that Lastoff wrote.")
            : entries;
    }
}
