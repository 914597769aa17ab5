using System.Data.Common;
using Npgsql;

namespace Lastoff.Storing;

/// <summary>A PostgreSQL database, for several servers and several workshops.</summary>
public sealed class PostgresDatabase : Database
{
    private const string Channel = "lastoff";
    // Any number will do, as long as every server takes the same.
    private const long FormLock = 0x6c617374;

    // What is given stands after it, and counts instead. Each connection is a process of the database with plans of its own: more of them than it has processors for make nothing quicker.
    private const string Usual = "Application Name=lastoff;Keepalive=15;Maximum Pool Size=16;Max Auto Prepare=20;Auto Prepare Min Usages=2;Timeout=5;Command Timeout=20;";

    private readonly NpgsqlDataSource _source;

    /// <exception cref="ArgumentException">The text is not a connection string.</exception>
    public PostgresDatabase(string connection)
    {
        var settings = new NpgsqlConnectionStringBuilder($"{Usual}{connection}");
        Where = $"the database “{settings.Database ?? settings.Username}” at {settings.Host}";
        _source = NpgsqlDataSource.Create(settings);
    }

    public override string Where { get; }

    // A dump read back gives the table another number, another cluster has another name, and a cluster brought back to an earlier moment,
    // or a standby that took over, goes on in another timeline.
    public override string IdentityExpression =>
        "md5(identity || (SELECT system_identifier FROM pg_control_system()) || '/' || (SELECT timeline_id FROM pg_control_checkpoint()) || '/' || 'entries'::regclass::oid)";

    public override string RowLock => " FOR UPDATE";

    public override DbConnection OpenToRead() => _source.OpenConnection();

    public override async ValueTask<DbConnection> OpenToReadAsync() => await _source.OpenConnectionAsync();

    public override DbConnection OpenToWrite()
    {
        var connection = _source.OpenConnection();
        connection.Run("SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') = 'off'");
        return connection;
    }

    public override DbTransaction BeginToWrite(DbConnection connection) => connection.BeginTransaction();

    public override DbTransaction BeginToRead(DbConnection connection) => connection.BeginTransaction(System.Data.IsolationLevel.RepeatableRead);

    public override void LockForm(DbTransaction transaction) =>
        transaction.Connection!.Run("SELECT pg_advisory_xact_lock(@lock)", ("@lock", FormLock));

    public override bool HasTable(DbConnection connection, string name) => connection.One("SELECT to_regclass(@name)::oid", ("@name", name)) is not null;

    internal override EntryRows EntryRows(DbConnection connection, int workshop) => new PostgresEntryRows(connection, workshop);

    public override void CommitAndTell(DbTransaction transaction, int workshop, NewsOf what)
    {
        // PostgreSQL sends it out with the commit.
        transaction.Connection!.Run("SELECT pg_notify(@channel, @told)", ("@channel", Channel), ("@told", PostgresEar.Told(workshop, what)));
        transaction.Commit();
    }

    public override IAsyncDisposable Hear(int workshop, News news) => new PostgresEar(_source, Channel, workshop, news);

    public override string Explain(Exception exception) => exception switch
    {
        PostgresException { SqlState: PostgresErrorCodes.DiskFull } => $"The disk of {Where} is full; make room.",
        PostgresException refused => $"{Upper(Where)} refuses: {refused.MessageText.TrimEnd('.')}.",
        _ => $"{Upper(Where)} is away: {exception.Message.TrimEnd('.')}.",
    };

    public override ValueTask DisposeAsync() => _source.DisposeAsync();

    private static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
