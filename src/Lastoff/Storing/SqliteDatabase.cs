using System.Data.Common;
using Microsoft.Data.Sqlite;

namespace Lastoff.Storing;

/// <summary>One file, for one server. It keeps a write-ahead log beside the file.</summary>
public sealed class SqliteDatabase : Database
{
    private const int DiskFull = 13;
    private const int IoError = 10;
    private const int Damaged = 11;
    private const int NotADatabase = 26;

    private readonly string _connection;
    private News? _news;

    /// <param name="file">Made when it is not there.</param>
    public SqliteDatabase(string file)
    {
        File = file;
        _connection = new SqliteConnectionStringBuilder { DataSource = file }.ToString();
    }

    public string File { get; }
    public override string Where => File;
    public override string IdentityExpression => "identity";
    public override string RowLock => "";

    public override DbConnection OpenToRead()
    {
        var connection = new SqliteConnection(_connection);
        connection.Open();
        return connection;
    }

    public override ValueTask<DbConnection> OpenToReadAsync() => new(OpenToRead());

    public override DbConnection OpenToWrite()
    {
        var connection = OpenToRead();
        connection.Run("PRAGMA journal_mode = WAL");
        connection.Run("PRAGMA synchronous = FULL");
        return connection;
    }

    // Begun at once as a writer, it is the only one in the whole file.
    public override DbTransaction BeginToWrite(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: false);

    // Begun as a reader, it sees in the write-ahead log what was committed before its first reading, and nothing after.
    public override DbTransaction BeginToRead(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: true);

    public override void LockForm(DbTransaction transaction)
    {
    }

    public override bool HasTable(DbConnection connection, string name) =>
        connection.One("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = @name", ("@name", name)) is not null;

    /// <summary>What is wrong with the file, or null.</summary>
    public string? Damage()
    {
        try
        {
            using var connection = OpenToRead();
            return connection.One("PRAGMA integrity_check(1)") is "ok" ? null : "its pages do not fit together";
        }
        catch (SqliteException e) when (e.SqliteErrorCode is Damaged or NotADatabase)
        {
            return e.SqliteErrorCode == NotADatabase ? "it is not a database" : "its pages do not fit together";
        }
    }

    /// <summary>Brings what is in the write-ahead log into the file itself.</summary>
    public void Settle()
    {
        using var connection = OpenToRead();
        connection.Run("PRAGMA wal_checkpoint(TRUNCATE)");
    }

    internal override EntryRows EntryRows(DbConnection connection, int workshop) => new SqliteEntryRows(connection, workshop);

    public override void CommitAndTell(DbTransaction transaction, int workshop, NewsOf what)
    {
        transaction.Commit();
        _news?.Tell(what);
    }

    public override IAsyncDisposable Hear(int workshop, News news)
    {
        (_news, news.IsHearing) = (news, true);
        return new Deaf(this);
    }

    public override string Explain(Exception exception) => exception switch
    {
        SqliteException { SqliteErrorCode: DiskFull } => $"The disk is full: {File} cannot be written; make room.",
        SqliteException { SqliteErrorCode: IoError } => $"The disk does not take what is written to {File}; make room, or look after the disk.",
        SqliteException { SqliteErrorCode: Damaged or NotADatabase } => $"{File} is damaged; bring a backup back with `lastoff restore`.",
        _ => $"{File} cannot be read or written: {exception.Message.TrimEnd('.')}.",
    };

    public override ValueTask DisposeAsync()
    {
        try
        {
            Settle();
        }
        catch (SqliteException)
        {
            // On a full disk all stays in the log, where the next start finds it.
        }

        Release();
        return ValueTask.CompletedTask;
    }

    /// <summary>Deletes a file with what SQLite may have left beside it.</summary>
    public static void Delete(string file)
    {
        foreach (var part in Parts(file))
        {
            System.IO.File.Delete(part);
        }
    }

    /// <summary>The file, and what SQLite keeps beside it.</summary>
    public static IEnumerable<string> Parts(string file) => [file, file + "-wal", file + "-shm", file + "-journal"];

    /// <summary>Closes the connections that are kept open for the next use.</summary>
    public void Release()
    {
        using var connection = new SqliteConnection(_connection);
        SqliteConnection.ClearPool(connection);
    }

    private sealed class Deaf(SqliteDatabase database) : IAsyncDisposable
    {
        public ValueTask DisposeAsync()
        {
            database._news = null;
            return ValueTask.CompletedTask;
        }
    }
}
