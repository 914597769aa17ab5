using Lastoff.Tests.Serving;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>
/// The invented workshop moved in, and a phone on which somebody has come in to it: made once, by the real program and its visible controls, and copied for each test. That takes half the
/// time of a first visit, which has tests of its own.
/// </summary>
internal sealed class Beginning : IAsyncDisposable
{
    private static readonly Lazy<Task<Beginning>> s_once = new(MakeAsync);

    // All that the app keeps on a device is JSON, but for the bytes of photos, and nobody has taken one yet.
    private const string Keep = """
        async () => {
          const asked = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
          const kept = await asked(indexedDB.open('lastoff'));
          const stores = await Promise.all([...kept.objectStoreNames].map(async name => {
            const store = kept.transaction(name).objectStore(name);
            const indexes = [...store.indexNames].map(index => store.index(index)).map(({ name, keyPath, unique }) => ({ name, keyPath, unique }));
            const [keys, values] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
            return { name, keyPath: store.keyPath, indexes, rows: values.map((value, at) => [value, store.keyPath ? undefined : keys[at]]) };
          }));
          kept.close();
          return JSON.stringify({ version: kept.version, stores });
        }
        """;

    private const string Hand = """
        async phone => {
          const { version, stores } = JSON.parse(phone);
          const opening = indexedDB.open('lastoff', version);
          let isNew = false;
          await new Promise((done, failed) => {
            opening.onerror = () => failed(opening.error);
            opening.onsuccess = () => isNew ? done() : failed(new Error('Somebody has been to the app on this device already.'));
            opening.onupgradeneeded = () => {
              isNew = true;
              for (const { name, keyPath, indexes, rows } of stores) {
                const store = opening.result.createObjectStore(name, { keyPath });
                indexes.forEach(index => store.createIndex(index.name, index.keyPath, { unique: index.unique }));
                rows.forEach(([value, key]) => store.add(value, key ?? undefined));
              }
            };
          });
          opening.result.close();
        }
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("lastoff-beginning-").FullName;
    private string _phone = "";

    public static Task<Beginning> Once => s_once.Value;

    /// <summary>The data folder of a server that nobody has been to yet.</summary>
    public string Records => Path.Combine(_folder, "records");

    public static async ValueTask DisposeOnceAsync()
    {
        if (s_once.IsValueCreated)
        {
            await (await s_once.Value).DisposeAsync();
        }
    }

    /// <summary>Gives a device what the phone has kept.</summary>
    /// <param name="page">A page from where the device will look at the app, with nothing of the app in it.</param>
    public Task HandAsync(IPage page) => page.EvaluateAsync(Hand, _phone);

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private static async Task<Beginning> MakeAsync()
    {
        var beginning = new Beginning();
        var server = await RunningServer.Start();
        await server.Process.StopAsync();
        RunningServer.Copy(server.Data, beginning.Records);
        await server.Process.StartAsync();
        await using var bay = await Bay.FirstAt(server);
        await bay.ComeInFirst();
        await bay.At("sync").And(bay.Page.Locator("[data-state=sent]")).WaitForAsync();
        // The lines of the list are kept one by one, after they are shown.
        await bay.Page.ReloadAsync();
        await bay.ComeBack();
        beginning._phone = await bay.Page.EvaluateAsync<string>(Keep);
        // Its keeper stands before a server that goes.
        bay.Spend();
        return beginning;
    }
}
