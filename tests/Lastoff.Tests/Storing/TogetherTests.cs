using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Tests.Program;
using Lastoff.Tests.Serving;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Lastoff.Tests.Storing;

/// <summary>What devices send while the store is busy is written together, and each gets the answer that it would have got by itself.</summary>
public abstract class TogetherTests(IReadOnlyList<string> store) : IAsyncLifetime
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;
    private static readonly DateTimeOffset At = DateTimeOffset.UnixEpoch.AddYears(56);

    private readonly Random _random = new(7);
    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start(store);

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task Each_gets_its_own_answer()
    {
        var opening = Opening();
        var own = Chain(opening, "own", 3);
        await SendAsync(opening.Id, opening, own[0]);
        var (good, cut, forked, twice) = (Chain(opening, "good", 3), Chain(opening, "cut", 3), Chain(opening, "forked", 3), Chain(opening, "twice", 2));
        var fork = Write("another way on", opening, forked[0], "forked");
        var forger = Chain(opening, "forger", 1);
        var forged = EntryLine.Write(new Noted("under the identifier of another"), own[0].Id, "forger", At, "Tester", forger[0]);
        var after = Write("after it", opening, forged, "forger");
        var (second, rest) = (Opening(), Opening());
        var away = Chain(rest, "away", 1);

        // Each of these is right or wrong by itself, in whichever order they come in.
        (Guid Job, Entry[] Entries, string Accepted, string? Why)[] sendings =
        [
            (opening.Id, [own[0], own[1], own[2]], "yyy", null),
            (opening.Id, [.. good], "yyy", null),
            (opening.Id, [cut[0], cut[2]], "yn", $"Entry 3 of device cut follows a gap: entry 2 is missing."),
            (opening.Id, [forked[0], forked[1], fork], "yyn", "Entry 2 of device forked stands after entry 2: the lines were reordered or the chain was forked."),
            (opening.Id, [forger[0], forged, after], "ynn", $"Another entry is here under the identifier {own[0].Id}."),
            (opening.Id, [.. twice], "yy", null),
            (opening.Id, [.. twice], "yy", null),
            (second.Id, [second, .. Chain(second, "own", 2)], "yyy", null),
            (rest.Id, [.. away], "n", "The job is not open here: send its first entry first."),
        ];
        Task<JsonObject>[] answers;
        await using (await HoldAsync())
        {
            // The first is waited for alone; while it is, all others come in.
            var first = SendAsync(opening.Id, Chain(opening, "first", 1)[0]);
            await Task.Delay(200, Cancel);
            answers = [.. sendings.Select(sent => SendAsync(sent.Job, sent.Entries))];
            await Task.Delay(300, Cancel);
            Assert.All(answers, answer => Assert.False(answer.IsCompleted));
        }

        foreach (var (sent, receipt) in sendings.Zip(await Task.WhenAll(answers)))
        {
            Assert.Equal(sent.Entries.Where((_, i) => sent.Accepted[i] == 'y').Select(entry => entry.Id.ToString()).Order(), receipt["accepted"]!.AsArray().Select(id => (string)id!).Order());
            Assert.Equal(sent.Accepted.Count(c => c == 'n'), receipt["refused"]!.AsArray().Count);
            Assert.Equal(sent.Why, (string?)receipt["refused"]!.AsArray().FirstOrDefault()?["why"]);
        }

        Assert.Equal(1 + 1 + 3 + 3 + 1 + 2 + 1 + 2, (await LinesAsync(opening.Id)).Count);
        Assert.Equal(3, (await LinesAsync(second.Id)).Count);
        var counted = (await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!.ToDictionary(job => (string)job!["id"]!, job => (long)job!["entries"]!);
        Assert.Equal((14, 3), (counted[opening.Id.ToString()], counted[second.Id.ToString()]));
        Assert.Equal(0, (await LastoffProgram.Run(["verify", .. store.Count > 0 ? store : ["--data", _server.Data]])).ExitCode);
    }

    [Fact]
    public async Task One_identifier_is_taken_once()
    {
        var opening = Opening();
        await SendAsync(opening.Id, opening);
        var mine = Chain(opening, "mine", 2);
        var theirs = EntryLine.Write(new Noted("under the same identifier"), mine[0].Id, "theirs", At, "Tester", null);
        Task<JsonObject>[] answers;
        await using (await HoldAsync())
        {
            var first = SendAsync(opening.Id, Chain(opening, "first", 1)[0]);
            await Task.Delay(200, Cancel);
            answers = [SendAsync(opening.Id, [.. mine]), SendAsync(opening.Id, theirs)];
            await Task.Delay(300, Cancel);
        }

        var receipts = await Task.WhenAll(answers);
        var isMine = receipts[0]["accepted"]!.AsArray().Count > 0;
        Assert.Equal(isMine ? (2, 0) : (0, 1), (receipts[0]["accepted"]!.AsArray().Count, receipts[1]["accepted"]!.AsArray().Count));
        Assert.Equal(isMine ? 4 : 3, (await LinesAsync(opening.Id)).Count);
    }

    /// <summary>Keeps the server from writing until it is disposed of.</summary>
    protected abstract Task<IAsyncDisposable> HoldAsync();

    /// <summary>The data folder, when that is where the records are.</summary>
    protected string Data => _server.Data;

    private Entry Opening() => EntryLine.Write(new JobOpened("orchard-sprayer-pump", "Invented", "It drips", "A seal", ["upper-diaphragm"], []), NextId(null), "desk", At, "Tester", null);

    private List<Entry> Chain(Entry opening, string device, int length)
    {
        var chain = new List<Entry>();
        while (chain.Count < length)
        {
            chain.Add(Write($"“note” \\ {chain.Count} \U0001F527", opening, chain.LastOrDefault(), device));
        }

        return chain;
    }

    private Entry Write(string note, Entry opening, Entry? previous, string device) =>
        EntryLine.Write(new Noted(note), NextId(previous?.Id ?? opening.Id), device, At, "Tester", previous);

    private Guid NextId(Guid? latest)
    {
        var bytes = new byte[10];
        _random.NextBytes(bytes);
        return EntryId.Next(At, latest, bytes);
    }

    private async Task<JsonObject> SendAsync(Guid job, params Entry[] entries)
    {
        var response = await _server.Client.PostAsync($"/api/jobs/{job}/entries", new StringContent(string.Join('\n', entries.Select(entry => entry.Line))), Cancel);
        response.EnsureSuccessStatusCode();
        return (await response.Content.ReadFromJsonAsync<JsonObject>(Cancel))!;
    }

    private async Task<IReadOnlyList<string>> LinesAsync(Guid job) =>
        [.. (await _server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job}/entries", Cancel))!["lines"]!.AsArray().Select(line => (string)line!)];
}

public sealed class TogetherOnSqliteTests() : TogetherTests([])
{
    protected override async Task<IAsyncDisposable> HoldAsync()
    {
        var connection = new SqliteConnection($"Data Source={Data}/lastoff.db;Pooling=False");
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        connection.BeginTransaction(deferred: false);
        return connection;
    }
}

public sealed class TogetherOnPostgresTests : TogetherTests
{
    private readonly string _workshop;

    public TogetherOnPostgresTests() : this(TestPostgres.NewWorkshop())
    {
    }

    private TogetherOnPostgresTests(IReadOnlyList<string> store) : base(store) => _workshop = store[^1];

    protected override async Task<IAsyncDisposable> HoldAsync()
    {
        var connection = new NpgsqlConnection(TestPostgres.Connection + ";Pooling=false");
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await connection.BeginTransactionAsync(TestContext.Current.CancellationToken);
        await using var hold = new NpgsqlCommand($"SELECT 1 FROM workshops WHERE name = '{_workshop}' FOR UPDATE", connection);
        await hold.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        return connection;
    }
}
