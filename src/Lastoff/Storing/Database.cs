using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>The records cannot be reached or written at the moment; the message is the one sentence a person reads. Nothing was taken.</summary>
public sealed class StoreAwayException(string sentence, Exception? inner = null) : Exception(sentence, inner);

/// <summary>A database that keeps records. Most statements are the same for every database; what differs between them is here.</summary>
public abstract class Database : IAsyncDisposable
{
    /// <summary>Where the records are, in words for a person; no password is in it.</summary>
    public abstract string Where { get; }

    /// <summary>An SQL expression for the identity of one row of <c>workshops</c>: another value once the records went back in time or are others.</summary>
    public abstract string IdentityExpression { get; }

    /// <summary>A connection for one reading; giving it back is cheap.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public abstract DbConnection OpenToRead();

    /// <summary>The same for what is asked for often: no thread waits meanwhile for a database that is elsewhere.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public abstract ValueTask<DbConnection> OpenToReadAsync();

    /// <summary>A connection on which a commit has reached the disk before it returns.</summary>
    /// <exception cref="DbException">The database is away.</exception>
    public abstract DbConnection OpenToWrite();

    public abstract DbTransaction BeginToWrite(DbConnection connection);

    /// <summary>Every reading in it sees the records as they were at the first.</summary>
    public abstract DbTransaction BeginToRead(DbConnection connection);

    /// <summary>What a SELECT ends with whose row no other server may change until the transaction ends.</summary>
    public abstract string RowLock { get; }

    /// <summary>No other server changes the form of the tables until the transaction ends.</summary>
    public abstract void LockForm(DbTransaction transaction);

    public abstract bool HasTable(DbConnection connection, string name);

    /// <summary>The statements by which entries come into a workshop. They differ, as one database is waited for and the other is not.</summary>
    internal abstract EntryRows EntryRows(DbConnection connection, int workshop);

    /// <summary>Commits, and tells every server on the database, this one too, what is new; nobody hears of what is not committed.</summary>
    public abstract void CommitAndTell(DbTransaction transaction, int workshop, NewsOf what);

    /// <summary>Passes on what is told, by this server or another, until it is disposed of. When something may have been missed, all of it is told.</summary>
    public abstract IAsyncDisposable Hear(int workshop, News news);

    /// <summary>Why the database did not do what it was asked, as one sentence.</summary>
    public abstract string Explain(Exception exception);

    public abstract ValueTask DisposeAsync();
}
