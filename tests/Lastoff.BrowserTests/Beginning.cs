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

    private readonly string _folder = Directory.CreateTempSubdirectory("lastoff-beginning-").FullName;
    private string _phone = "";
    private Uri? _address;

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

    /// <summary>Gives this browser what the phone has kept, as if it had been at that server.</summary>
    public async Task HandAsync(IBrowserContext context, Uri server)
    {
        var own = Path.Combine(_folder, $"{Guid.NewGuid()}.json");
        await File.WriteAllTextAsync(own, _phone.Replace(_address!.GetLeftPart(UriPartial.Authority), server.GetLeftPart(UriPartial.Authority), StringComparison.Ordinal));
        await context.SetStorageStateAsync(own);
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private static async Task<Beginning> MakeAsync()
    {
        var beginning = new Beginning();
        await using var server = await RunningServer.Start();
        await server.Process.StopAsync();
        RunningServer.Copy(server.Data, beginning.Records);
        await server.Process.StartAsync();
        await using var bay = await Bay.FirstAt(server);
        await bay.ComeInFirst();
        await bay.At("sync").And(bay.Page.Locator("[data-state=sent]")).WaitForAsync();
        // The lines of the list are kept one by one, after they are shown.
        await bay.Page.ReloadAsync();
        await bay.ComeBack();
        beginning._address = server.Address;
        beginning._phone = await bay.Page.Context.StorageStateAsync(new BrowserContextStorageStateOptions { IndexedDB = true });
        return beginning;
    }
}
