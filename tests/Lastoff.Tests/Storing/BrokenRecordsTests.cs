using Lastoff.Tests.Program;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Lastoff.Tests.Storing;

/// <summary>Whatever is done to the records behind the program's back is named by entry; what is broken is not taken in.</summary>
public sealed class BrokenRecordsTests : IAsyncLifetime
{
    private static readonly string Golden = Path.Combine(AppContext.BaseDirectory, "data", "golden");
    private readonly TemporaryFolder _folder = new();
    private IReadOnlyList<string> _postgres = [];

    public async ValueTask InitializeAsync()
    {
        _postgres = TestPostgres.NewWorkshop();
        Directory.CreateDirectory(_folder.In("from"));
        File.Copy(Path.Combine(Golden, "orchard-sprayer-pump.ledger.jsonl"), _folder.In("from/pump.ledger.jsonl"));
        foreach (var store in Stores)
        {
            Assert.Equal(0, (await LastoffProgram.Run(["import", _folder.In("from"), .. store])).ExitCode);
        }
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }

    private IEnumerable<IReadOnlyList<string>> Stores => [["--data", _folder.In("data")], _postgres];

    [Theory]
    [InlineData("UPDATE entries SET line = replace(line, 'Person 1', 'Person 7') WHERE seq = 5 AND device = 'device-1' AND {0}", "entry 5 of device device-1", "changed after it was written")]
    [InlineData("DELETE FROM entries WHERE seq = 20 AND device = 'device-0' AND {0}", "entry 21 of device device-0", "entry 20 is missing")]
    [InlineData("UPDATE entries SET arrival = arrival + 1000 WHERE seq = 3 AND device = 'device-0' AND {0}", "entry 4 of device device-0", "entry 3 is missing")]
    [InlineData("UPDATE entries SET id = '019d7b8e-0fe8-7000-8000-00000000ffff' WHERE seq = 9 AND device = 'device-0' AND {0}", "entry 9 of device device-0", "has the line of another")]
    [InlineData("DELETE FROM entries WHERE arrival = (SELECT max(arrival) FROM entries WHERE {0}) AND {0}", "98 entries are here and 99 were taken", "the end of what is left")]
    [InlineData("DELETE FROM jobs WHERE {0}", "belongs to a job that is not here", "019d7b8e-0fe8-7000-8000-000000000001")]
    public async Task A_database_changed_by_hand(string change, string names, string what)
    {
        foreach (var store in Stores)
        {
            var here = store == _postgres ? $"workshop = (SELECT id FROM workshops WHERE name = '{_postgres[^1]}')" : "workshop = 1";
            var sql = change.Replace("{0}", here);
            if (store == _postgres)
            {
                await using var source = NpgsqlDataSource.Create(TestPostgres.Connection);
                await using var command = source.CreateCommand(sql);
                Assert.Equal(1, await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken));
            }
            else
            {
                await using var connection = new SqliteConnection($"Data Source={_folder.In("data/lastoff.db")};Pooling=False");
                connection.Open();
                await using var command = connection.CreateCommand();
                command.CommandText = sql;
                Assert.Equal(1, command.ExecuteNonQuery());
            }

            var error = await Refused(["verify", .. store]);
            Assert.Contains(names, error);
            Assert.Contains(what, error);
            Assert.Contains(names, await Refused(["export", _folder.In("out"), .. store]));
        }
    }

    [Theory]
    [InlineData("changed", "line 30", "changed after it was written")]
    [InlineData("cut", "line 99", "cut or damaged")]
    [InlineData("missing", "entry 14 of device device-0", "entry 13 is missing")]
    [InlineData("reordered", "of device device-0", "missing")]
    [InlineData("forked", "entry 13 of device device-0", "reordered or the chain was forked")]
    [InlineData("beheaded", "entry 2 of device device-0", "entry 1 is missing")]
    public async Task A_ledger_that_is_not_as_it_was_written(string how, string names, string what)
    {
        var lines = (await File.ReadAllLinesAsync(_folder.In("from/pump.ledger.jsonl"), TestContext.Current.CancellationToken)).ToList();
        var thirteenth = lines.FindIndex(line => line.Contains("\"device-0\"") && line.EndsWith("\"seq\":13}", StringComparison.Ordinal));
        switch (how)
        {
            case "changed":
                lines[29] = lines[29].Replace("Person", "Perxon");
                break;
            case "cut":
                lines[98] = lines[98][..^40];
                break;
            case "missing":
                lines.RemoveAt(thirteenth);
                break;
            case "reordered":
                var next = lines.FindIndex(thirteenth + 1, line => line.Contains("\"device-0\""));
                (lines[thirteenth], lines[next]) = (lines[next], lines[thirteenth]);
                break;
            case "forked":
                var forked = Core.Ledger.EntryLine.TryRead(lines[lines.FindLastIndex(thirteenth - 1, line => line.Contains("\"device-0\""))], out var before, out _) ? before! : throw new InvalidOperationException();
                var other = Core.Ledger.EntryLine.Write(new Core.Ledger.Noted("another way on"), Core.Ledger.EntryId.Next(forked.At, forked.Id, new byte[10]), "device-0", forked.At, "Person 0", forked);
                lines.Insert(thirteenth, other.Line);
                break;
            case "beheaded":
                lines.RemoveAt(0);
                break;
        }

        await File.WriteAllLinesAsync(_folder.In("from/pump.ledger.jsonl"), lines, TestContext.Current.CancellationToken);
        foreach (string[] command in (string[][])[["verify", _folder.In("from/pump.ledger.jsonl")], ["import", _folder.In("from"), "--data", _folder.In("other")]])
        {
            var error = await Refused(command);
            Assert.Contains(names, error);
            Assert.Contains(what, error);
            Assert.Contains("pump.ledger.jsonl", error);
        }

        Assert.False(File.Exists(_folder.In("other/lastoff.db")));
    }

    [Fact]
    public async Task A_map_that_is_broken_or_another_under_its_name_is_not_taken_in()
    {
        var map = await File.ReadAllTextAsync(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_folder.In("from/orchard-sprayer-pump.map.yaml"), map.Replace("holds: [upper-head]", "holds: [uper-head]"), TestContext.Current.CancellationToken);
        Assert.Contains("uper-head", await Refused(["import", _folder.In("from"), .. Stores.First()]));
        await File.WriteAllTextAsync(_folder.In("from/orchard-sprayer-pump.map.yaml"), map, TestContext.Current.CancellationToken);
        Assert.Equal(0, (await LastoffProgram.Run(["import", _folder.In("from"), .. Stores.First()])).ExitCode);
        await File.WriteAllTextAsync(_folder.In("from/orchard-sprayer-pump.map.yaml"), map + "\n# edited\n", TestContext.Current.CancellationToken);
        Assert.Contains("is here with another text", await Refused(["import", _folder.In("from"), .. Stores.First()]));
        Assert.Equal(0, (await LastoffProgram.Run(["import", _folder.In("from"), "--replace-maps", .. Stores.First()])).ExitCode);
    }

    [Fact]
    public async Task A_damaged_file_is_not_served_and_a_backup_brings_the_records_back()
    {
        var file = _folder.In("data/lastoff.db");
        await Verify("--data", _folder.In("data"));
        var backup = _folder.In("kept.db");
        File.Copy(file, backup);
        await using (var damaged = new FileStream(file, FileMode.Open))
        {
            damaged.Position = 4096 * 3;
            damaged.Write(new byte[9000]);
        }

        Assert.Contains("lastoff.db is damaged", await Refused(["serve", "--data", _folder.In("data"), "--urls", "http://localhost:1"]));
        var ran = await LastoffProgram.Run("restore", backup, "--data", _folder.In("data"));
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("-aside-", ran.Output);
        Assert.Contains("99 entries", await Verify("--data", _folder.In("data")));
        File.WriteAllText(_folder.In("torn.db"), "no database at all, but long enough to be taken for one at first sight");
        Assert.Contains("torn.db is no whole backup", await Refused(["restore", _folder.In("torn.db"), "--data", _folder.In("data")]));
    }

    [Fact]
    public async Task What_is_no_export_is_refused_in_our_own_words()
    {
        await File.WriteAllTextAsync(_folder.In("shopping.zip"), "bread, butter", TestContext.Current.CancellationToken);
        Assert.Equal(
            $"The import is not whole: {_folder.In("shopping.zip")}: this is no ZIP file, or a damaged one; give a folder or ZIP file that `lastoff export` wrote.",
            (await Refused(["import", _folder.In("shopping.zip"), .. Stores.First()])).TrimEnd());
        Assert.Contains("there is no such folder or ZIP file", await Refused(["import", _folder.In("no/where.zip"), .. Stores.First()]));
    }

    private static async Task<string> Verify(params string[] where)
    {
        var ran = await LastoffProgram.Run(["verify", .. where]);
        Assert.Equal("", ran.Error);
        return ran.Output;
    }

    private static async Task<string> Refused(IReadOnlyList<string> arguments)
    {
        var ran = await LastoffProgram.Run([.. arguments]);
        Assert.Equal(2, ran.ExitCode);
        Assert.Equal("", ran.Output);
        Assert.Single(ran.Error.TrimEnd().Split('\n'));
        return ran.Error;
    }
}
