using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Doors;

/// <summary>A code on the screen of the machine itself leads other devices to it, and not to themselves.</summary>
public sealed class ReachedAtTests : IDisposable
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private readonly string _data = Directory.CreateTempSubdirectory("lastoff-").FullName;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Where_the_server_listens_to_the_network_the_link_leads_there_and_opens()
    {
        var port = ServerProcess.FreePort();
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", _data) { Also = [$"http://0.0.0.0:{port}"] };
        var link = await Invited(server);
        Assert.False(link.IsLoopback, link.OriginalString);
        Assert.Equal(port, link.Port);
        using var phone = new HttpClient { BaseAddress = new Uri(link.GetLeftPart(UriPartial.Authority)) };
        var joined = await phone.PostAsJsonAsync("/api/doors/join", new { value = link.Fragment[1..], label = "Phone" }, Cancel);
        Assert.True(joined.IsSuccessStatusCode);
        Assert.True((await phone.GetAsync("/api/jobs", Cancel)).IsSuccessStatusCode);
    }

    [Fact]
    public async Task Where_it_listens_to_the_machine_alone_the_link_is_the_one_that_was_asked_for()
    {
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", _data);
        Assert.Equal(server.Address.Authority, (await Invited(server)).Authority);
    }

    private static async Task<Uri> Invited(ServerProcess server)
    {
        await server.StartAsync();
        using var owner = new HttpClient { BaseAddress = server.Address };
        (await owner.PostAsJsonAsync("/api/doors/owner", new { name = "Invented Owner", password = "a sentence that is long" }, Cancel)).EnsureSuccessStatusCode();
        var invited = await owner.PostAsJsonAsync("/api/devices/invite", new { }, Cancel);
        return new Uri((string)(await invited.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["link"]!);
    }
}
