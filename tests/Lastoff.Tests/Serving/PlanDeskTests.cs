using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Serving;

/// <summary>The server's plan for a device.</summary>
public sealed class PlanDeskTests : IAsyncLifetime
{
    private RunningServer _server = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start();

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task The_plan_is_the_one_that_a_usual_search_finds_from_where_the_job_stands()
    {
        var (job, map) = await Waiting("orchard-sprayer-pump");
        var plan = await _server.Client.GetFromJsonAsync<Plan>($"/api/jobs/{job}/plan?entries=1&map={Entry.Sha256(map)}", JsonSerializerOptions.Web, Cancel);
        var net = OperationNet.From(MapReader.Read(map, "map").Map!);
        var expected = Planner.Make(net, Goal.Renewing("upper-diaphragm"), net.Nothing, PlanLimits.Usual, Cancel).Plan!;
        Assert.Equal(expected.Out.Select(step => (step.Kind, step.Target, step.Way)), plan!.Out.Select(step => (step.Kind, step.Target, step.Way)));
        Assert.Equal(expected.MinutesP50, plan.MinutesP50, 6);
        Assert.True(plan.ProvenOptimal);
    }

    [Theory]
    [InlineData("?entries=some&map=x", HttpStatusCode.BadRequest, "Say how many entries")]
    [InlineData("", HttpStatusCode.BadRequest, "Say how many entries")]
    [InlineData("?entries=2&map=x", HttpStatusCode.Conflict, "has 1 entries here and 2 on the device")]
    [InlineData("?entries=1&map=x", HttpStatusCode.Conflict, "The map “orchard-sprayer-pump” is not here as the device has it")]
    public async Task What_cannot_be_planned_gets_one_clear_sentence(string asked, HttpStatusCode status, string sentence)
    {
        var (job, _) = await Waiting("orchard-sprayer-pump");
        await Refused($"/api/jobs/{job}/plan{asked}", status, sentence);
    }

    [Fact]
    public async Task A_job_that_is_not_here_is_not_planned() =>
        await Refused($"/api/jobs/{Guid.NewGuid()}/plan?entries=1&map=x", HttpStatusCode.NotFound, "send its entries first");

    private async Task Refused(string path, HttpStatusCode status, string sentence)
    {
        var answer = await _server.Client.GetAsync(path, Cancel);
        Assert.Equal(status, answer.StatusCode);
        var text = (string)(await answer.Content.ReadFromJsonAsync<JsonObject>(Cancel))!["detail"]!;
        Assert.Contains(sentence, text);
        Assert.DoesNotContain("   at ", text);
    }

    /// <summary>The invented workshop's waiting job on a map, and the map's text.</summary>
    private async Task<(string Job, string Map)> Waiting(string map)
    {
        var jobs = (await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!;
        return ((string)jobs.Single(job => (string)job!["map"]! == map)!["id"]!, await _server.Client.GetStringAsync($"/api/maps/{map}", Cancel));
    }
}
