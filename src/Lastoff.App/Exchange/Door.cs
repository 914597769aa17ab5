using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.App.Device;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Exchange;

/// <summary>How the server knows this browser.</summary>
/// <param name="HasOwner">Whether anybody has to sign in at all.</param>
/// <param name="Name">Who is let in on this browser; null for nobody, and at the machine of a workshop without an owner.</param>
public sealed record DoorState(bool HasOwner, string? Name, string? Role, string? Device, bool HasPassword, int Passkeys)
{
    public const string OwnerRole = "owner";

    /// <summary>What somebody can be here, the usual first.</summary>
    public static IReadOnlyList<string> Roles { get; } = ["mechanic", "front desk", OwnerRole];

    public bool IsOwner => Role == OwnerRole;
}

public sealed record ListedPerson(string Id, string Name, string Role, bool IsOut);

public sealed record ListedDevice(string Id, string Person, string Label, DateTimeOffset Joined, bool IsThis);

/// <param name="Picture">The link as a QR code, in SVG.</param>
public sealed record Invitation(string Link, string Picture, DateTimeOffset Until)
{
    /// <summary>No other device reaches the server there.</summary>
    public bool IsOnlyHere => new Uri(Link).IsLoopback;
}

/// <summary>Where a customer reads their own record.</summary>
public sealed record CustomerAddress(string Address, DateTimeOffset Until)
{
    /// <summary>Nobody reaches the server there but on this machine.</summary>
    public bool IsOnlyHere => new Uri(Address).IsLoopback;
}

/// <summary>Asks the server's door. Every call returns null when it went well, and otherwise the one sentence that says why not.</summary>
public sealed class Door(Server server, Person person, Courier courier)
{
    private static string OutOfReach => Say("The server is out of reach; try again where it can be reached.");

    /// <summary>As the server last answered; null when it has not.</summary>
    public DoorState? State { get; private set; }

    public IReadOnlyList<ListedPerson> People { get; private set; } = [];

    public IReadOnlyList<ListedDevice> Devices { get; private set; } = [];

    public Task<string?> LookAsync() => TellAsync(async () =>
    {
        State = await server.ReadAsync("api/doors", AppJson.Default.DoorState);
        Devices = State.Name is null ? [] : await server.ReadAsync("api/devices", AppJson.Default.ListListedDevice);
        People = !State.IsOwner ? [] : await server.ReadAsync("api/people", AppJson.Default.ListListedPerson);
    });

    public Task<string?> OwnAsync(string name, string password, string label) => ComeInAsync("owner", new() { ["name"] = name, ["password"] = password, ["label"] = label });

    public Task<string?> EnterAsync(string name, string password, string label) => ComeInAsync("enter", new() { ["name"] = name, ["password"] = password, ["label"] = label });

    public Task<string?> JoinAsync(string code, string label) => ComeInAsync("join", new() { ["value"] = code, ["label"] = label });

    public async Task<string?> EnterByPasskeyAsync(string label)
    {
        var shown = "";
        var fault = await TellAsync(async () => shown = await DoorModule.ShowPasskeyAsync(await AnswerAsync("api/doors/passkey/ask", [])));
        return fault ?? (shown.Length == 0 ? Say("No passkey was shown.") : await ComeInAsync("passkey/enter", new() { ["credential"] = shown, ["label"] = label }));
    }

    public async Task<string?> AddPasskeyAsync()
    {
        var made = "";
        var fault = await TellAsync(async () => made = await DoorModule.MakePasskeyAsync(await AnswerAsync("api/doors/passkey/new", [])));
        return fault ?? (made.Length == 0 ? Say("No passkey was made.") : await DoAsync("api/doors/passkey/keep", new() { ["credential"] = made }));
    }

    public Task<string?> SetPasswordAsync(string password) => DoAsync("api/doors/password", new() { ["password"] = password });

    public Task<string?> AddPersonAsync(string name, string role) => DoAsync("api/people", new() { ["name"] = name, ["role"] = role });

    public Task<string?> MakeAsync(ListedPerson whom, string role) => DoAsync($"api/people/{whom.Id}/role", new() { ["role"] = role });

    public Task<string?> PutOutAsync(ListedPerson whom) => DoAsync($"api/people/{whom.Id}/{(whom.IsOut ? "in" : "out")}", []);

    public Task<string?> ShutOutAsync(ListedDevice device) => DoAsync($"api/devices/{device.Id}/out", []);

    public Task<string?> LeaveAsync() => DoAsync("api/doors/leave", []);

    /// <param name="whom">Null for oneself.</param>
    public async Task<(Invitation? Invitation, string? Fault)> InviteAsync(string? whom)
    {
        Invitation? made = null;
        var fault = await TellAsync(async () => made = JsonSerializer.Deserialize(await AnswerAsync("api/devices/invite", new() { ["person"] = whom }), AppJson.Default.Invitation));
        return (made, fault);
    }

    public async Task<(CustomerAddress? Link, string? Fault)> LinkForCustomerAsync(Guid job)
    {
        CustomerAddress? made = null;
        var fault = await TellAsync(async () => made = JsonSerializer.Deserialize(await AnswerAsync($"api/jobs/{job}/link", []), AppJson.Default.CustomerAddress));
        return (made, fault);
    }

    private async Task<string?> ComeInAsync(string how, JsonObject given)
    {
        if (await DoAsync($"api/doors/{how}", given) is { } fault)
        {
            return fault;
        }

        // Whoever is let in is also who writes here.
        if (State?.Name is { } name)
        {
            await person.CallAsync(name);
            await PageModule.AskToStayAsync();
        }

        courier.Call();
        return null;
    }

    private async Task<string?> DoAsync(string path, JsonObject given) => await TellAsync(() => AnswerAsync(path, given)) ?? await LookAsync();

    /// <exception cref="RefusedException">The server would not, and said why.</exception>
    private async Task<string> AnswerAsync(string path, JsonObject given)
    {
        var answer = await server.PostAsync(path, given.ToJsonString());
        if (answer.IsGood)
        {
            return answer.Text;
        }

        throw new RefusedException(Problem.Detail(answer.Text) is { } why ? Say(why) : Say($"The server would not do that ({(int)answer.Status})."));
    }

    private static async Task<string?> TellAsync(Func<Task> ask)
    {
        try
        {
            await ask();
            return null;
        }
        catch (RefusedException e)
        {
            return e.Message;
        }
        catch (Exception e) when (e is ServerException or JsonException)
        {
            return OutOfReach;
        }
        catch (JSException e)
        {
            return Say($"The browser would not: {e.Message.TrimEnd('.')}.");
        }
    }

    private sealed class RefusedException(string why) : Exception(why);
}
