using System.Text.Json;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Device;

/// <summary>The device's own record of jobs, entries and maps. What a call has kept is on the disk when it returns.</summary>
public sealed class Store
{
    private const string ServerName = "server";

    /// <summary>A job got entries, from another tab of this device or from the server.</summary>
    public event Action<Guid>? Heard;

    public void Listen() => StoreModule.Listen(Tell);

    /// <summary>Keeps a new entry of this device; false when another tab wrote the device's next entry first.</summary>
    /// <param name="opening">The job itself, with the entry that opens it.</param>
    /// <param name="shot">The photo, with the entry that names it.</param>
    public Task<bool> KeepAsync(Guid job, Entry entry, KeptJob? opening = null, Shot? shot = null)
    {
        var kept = new KeptEntry(entry.Id.ToString(), job.ToString(), entry.Device, entry.Seq, entry.Line, Waiting: 1);
        return StoreModule.KeepEntryAsync(
            JsonSerializer.Serialize(kept, AppJson.Default.KeptEntry),
            opening is null ? null : JsonSerializer.Serialize(opening, AppJson.Default.KeptJob),
            shot?.ToKeep());
    }

    public async Task KeepArrivedAsync(KeptJob job, IEnumerable<Entry> entries)
    {
        List<KeptEntry> kept = [.. entries.Select(e => new KeptEntry(e.Id.ToString(), job.Id, e.Device, e.Seq, e.Line))];
        await StoreModule.KeepArrivedAsync(
            JsonSerializer.Serialize(kept, AppJson.Default.ListKeptEntry), JsonSerializer.Serialize(job, AppJson.Default.KeptJob));
        if (kept.Count > 0)
        {
            Tell(job.Id);
        }
    }

    public async Task<IReadOnlyList<Entry>> EntriesAsync(Guid job) => [.. EntryLine.ReadAll(await LinesAsync(job))];

    /// <summary>Only those of these kinds: to read every line of every job takes a while.</summary>
    public async Task<IReadOnlyList<Entry>> EntriesAsync(Guid job, params IReadOnlyList<string> kinds) =>
        [.. EntryLine.ReadAll((await LinesAsync(job)).Where(line => kinds.Any(kind => line.Contains($"\"kind\":\"{kind}\"", StringComparison.Ordinal)))).Where(entry => kinds.Contains(entry.Kind))];

    private static async Task<IEnumerable<string>> LinesAsync(Guid job) =>
        JsonSerializer.Deserialize(await StoreModule.EntriesOfAsync(job.ToString()), AppJson.Default.ListKeptEntry)!.Select(kept => kept.Line);

    public async Task<IReadOnlyList<KeptEntry>> WaitingAsync() =>
        JsonSerializer.Deserialize(await StoreModule.WaitingEntriesAsync(), AppJson.Default.ListKeptEntry)!;

    public Task MarkSentAsync(IEnumerable<Guid> entries) =>
        StoreModule.MarkSentAsync(JsonSerializer.Serialize([.. entries.Select(e => e.ToString())], AppJson.Default.ListString));

    public Task MarkRefusedAsync(IEnumerable<RefusedEntry> refused) =>
        StoreModule.MarkRefusedAsync(JsonSerializer.Serialize([.. refused], AppJson.Default.ListRefusedEntry));

    public Task SendAgainAsync(string job) => StoreModule.SendAgainAsync(job);

    public Task SendPhotosAgainAsync() => StoreModule.SendPhotosAgainAsync();

    public async Task<IReadOnlyList<KeptJob>> JobsAsync() =>
        JsonSerializer.Deserialize(await StoreModule.AllJobsAsync(), AppJson.Default.ListKeptJob)!;

    /// <summary>The jobs as a list shows them: with what was last said of each, and what tells whether that holds still.</summary>
    public async Task<IReadOnlyList<ShownJob>> ShownJobsAsync() =>
        JsonSerializer.Deserialize(await StoreModule.ShownJobsAsync(), AppJson.Default.ListShownJob)!;

    public Task KeepLineAsync(KeptJob job, string line) => StoreModule.KeepSettingAsync($"line {job.Id}", line);

