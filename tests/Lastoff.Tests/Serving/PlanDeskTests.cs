using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

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

    [Fact]
    public async Task What_is_asked_beside_the_plan_is_what_the_planner_says_of_the_same_standing()
    {
        var (job, map) = await Waiting("orchard-sprayer-pump");
        var net = OperationNet.From(MapReader.Read(map, "map").Map!);
        var (goal, standing) = (Goal.Renewing("upper-diaphragm"), Job.From(net, EntryLine.ReadAll((await _server.Client.GetStringAsync($"/api/jobs/{job}/ledger", Cancel)).Split('\n', StringSplitOptions.RemoveEmptyEntries))).Standing);
        var plan = Planner.Make(standing, goal, PlanLimits.Usual, Cancel).Plan!;

        var forked = (await Ask<ForkedPlan>("forks"))!;
        Assert.Equal(plan.MinutesP50, forked.Plan.MinutesP50, 6);
        Assert.Equal(
            Forks.Of(standing, goal, plan, PlanLimits.Quick, Cancel).SelectMany(fork => fork.Ways.Select(way => (fork.Step.Target, way.Way, way.Minutes, way.AtLeast))),
            forked.Forks.SelectMany(fork => fork.Ways.Select(way => (fork.Step.Target, way.Way, way.Minutes, way.AtLeast))));

        var extras = (await Ask<List<Extra>>("extras"))!;
        Assert.Equal(Extras.Of(net, goal, net.Nothing, PlanLimits.Quick, Cancel).Extras!.Select(extra => (extra.Part, extra.MinutesAlone, extra.MinutesInStrip)), extras.Select(extra => (extra.Part, extra.MinutesAlone, extra.MinutesInStrip)));

        var two = (await Ask<HandsPlan>("two-hands"))!;
        var expected = HandsPlanner.Make(standing, goal, PlanLimits.Usual, Cancel).Value!;
        Assert.Equal((expected.MakespanMinutes, expected.OnePersonMinutes, expected.ProvenOptimal), (two.MakespanMinutes, two.OnePersonMinutes, two.ProvenOptimal));
        Assert.Equal(expected.Out.Select(step => (step.Who, step.Step.Target, step.StartMinutes)), two.Out.Select(step => (step.Who, step.Step.Target, step.StartMinutes)));

        Task<T?> Ask<T>(string what) => _server.Client.GetFromJsonAsync<T>($"/api/jobs/{job}/plan/{what}?entries=1&map={Entry.Sha256(map)}", JsonSerializerOptions.Web, Cancel);
    }

    [Theory]
    [InlineData("/forks")]
    [InlineData("/extras")]
    [InlineData("/two-hands")]
    public async Task What_is_asked_for_another_standing_is_not_answered(string what)
    {
        var (job, _) = await Waiting("orchard-sprayer-pump");
        await Refused($"/api/jobs/{job}/plan{what}?entries=2&map=x", HttpStatusCode.Conflict, "has 1 entries here and 2 on the device");
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
