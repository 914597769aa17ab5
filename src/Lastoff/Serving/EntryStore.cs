using Lastoff.Core.Ledger;
using Microsoft.Data.Sqlite;

namespace Lastoff.Serving;

/// <summary>A job as the store knows it.</summary>
public sealed record StoredJob(Guid Id, string Map, long Entries);

/// <summary>Entries of one job in order of arrival, and where to go on from.</summary>
public sealed record EntryPage(IReadOnlyList<string> Lines, long UpTo);

public sealed record RefusedEntry(string Id, string Why);

/// <summary>What became of the entries a device sent: those the store now holds for good, and those it will not take.</summary>
public sealed record Receipt(IReadOnlyList<Guid> Accepted, IReadOnlyList<RefusedEntry> Refused);

/// <summary>Keeps the entries in SQLite. What it has accepted is on the disk.</summary>
public sealed class EntryStore
{
    private readonly string _connection;
    private readonly Lock _writing = new();

    public EntryStore(string file)
    {
        _connection = new SqliteConnectionStringBuilder { DataSource = file }.ToString();
        using var connection = Open();
        Run(connection, "PRAGMA journal_mode = WAL");
        Run(connection, """
            CREATE TABLE IF NOT EXISTS entries (
                arrival INTEGER PRIMARY KEY AUTOINCREMENT,
                job TEXT NOT NULL,
                id TEXT NOT NULL,
                device TEXT NOT NULL,
                seq INTEGER NOT NULL,
                line TEXT NOT NULL,
                UNIQUE (job, id),
                UNIQUE (job, device, seq)
            )
            """);
        Run(connection, "CREATE INDEX IF NOT EXISTS entries_by_job ON entries (job, arrival)");
    }

    public IReadOnlyList<StoredJob> Jobs()
    {
        using var connection = Open();
        using var command = connection.CreateCommand();
        command.CommandText = """
            SELECT first.job, first.line, (SELECT count(*) FROM entries WHERE job = first.job)
            FROM entries AS first WHERE first.id = first.job ORDER BY first.arrival
            """;
        using var reader = command.ExecuteReader();
        var jobs = new List<StoredJob>();
        while (reader.Read())
        {
            if (EntryLine.TryRead(reader.GetString(1), out var entry, out _) && ActKinds.Read(entry!, out _) is JobOpened opened)
            {
                jobs.Add(new StoredJob(Guid.Parse(reader.GetString(0)), opened.Map, reader.GetInt64(2)));
            }
        }

        return jobs;
    }

    /// <summary>The entries that arrived after the one numbered <paramref name="after"/>.</summary>
    public EntryPage Page(Guid job, long after)
    {
        using var connection = Open();
        using var command = Command(connection, "SELECT arrival, line FROM entries WHERE job = $job AND arrival > $after ORDER BY arrival", job);
        command.Parameters.AddWithValue("$after", after);
        using var reader = command.ExecuteReader();
        var lines = new List<string>();
        while (reader.Read())
        {
            after = reader.GetInt64(0);
            lines.Add(reader.GetString(1));
        }

        return new EntryPage(lines, after);
    }

    /// <summary>Takes in lines from a device. Sending the same lines again changes nothing and accepts them again.</summary>
    public Receipt Take(Guid job, IEnumerable<string> lines)
    {
        var accepted = new List<Guid>();
        var refused = new List<RefusedEntry>();
        lock (_writing)
        {
            using var connection = Open();
            using var transaction = connection.BeginTransaction();
            foreach (var line in lines)
            {
                if (!EntryLine.TryRead(line, out var entry, out var fault))
                {
                    refused.Add(new RefusedEntry("", $"This entry cannot be taken, because {fault}."));
                }
                else if (TakeOne(connection, job, entry!) is { } why)
                {
                    refused.Add(new RefusedEntry(entry!.Id.ToString(), why));
                }
                else
                {
                    accepted.Add(entry!.Id);
                }
            }

            transaction.Commit();
        }

        return new Receipt(accepted, refused);
    }

    /// <summary>Why the entry is not taken; null when it is, or was before.</summary>
    private static string? TakeOne(SqliteConnection connection, Guid job, Entry entry)
    {
        if (entry.Seal is null)
        {
            return "This entry has no seal; entries are sealed when they are written.";
        }

        if (Line(connection, job, "id = $value", entry.Id.ToString()) is { } known)
        {
            return known == entry.Line ? null : $"Another entry is here under the identifier {entry.Id}.";
        }

        if (entry.Id != job && Line(connection, job, "id = $value", job.ToString()) is null)
        {
            return "The job is not open here: send its first entry first.";
        }

        if (entry.Id == job && ActKinds.Read(entry, out _) is not JobOpened)
        {
            return "A job begins with the entry that opens it.";
        }

        var before = Line(connection, job, "device = $value ORDER BY seq DESC LIMIT 1", entry.Device) is { } last
            && EntryLine.TryRead(last, out var read, out _) ? read : null;
        if (Chain.Fault(before, entry) is { } broken)
        {
            return $"Entry {entry.Seq} of device {entry.Device} {broken}.";
        }

        using var insert = Command(connection, "INSERT INTO entries (job, id, device, seq, line) VALUES ($job, $id, $device, $seq, $line)", job);
        insert.Parameters.AddWithValue("$id", entry.Id.ToString());
        insert.Parameters.AddWithValue("$device", entry.Device);
        insert.Parameters.AddWithValue("$seq", entry.Seq);
        insert.Parameters.AddWithValue("$line", entry.Line);
        insert.ExecuteNonQuery();
        return null;
    }

    private static string? Line(SqliteConnection connection, Guid job, string where, string value)
    {
        using var command = Command(connection, $"SELECT line FROM entries WHERE job = $job AND {where}", job);
        command.Parameters.AddWithValue("$value", value);
        return command.ExecuteScalar() as string;
    }

    private static SqliteCommand Command(SqliteConnection connection, string sql, Guid job)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Parameters.AddWithValue("$job", job.ToString());
        return command;
    }

    private SqliteConnection Open()
    {
        var connection = new SqliteConnection(_connection);
        connection.Open();
        // Full: a commit has reached the disk before anybody is told so.
        Run(connection, "PRAGMA synchronous = FULL");
        return connection;
    }

    private static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
