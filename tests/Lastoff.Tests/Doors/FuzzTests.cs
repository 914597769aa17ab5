using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Lastoff.Tests.Serving;

namespace Lastoff.Tests.Doors;

/// <summary>A short run of broken inputs; the long one is <c>bench -- fuzz 100000</c>.</summary>
public class FuzzTests
{
    private static readonly string Ledger = File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.ledger.jsonl"));

    private static readonly string[] Maps = [File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml")), File.ReadAllText(LastoffProgram.Demo("light-van.map.yaml"))];

    [Fact]
    public void Broken_maps_are_told_what_is_wrong_with_them() => Assert.Empty(FuzzRun.Maps(Maps, 1500));

    [Fact]
    public void Broken_ledgers_are_told_what_is_wrong_with_them() => Assert.Empty(FuzzRun.Ledgers([Ledger], OperationNet.From(MapReader.Read(Maps[0], "pump").Map!), 1500));

    [Fact]
    public async Task A_server_answers_broken_requests_and_goes_on()
    {
        await using var server = await RunningServer.Start();
        Assert.Empty(await FuzzRun.EndpointAsync(server.Client, Ledger, 600));
        Assert.NotEmpty(await server.Client.GetStringAsync("/api/jobs", TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]\nf: [*e,*e,*e,*e,*e,*e,*e,*e,*e]")]
    [InlineData("parts: *parts")]
    [InlineData("a: &a [*a]")]
    public void A_map_that_multiplies_itself_is_refused(string yaml) => Assert.NotEmpty(MapReader.Read(yaml, "bomb").Faults);
}
