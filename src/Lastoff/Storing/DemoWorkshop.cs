using System.Text.Json;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Storing;

/// <summary>A job that waits in the invented workshop at the first start.</summary>
public sealed record DemoJob(string Map, string Machine, string Complaint, string Cause, IReadOnlyList<string> Off);

/// <summary>An invented workshop to begin with.</summary>
public static class DemoWorkshop
{
    private const string RecordingEnding = ".recording.jsonl";

    /// <summary>Moves it into a workshop that has no job yet.</summary>
    /// <param name="folder">Its maps, its <c>jobs.json</c>, its <c>price-terms.json</c> and <c>price-list.json</c>, and its recordings.</param>
    /// <exception cref="InvalidDataException">The folder does not fit together.</exception>
    public static async Task MoveIntoAsync(Workshop workshop, string folder)
    {
        if (workshop.Entries.Jobs().Jobs.Count > 0)
        {
            return;
        }

        foreach (var file in Directory.EnumerateFiles(folder, "*" + Bundle.MapEnding))
        {
            workshop.Maps.Keep(Path.GetFileName(file)[..^Bundle.MapEnding.Length], await File.ReadAllTextAsync(file));
        }

        foreach (var (name, file) in new[] { (Settings.Terms, "price-terms.json"), (Settings.Prices, "price-list.json") })
        {
            var text = await File.ReadAllTextAsync(Path.Combine(folder, file));
            if (Settings.Fault(name, text) is { } fault)
            {
                throw new InvalidDataException($"{folder}/{file}: {fault}");
            }

            workshop.Settings.Save(name, text, 0);
        }

        var jobs = JsonSerializer.Deserialize<List<DemoJob>>(await File.ReadAllTextAsync(Path.Combine(folder, "jobs.json")), JsonSerializerOptions.Web) ?? [];
        var opened = jobs.Select(job => Opened(workshop, folder, job)).ToList();
        foreach (var entry in opened)
        {
            await workshop.Entries.TakeAsync(entry.Id, [entry.Line]);
        }

        foreach (var file in Directory.EnumerateFiles(folder, "*" + RecordingEnding).Order(StringComparer.Ordinal))
        {
            var receipt = await workshop.Entries.TakeAsync(Recorded(file, out var lines), lines);
            if (receipt.Refused.Count > 0)
            {
                throw new InvalidDataException($"{file}: {receipt.Refused[0].Why}");
            }
        }
    }

    /// <summary>The job that a recording is the ledger of: it has the identifier of the entry that opens it.</summary>
    private static Guid Recorded(string file, out IReadOnlyList<string> lines)
    {
        var read = LedgerFile.Read(File.ReadAllText(file), file);
        lines = [.. read.Entries.Select(entry => entry.Line)];
        return read.Fault is null && read.Entries.Count > 0 ? read.Entries[0].Id : throw new InvalidDataException(read.Fault ?? $"{file}: it has no entries; leave it out.");
    }

    private static Entry Opened(Workshop workshop, string folder, DemoJob job)
    {
        var text = workshop.Maps.Text(job.Map) ?? "";
        var map = MapReader.Read(text, job.Map).Map
            ?? throw new InvalidDataException($"{folder}/jobs.json: there is no map “{job.Map}” beside it; add the map or correct the name.");
        var pen = new Pen("demo", "Lastoff", DateTimeOffset.Now, Guid.CreateVersion7().ToByteArray()[6..]);
        var opening = new JobOpened(job.Map, job.Machine, job.Complaint, job.Cause, job.Off, []) { MapSha256 = Entry.Sha256(text) };
        var decision = Job.From(OperationNet.From(map), []).Decide(opening, pen);
        return decision.Entry ?? throw new InvalidDataException($"{folder}/jobs.json: {decision.Refusal!.Sentence}");
    }
}
