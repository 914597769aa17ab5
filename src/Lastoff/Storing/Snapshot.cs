using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>An entry as it lies in the records: what they say of its line beside it.</summary>
public sealed record StoredLine(string Id, string Device, long Seq, string Line);

/// <summary>A workshop's records as they are at one moment, whatever is written while they are read.</summary>
public sealed class Snapshot : IDisposable
{
    private readonly DbConnection _connection;
    private readonly DbTransaction _transaction;
    private readonly int _workshop;

    /// <exception cref="DbException">The database is away.</exception>
    public Snapshot(Workshop workshop)
    {
        (_workshop, Where) = (workshop.Number, workshop.Database.Where);
        _connection = workshop.Database.OpenToRead();
        _transaction = workshop.Database.BeginToRead(_connection);
        Jobs = EntryStore.ReadJobs(_connection, _workshop);
    }

    /// <summary>Where the records are, in words for a person.</summary>
    public string Where { get; }

    /// <summary>The jobs in the order in which they were opened.</summary>
    public IReadOnlyList<StoredJob> Jobs { get; }

    /// <summary>The entries of a job in the order in which they arrived.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public IEnumerable<StoredLine> Lines(Guid job)
    {
        using var command = _connection.Command(
            "SELECT id, device, seq, line FROM entries WHERE workshop = @workshop AND job = @job ORDER BY arrival", ("@workshop", _workshop), ("@job", job.ToString()));
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return new StoredLine(reader.GetString(0), reader.GetString(1), reader.GetInt64(2), reader.GetString(3));
        }
    }

    /// <summary>Every text of a map that there ever was, in the order in which they were saved.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public IEnumerable<SavedText> MapTexts() => TextTable.All(_connection, _workshop);

    /// <summary>The identifier of an entry under no job, whose own row was taken away; null when there is none.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public string? Stranger() => _connection.One(
        "SELECT min(id) FROM entries WHERE workshop = @workshop AND NOT EXISTS (SELECT 1 FROM jobs WHERE jobs.workshop = entries.workshop AND jobs.id = entries.job)",
        ("@workshop", _workshop)) as string;

    public void Dispose()
    {
        _transaction.Dispose();
        _connection.Dispose();
    }
}
