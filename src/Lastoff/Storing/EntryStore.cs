using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>The entries of one workshop. What it has accepted is on the disk.</summary>
public sealed class EntryStore : IDisposable
{
    private readonly Database _database;
    private readonly int _workshop;
    private readonly Writer _writer;

    internal EntryStore(Database database, int workshop)
    {
        (_database, _workshop) = (database, workshop);
        _writer = new Writer(database, workshop);
    }

    /// <summary>Tries to read, and to write if that was not done yet or failed the last time.</summary>
    /// <exception cref="DbException">The records cannot be read.</exception>
    /// <exception cref="StoreAwayException">They cannot be written.</exception>
    public async Task TryAsync()
    {
        using (var connection = _database.OpenToRead())
        {
            _ = Identity(connection);
        }

        if (!_writer.IsSound)
        {
            await TakeAsync(Guid.Empty, []);
        }
    }

    /// <summary>Which store this is.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public string Store()
    {
        using var connection = _database.OpenToRead();
        return Identity(connection);
    }

    /// <summary>The jobs in the order in which they were opened.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public JobList Jobs()
    {
        using var connection = _database.OpenToRead();
        var store = Identity(connection);
        return new JobList(store, ReadJobs(connection, _workshop));
    }

    /// <summary>One job, or null when it is not here.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public StoredJob? Job(Guid id)
    {
        using var connection = _database.OpenToRead();
        using var command = connection.Command("SELECT id, map, entries FROM jobs WHERE workshop = @workshop AND id = @job", ("@workshop", _workshop), ("@job", id.ToString()));
        using var reader = command.ExecuteReader();
        return reader.Read() ? Job(reader) : null;
    }

    /// <summary>The entries that arrived after the one numbered <paramref name="after"/>.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public async Task<EntryPage> PageAsync(Guid job, long after)
    {
        await using var connection = await _database.OpenToReadAsync();
        await using var command = connection.Command(
            "SELECT arrival, line FROM entries WHERE workshop = @workshop AND job = @job AND arrival > @after ORDER BY arrival",
            ("@workshop", _workshop), ("@job", job.ToString()), ("@after", after));
        await using var reader = await command.ExecuteReaderAsync();
        var lines = new List<string>();
        while (await reader.ReadAsync())
        {
            after = reader.GetInt64(0);
            lines.Add(reader.GetString(1));
        }

        return new EntryPage(lines, after);
    }

    /// <summary>Takes in lines from a device. Sending the same lines again changes nothing and accepts them again.</summary>
    /// <exception cref="StoreAwayException">Nothing was taken, or it is not known; sending it again is right in both cases.</exception>
    public Task<Receipt> TakeAsync(Guid job, IEnumerable<string> lines) => _writer.TakeAsync(SentEntries.Read(job, lines));

    public void Dispose() => _writer.Dispose();

    /// <summary>Which store this is. A device that knew another sends again what it has.</summary>
    private string Identity(DbConnection connection) =>
        (string)connection.One($"SELECT {_database.IdentityExpression} FROM workshops WHERE id = @workshop", ("@workshop", _workshop))!;

    internal static IReadOnlyList<StoredJob> ReadJobs(DbConnection connection, int workshop)
    {
        using var command = connection.Command("SELECT id, map, entries FROM jobs WHERE workshop = @workshop ORDER BY opened", ("@workshop", workshop));
        using var reader = command.ExecuteReader();
        var jobs = new List<StoredJob>();
        while (reader.Read())
        {
            jobs.Add(Job(reader));
        }

        return jobs;
    }

    private static StoredJob Job(DbDataReader reader) => new(Guid.Parse(reader.GetString(0)), reader.GetString(1), reader.GetInt64(2));
}
