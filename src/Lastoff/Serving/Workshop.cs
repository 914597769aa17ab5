using System.Text.Json;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Serving;

/// <summary>A job that waits in the invented workshop at the first start.</summary>
public sealed record DemoJob(string Map, string Machine, string Complaint, string Cause, IReadOnlyList<string> Off);

/// <summary>One workshop: its maps and entries, in its data folder.</summary>
public sealed class Workshop
{
    private Workshop(MapLibrary maps, EntryStore entries)
    {
        Maps = maps;
        Entries = entries;
    }

    public MapLibrary Maps { get; }
    public EntryStore Entries { get; }

    /// <param name="dataFolder">Made when it is not there.</param>
    /// <param name="demoFolder">An invented workshop to begin with when the data folder is new, or null.</param>
    public static Workshop Open(string dataFolder, string? demoFolder)
    {
        var maps = Path.Combine(dataFolder, "maps");
        var store = Path.Combine(dataFolder, "lastoff.db");
        Directory.CreateDirectory(maps);
        var workshop = new Workshop(new MapLibrary(maps), new EntryStore(store));
        if (demoFolder is not null && workshop.Entries.Jobs().Count == 0)
        {
            workshop.MoveIn(demoFolder, maps);
        }

        return workshop;
    }

    private void MoveIn(string demoFolder, string maps)
    {
        foreach (var file in Directory.EnumerateFiles(demoFolder, "*.map.yaml"))
        {
            File.Copy(file, Path.Combine(maps, Path.GetFileName(file)), overwrite: true);
        }

        var jobs = JsonSerializer.Deserialize<List<DemoJob>>(File.ReadAllText(Path.Combine(demoFolder, "jobs.json")), JsonSerializerOptions.Web) ?? [];
        var opened = jobs.Select(job => Opened(demoFolder, job)).ToList();
        foreach (var entry in opened)
        {
            Entries.Take(entry.Id, [entry.Line]);
        }
    }

    private Entry Opened(string demoFolder, DemoJob job)
    {
        var map = MapReader.Read(Maps.Text(job.Map) ?? "", job.Map).Map
            ?? throw new InvalidDataException($"{demoFolder}/jobs.json: there is no map “{job.Map}” beside it; add the map or correct the name.");
        var pen = new Pen("demo", "Lastoff", DateTimeOffset.Now, Guid.CreateVersion7().ToByteArray()[6..]);
        var decision = Job.From(OperationNet.From(map), []).Decide(new JobOpened(job.Map, job.Machine, job.Complaint, job.Cause, job.Off, []), pen);
        return decision.Entry ?? throw new InvalidDataException($"{demoFolder}/jobs.json: {decision.Refusal!.Sentence}");
    }
}
