using System.Data.Common;
using System.Diagnostics;
using Lastoff.Core.Ledger;
using Lastoff.Storing;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Lastoff.Bench;

/// <summary>How much the stores take.</summary>
public static class LoadBench
{
    public static async Task<int> RunAsync(string repository)
    {
        var rows = LargeWorkshop.Rows();
        var folder = Directory.CreateTempSubdirectory("lastoff-load-").FullName;
        using var cluster = PostgresCluster.Start(repository);
        try
        {
            Console.WriteLine($"Entries a second into the database, {rows.Count} rows; the store looks each entry through, raw inserts do not");
            Console.WriteLine($"{"",-12} {"in pieces of",12} {"raw",10} {"store",10} {"store/raw",10}");
            foreach (var piece in (int[])[200, 20])
            {
                var sqlite = Path.Combine(folder, $"raw-{piece}");
                Report("SQLite", piece, await RawAsync(rows, piece, await SqliteAsync(sqlite)), await StoreAsync(rows, piece, Workshop.Open(new DataFolder(Path.Combine(folder, $"store-{piece}")))));
                Report("PostgreSQL", piece, await RawAsync(rows, piece, await PostgresAsync(cluster, $"raw {piece}")), await StoreAsync(rows, piece, Workshop.Open(new PostgresDatabase(cluster.Connection), $"store {piece}")));
            }

            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
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
}
