using System.Net;
using Lastoff.Tests.Serving;

namespace Lastoff.Tests.Doors;

/// <summary>The real server on one store or the other, and whoever sits at the machine itself.</summary>
/// <param name="store">What the program is given to know its store by; nothing for a folder of its own.</param>
public abstract class AtTheDoor(IReadOnlyList<string> store) : IAsyncLifetime
{
    protected const string Password = "a sentence that is long";

    protected static CancellationToken Cancel => TestContext.Current.CancellationToken;

    protected IReadOnlyList<string> Store => store;

    protected RunningServer Server { get; private set; } = null!;

    protected Guest Owner { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Server = await RunningServer.Start(store);
        Owner = new Guest(Server);
    }

    public async ValueTask DisposeAsync()
    {
        Owner.Dispose();
        await Server.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    /// <summary>From here on nobody comes in without being let in.</summary>
    protected async Task Own()
    {
        var answer = await Owner.Post("/api/doors/owner", new { name = "Invented Owner", password = Password, label = "Desk" });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }
}