    public async Task<IReadOnlyList<KeptMap>> MapsAsync() =>
        JsonSerializer.Deserialize(await StoreModule.AllMapsAsync(), AppJson.Default.ListKeptMap)!;

    /// <summary>Gives the maps that an earlier version of the app kept the place of today: their text under its SHA-256.</summary>
    public async Task NameTextsAsync()
    {
        foreach (var (name, yaml) in JsonSerializer.Deserialize(await StoreModule.MapsWithoutHashAsync(), AppJson.Default.DictionaryStringString)!)
        {
            await StoreModule.GiveHashAsync(name, Entry.Sha256(yaml));
        }
    }

    /// <summary>The text of this SHA-256; null when it is not on this device.</summary>
    public async Task<KeptText?> TextAsync(string hash) =>
        await StoreModule.TextOfAsync(hash) is { Length: > 0 } text ? JsonSerializer.Deserialize(text, AppJson.Default.KeptText) : null;

    /// <summary>Keeps a text that was saved here, as the newest of its map.</summary>
    public Task KeepSavedAsync(KeptText text, KeptMap map) =>
        StoreModule.KeepSavedTextAsync(JsonSerializer.Serialize(text, AppJson.Default.KeptText), JsonSerializer.Serialize(map, AppJson.Default.KeptMap));

    /// <summary>Keeps a text from the server.</summary>
    /// <param name="map">The map whose newest text it is; null when there may be newer ones. What was saved here and waits stays the newest here.</param>
    public Task KeepFetchedAsync(KeptText text, KeptMap? map) =>
        StoreModule.KeepFetchedTextAsync(JsonSerializer.Serialize(text, AppJson.Default.KeptText), map is null ? null : JsonSerializer.Serialize(map, AppJson.Default.KeptMap));

    /// <summary>The texts that the server does not have, in the order in which they were saved.</summary>
    public async Task<IReadOnlyList<KeptText>> WaitingTextsAsync() =>
        JsonSerializer.Deserialize(await StoreModule.WaitingTextsAsync(), AppJson.Default.ListKeptText)!;

    /// <summary>A text waits no longer, unless it was saved once more meanwhile.</summary>
    public Task MarkTextSentAsync(KeptText text) => StoreModule.MarkTextAsync(text.Hash, text.Waiting ?? 0, null, null);

    public Task MarkTextRefusedAsync(KeptText text, string why, string? newest) => StoreModule.MarkTextAsync(text.Hash, text.Waiting ?? 0, why, newest);

    /// <summary>The server is another: it gets every text that is here.</summary>
    public Task SendTextsAgainAsync() => StoreModule.SendTextsAgainAsync();

    public async Task<KeptPlan?> PlanAsync(Guid job)
    {
        var kept = await StoreModule.SettingAsync(PlanName(job));
        return kept.Length == 0 ? null : JsonSerializer.Deserialize(kept, AppJson.Default.KeptPlan);
    }

    public Task KeepPlanAsync(Guid job, KeptPlan plan) =>
        StoreModule.KeepSettingAsync(PlanName(job), JsonSerializer.Serialize(plan, AppJson.Default.KeptPlan));

    /// <summary>Which store the server had that everything here was exchanged with; empty before the first exchange.</summary>
    public async Task<string> ServerAsync() => await StoreModule.SettingAsync(ServerName);

    public Task KeepServerAsync(string store) => StoreModule.KeepSettingAsync(ServerName, store);

    /// <summary>Texts by their names, as they were last kept; none when they never were.</summary>
    public async Task<Dictionary<string, string>> TextsAsync(string name)
    {
        var kept = await StoreModule.SettingAsync(name);
        return kept.Length == 0 ? [] : JsonSerializer.Deserialize(kept, AppJson.Default.DictionaryStringString)!;
    }

    /// <summary>Keeps texts by their names; none to forget them.</summary>
    public Task KeepTextsAsync(string name, Dictionary<string, string> texts) =>
        StoreModule.KeepSettingAsync(name, texts.Count == 0 ? "" : JsonSerializer.Serialize(texts, AppJson.Default.DictionaryStringString));

    private static string PlanName(Guid job) => $"plan {job}";

    private void Tell(string job)
    {
        if (Guid.TryParse(job, out var id))
        {
            Heard?.Invoke(id);
        }
    }
}
