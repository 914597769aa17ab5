using System.Data.Common;
using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Storing;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Lastoff.Bench;

/// <summary>How much the stores take, and how soon they answer.</summary>
public static class LoadBench
{
    private const int Jobs = 1000;
    private const int EntriesOfEach = 100;
    private const int Phones = 300;

    public static async Task<int> RunAsync(string repository)
    {
        var net = OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(Path.Combine(repository, "demo", "orchard-sprayer-pump.map.yaml")), "map").Map!);
        Console.WriteLine("Fold");
        Fold(net);
        var rows = Rows();
        var folder = Directory.CreateTempSubdirectory("lastoff-load-").FullName;
        using var cluster = PostgresCluster.Start(repository);
        try
        {
            Console.WriteLine($"\nEntries a second into the database, {Jobs * EntriesOfEach} rows; the store looks each entry through, raw inserts do not");
            Console.WriteLine($"{"",-12} {"in pieces of",12} {"raw",10} {"store",10} {"store/raw",10}");
            foreach (var piece in (int[])[200, 20])
            {
                var sqlite = Path.Combine(folder, $"raw-{piece}");
                Report("SQLite", piece, await RawAsync(rows, piece, await SqliteAsync(sqlite)), await StoreAsync(rows, piece, Workshop.Open(new DataFolder(Path.Combine(folder, $"store-{piece}")))));
                Report("PostgreSQL", piece, await RawAsync(rows, piece, await PostgresAsync(cluster, $"raw {piece}")), await StoreAsync(rows, piece, Workshop.Open(new PostgresDatabase(cluster.Connection), $"store {piece}")));
            }

            Console.WriteLine($"\nOver HTTP, a workshop of {Jobs * EntriesOfEach} entries; {Phones} phones that each write an entry a second, hear the news and fetch");
            Console.WriteLine($"{"",-12} {"open a job",26} {"calls",8} {"calls/s",8} {"entry acknowledged",26} {"any call",26}");
            await PhonesAsync("SQLite", rows, "--data", Path.Combine(folder, "store-200"));
            await PhonesAsync("PostgreSQL", rows, "--postgres", cluster.Connection, "--workshop", "store 200");
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Fold(OperationNet net)
    {
        var device = new SimulatedDevice("bench", new HttpClient(), new Random(5));
        var id = device.Open(net);
        for (var entry = 0; entry < 4000; entry++)
        {
            device.Write();
        }

        var entries = device.On(id).Entries;
        // By the processor's clock: who else the machine works for does not count. The first times are those of a program that has just started, and is still being compiled.
        const int Times = 100;
        var cold = Environment.CpuUsage.TotalTime;
        Core.Ledger.Fold.Of(net, entries);
        Console.WriteLine($"{entries.Count / (Environment.CpuUsage.TotalTime - cold).TotalSeconds:n0} entries a second of processor time the first time");
        for (var warm = 0; warm < 3 * Times; warm++)
        {
            Core.Ledger.Fold.Of(net, entries);
        }

        var start = Environment.CpuUsage.TotalTime;
        for (var time = 0; time < Times; time++)
        {
            Core.Ledger.Fold.Of(net, entries);
        }

        Console.WriteLine($"{Times * entries.Count / (Environment.CpuUsage.TotalTime - start).TotalSeconds:n0} entries a second of processor time, a ledger of {entries.Count} moves and notes over and over");
        start = Environment.CpuUsage.TotalTime;
        for (var time = 0; time < Times; time++)
        {
            foreach (var entry in entries)
            {
                SimulatedDevice.Read(entry.Line);
            }
        }

        Console.WriteLine($"{Times * entries.Count / (Environment.CpuUsage.TotalTime - start).TotalSeconds:n0} lines a second of processor time read, with their seals looked at");
    }

    /// <summary>Notes in many jobs, two devices in each, in the order in which they are sent.</summary>
    private static List<(Guid Job, Entry Entry)> Rows()
    {
        var random = new Random(9);
        var rows = new List<(Guid, Entry)>();
        var bytes = new byte[10];
        for (var job = 0; job < Jobs; job++)
        {
            Entry? opening = null;
            Guid? latest = null;
            var last = new Entry?[2];
            for (var entry = 0; entry < EntriesOfEach; entry++)
            {
                random.NextBytes(bytes);
                var at = DateTimeOffset.UnixEpoch.AddYears(56).AddMinutes((job * 200) + entry);
                latest = EntryId.Next(at, latest, bytes);
                Act act = entry == 0 ? new JobOpened("orchard-sprayer-pump", "Invented sprayer", "It drips", "A seal", ["upper-diaphragm"], []) : new Moved(Move.JointUndone, $"joint-{entry}", "measured, not done");
                last[entry % 2] = EntryLine.Write(act, latest.Value, $"device-{job % 30}-{entry % 2}", at, "Invented Mechanic", last[entry % 2]);
                opening ??= last[0];
                rows.Add((opening!.Id, last[entry % 2]!));
            }
        }

        return rows;
    }

    private static void Report(string name, int piece, double raw, double store) =>
        Console.WriteLine($"{name,-12} {piece,12} {raw,10:n0} {store,10:n0} {store / raw,10:0.00}");

    private static async Task<DbConnection> SqliteAsync(string path)
    {
        var folder = new DataFolder(path);
        await using (Workshop.Open(folder))
        {
        }

        var connection = new SqliteConnection($"Data Source={folder.Records};Pooling=False");
        await connection.OpenAsync();
        await using var pragma = connection.CreateCommand();
        pragma.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL";
        await pragma.ExecuteNonQueryAsync();
        return connection;
    }

    private static async Task<DbConnection> PostgresAsync(PostgresCluster cluster, string name)
    {
        await using (Workshop.Open(new PostgresDatabase(cluster.Connection), name))
        {
        }

        var connection = new NpgsqlConnection(cluster.Connection);
        await connection.OpenAsync();
        return connection;
    }

    /// <summary>One prepared insert for each row, one transaction for each piece.</summary>
    private static async Task<double> RawAsync(List<(Guid Job, Entry Entry)> rows, int piece, DbConnection connection)
    {
        await using var _ = connection;
        using var workshop = connection.CreateCommand();
        workshop.CommandText = "SELECT max(id) FROM workshops";
        var number = Convert.ToInt32(await workshop.ExecuteScalarAsync(), null);
        using var insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO entries (workshop, arrival, job, id, device, seq, line) VALUES (@workshop, @arrival, @job, @id, @device, @seq, @line)";
        foreach (var (name, type) in ((string, System.Data.DbType)[])
            [("@workshop", System.Data.DbType.Int32), ("@arrival", System.Data.DbType.Int64), ("@job", System.Data.DbType.String), ("@id", System.Data.DbType.String),
             ("@device", System.Data.DbType.String), ("@seq", System.Data.DbType.Int64), ("@line", System.Data.DbType.String)])
        {
            var parameter = insert.CreateParameter();
            (parameter.ParameterName, parameter.DbType) = (name, type);
            insert.Parameters.Add(parameter);
        }

        insert.Prepare();
        insert.Parameters[0].Value = number;
        long arrival = 0;
        var watch = Stopwatch.StartNew();
        foreach (var some in rows.Chunk(piece))
        {
            using var transaction = connection.BeginTransaction();
            insert.Transaction = transaction;
            foreach (var (job, entry) in some)
            {
                insert.Parameters[1].Value = ++arrival;
                insert.Parameters[2].Value = job.ToString();
                insert.Parameters[3].Value = entry.Id.ToString();
                insert.Parameters[4].Value = entry.Device;
                insert.Parameters[5].Value = entry.Seq;
                insert.Parameters[6].Value = entry.Line;
                insert.ExecuteNonQuery();
            }

            transaction.Commit();
        }

        return rows.Count / watch.Elapsed.TotalSeconds;
    }

    /// <summary>Eight senders, each with jobs of its own, each waiting for its receipt before it sends the next piece.</summary>
    private static async Task<double> StoreAsync(List<(Guid Job, Entry Entry)> rows, int piece, Workshop workshop)
    {
        await using var _ = workshop;
        var sends = rows.GroupBy(row => row.Job).Select((job, i) => (Sender: i % 8, Job: job)).GroupBy(s => s.Sender)
            .Select(sender => sender.SelectMany(s => s.Job.Chunk(piece).Select(some => (s.Job.Key, Lines: some.Select(row => row.Entry.Line).ToList()))).ToList()).ToList();
        var watch = Stopwatch.StartNew();
        var acknowledged = await Task.WhenAll(sends.Select(sender => Task.Run(async () =>
        {
            var count = 0;
            foreach (var (job, lines) in sender)
            {
                count += (await workshop.Entries.TakeAsync(job, lines)).Accepted.Count;
            }

            return count;
        })));
        return acknowledged.Sum() / watch.Elapsed.TotalSeconds;
    }

    private static async Task PhonesAsync(string name, List<(Guid Job, Entry Entry)> rows, params string[] store)
    {
        await using var server = new ServerProcess(Built.Lastoff, store);
        await server.StartAsync();
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 2 * Phones }) { BaseAddress = server.Address };
        var jobs = rows.Select(row => row.Job).Distinct().ToList();
        var openings = new List<double>();
        for (var time = 0; time < 30; time++)
        {
            var watch = Stopwatch.StartNew();
            await client.GetFromJsonAsync<JsonArray>("api/jobs");
            var page = (await client.GetFromJsonAsync<JsonObject>($"api/jobs/{jobs[time * 7]}/entries"))!;
            Trace.Assert(page["lines"]!.AsArray().Count >= EntriesOfEach);
            openings.Add(watch.Elapsed.TotalMilliseconds);
        }

        using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        var (sends, calls) = (new List<double>(), new List<double>());
        await Task.WhenAll(Enumerable.Range(0, Phones).Select(phone => PhoneAsync(client, jobs[phone], rows.Last(row => row.Job == jobs[phone]).Entry.Id, phone, sends, calls, stop.Token)));
        Console.WriteLine($"{name,-12} {Spread(openings),26} {calls.Count,8} {calls.Count / 20.0,8:0} {Spread(sends),26} {Spread(calls),26}");
    }

    private static async Task PhoneAsync(HttpClient client, Guid job, Guid latest, int phone, List<double> sends, List<double> calls, CancellationToken stop)
    {
        var random = new Random(phone);
        var bytes = new byte[10];
        Entry? last = null;
        long after = 0;
        try
        {
            await Task.Delay(random.Next(1000), stop);
            using var news = await client.GetStreamAsync("api/live", stop);
            while (true)
            {
                random.NextBytes(bytes);
                latest = EntryId.Next(DateTimeOffset.UtcNow, latest, bytes);
                last = EntryLine.Write(new Noted("a note from the bay"), latest, $"phone-{phone}", DateTimeOffset.UtcNow, "Invented Mechanic", last);
                await TimedAsync(async () =>
                {
                    using var answer = await client.PostAsync($"api/jobs/{job}/entries", new StringContent(last.Line), stop);
                    answer.EnsureSuccessStatusCode();
                }, sends, calls);
                await TimedAsync(() => client.GetStringAsync("api/jobs", stop), calls);
                await TimedAsync(async () => after = (long)(await client.GetFromJsonAsync<JsonObject>($"api/jobs/{job}/entries?after={after}", stop))!["upTo"]!, calls);
                await Task.Delay(700 + random.Next(600), stop);
            }
        }
        catch (OperationCanceledException)
        {
        }
    }

    private static async Task TimedAsync(Func<Task> call, params List<double>[] times)
    {
        var watch = Stopwatch.StartNew();
        await call();
        foreach (var list in times)
        {
            lock (list)
            {
                list.Add(watch.Elapsed.TotalMilliseconds);
            }
        }
    }

    private static string Spread(List<double> milliseconds)
    {
        milliseconds.Sort();
        return $"p50 {milliseconds[milliseconds.Count / 2]:0} ms, p99 {milliseconds[milliseconds.Count * 99 / 100]:0} ms";
    }
}
