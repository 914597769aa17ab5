using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>What the workshop set for all its jobs, before the real server on either store.</summary>
public abstract class SettingTests(IReadOnlyList<string> store) : IAsyncLifetime
{
    private const string Terms = "/api/settings/terms";

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start(store);

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task Of_two_who_change_the_terms_the_second_is_told_what_they_are_now()
    {
        var (text, version) = await Get();
        var (mine, theirs) = (With(text, 91), With(text, 92));
        Assert.Equal(HttpStatusCode.OK, (await Put(theirs, version)).StatusCode);
        var answer = await Put(mine, version);
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Equal(theirs, await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Equal((theirs, version + 1), await Get());
        Assert.Equal(HttpStatusCode.OK, (await Put(mine, version + 1)).StatusCode);
        Assert.Equal((mine, version + 2), await Get());
    }

    [Theory]
    [InlineData("hourly_rate", "-5", "-5")]
    [InlineData("currency", "\"XYZ\"", "XYZ")]
    [InlineData("taxes", "[{\"id\":\"a\",\"name\":\"A\",\"percent\":1000}]", "1000 %")]
    public async Task Terms_that_cannot_be_are_refused_in_one_sentence_and_nothing_is_lost(string field, string value, string says)
    {
        var (text, version) = await Get();
        var wrong = JsonNode.Parse(text)!;
        wrong[field] = JsonNode.Parse(value);
        var answer = await Put(wrong.ToJsonString(), version);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(says, (string)(await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!["detail"]!);
        Assert.Equal((text, version), await Get());
    }

    [Fact]
    public async Task What_is_no_setting_is_not_found() => Assert.Equal(HttpStatusCode.NotFound, (await _server.Client.GetAsync("/api/settings/weather", Cancel)).StatusCode);

    private static string With(string terms, int rate)
    {
        var json = JsonNode.Parse(terms)!;
        json["hourly_rate"] = rate;
        return json.ToJsonString();
    }

    private async Task<(string Text, long Version)> Get()
    {
        var answer = await _server.Client.GetAsync(Terms, Cancel);
        return (await answer.Content.ReadAsStringAsync(Cancel), long.Parse(answer.Headers.GetValues("Lastoff-Version").Single(), null));
    }

    private Task<HttpResponseMessage> Put(string text, long version) => _server.Client.PutAsync($"{Terms}?version={version}", new StringContent(text), Cancel);
}

public sealed class SqliteSettingTests() : SettingTests([]);

public sealed class PostgresSettingTests() : SettingTests(TestPostgres.NewWorkshop());

public class SettingBundleTests
{
    [Fact]
    public async Task Terms_and_prices_move_with_the_workshop_and_those_set_already_stay()
    {
        using var folder = new TemporaryFolder();
        await using (var server = await RunningServer.Start(["--data", folder.In("first")]))
        {
            Assert.True((await server.Client.GetAsync("/api/settings/terms", TestContext.Current.CancellationToken)).IsSuccessStatusCode);
        }

        Assert.Equal(0, (await LastoffProgram.Run("export", folder.In("files"), "--data", folder.In("first"))).ExitCode);
        var terms = await File.ReadAllTextAsync(Path.Combine(folder.In("files"), "terms.setting.json"), TestContext.Current.CancellationToken);
        Assert.Contains("Invented Workshop", terms, StringComparison.Ordinal);
        Assert.Equal(0, (await LastoffProgram.Run("import", folder.In("files"), "--data", folder.In("second"))).ExitCode);
        Assert.Equal(0, (await LastoffProgram.Run("export", folder.In("again"), "--data", folder.In("second"))).ExitCode);
        Assert.Equal(terms, await File.ReadAllTextAsync(Path.Combine(folder.In("again"), "terms.setting.json"), TestContext.Current.CancellationToken));
        await File.WriteAllTextAsync(Path.Combine(folder.In("files"), "terms.setting.json"), "{}", TestContext.Current.CancellationToken);
        var broken = await LastoffProgram.Run("import", folder.In("files"), "--data", folder.In("third"));
        Assert.Equal(2, broken.ExitCode);
        Assert.Contains("terms.setting.json", broken.Error, StringComparison.Ordinal);
    }
}
