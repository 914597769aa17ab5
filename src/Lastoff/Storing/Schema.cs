using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>The tables, and how those of an earlier version become those of this one. A version once shipped is never edited: the next one follows it.</summary>
internal static class Schema
{
    public const int Version = 5;

    private const string First = """
        CREATE TABLE schema_version (version INTEGER NOT NULL);
        INSERT INTO schema_version (version) VALUES (1);
        CREATE TABLE workshops (
            id INTEGER PRIMARY KEY,
            name TEXT NOT NULL UNIQUE,
            identity TEXT NOT NULL,
            arrivals BIGINT NOT NULL
        );
        CREATE TABLE jobs (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            id TEXT NOT NULL,
            map TEXT NOT NULL,
            opened BIGINT NOT NULL,
            entries BIGINT NOT NULL,
            PRIMARY KEY (workshop, id)
        );
        CREATE TABLE entries (
            workshop INTEGER NOT NULL,
            arrival BIGINT NOT NULL,
            job TEXT NOT NULL,
            id TEXT NOT NULL,
            device TEXT NOT NULL,
            seq BIGINT NOT NULL,
            line TEXT NOT NULL,
            PRIMARY KEY (workshop, job, arrival),
            UNIQUE (workshop, job, id),
            UNIQUE (workshop, job, device, seq)
        );
        CREATE TABLE maps (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            name TEXT NOT NULL,
            yaml TEXT NOT NULL,
            PRIMARY KEY (workshop, name)
        );
        """;

    /// <summary>Who may come in.</summary>
    private const string Second = """
        CREATE TABLE people (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            id TEXT NOT NULL,
            name TEXT NOT NULL,
            name_key TEXT NOT NULL,
            role TEXT NOT NULL,
            password TEXT,
            stamp TEXT NOT NULL,
            failures INTEGER NOT NULL,
            locked_until TEXT,
            is_out INTEGER NOT NULL,
            PRIMARY KEY (workshop, id),
            UNIQUE (workshop, name_key)
        );
        CREATE TABLE passkeys (
            workshop INTEGER NOT NULL,
            credential TEXT NOT NULL,
            person TEXT NOT NULL,
            passkey TEXT NOT NULL,
            PRIMARY KEY (workshop, credential)
        );
        CREATE TABLE devices (
            workshop INTEGER NOT NULL,
            id TEXT NOT NULL,
            person TEXT NOT NULL,
            label TEXT NOT NULL,
            key_hash TEXT NOT NULL,
            joined TEXT NOT NULL,
            is_out INTEGER NOT NULL,
            PRIMARY KEY (workshop, id),
            UNIQUE (workshop, key_hash)
        );
        CREATE TABLE invitations (
            workshop INTEGER NOT NULL,
            code_hash TEXT NOT NULL,
            person TEXT NOT NULL,
            until TEXT NOT NULL,
            PRIMARY KEY (workshop, code_hash)
        );
        CREATE TABLE signing_keys (
            workshop INTEGER NOT NULL,
            name TEXT NOT NULL,
            xml TEXT NOT NULL
        );
        UPDATE schema_version SET version = 2;
        """;

    /// <summary>The photos of workshops whose servers share a database; a data folder has them as files.</summary>
    private const string Third = """
        CREATE TABLE photos (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            hash TEXT NOT NULL,
            bytes BYTEA NOT NULL,
            is_whole INTEGER NOT NULL,
            PRIMARY KEY (workshop, hash)
        );
        UPDATE schema_version SET version = 3;
        """;

    /// <summary>Every text of a map that there ever was. The newest ones come in when they are first read.</summary>
    private const string Fourth = """
        CREATE TABLE map_texts (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            hash TEXT NOT NULL,
            name TEXT NOT NULL,
            yaml TEXT NOT NULL,
            saved_by TEXT NOT NULL,
            saved_at TEXT NOT NULL,
            edited_from TEXT NOT NULL,
            PRIMARY KEY (workshop, hash)
        );
        UPDATE schema_version SET version = 4;
        """;

    /// <summary>What the workshop set for all its jobs: its price terms, its price list.</summary>
    private const string Fifth = """
        CREATE TABLE settings (
            workshop INTEGER NOT NULL REFERENCES workshops (id),
            name TEXT NOT NULL,
            text TEXT NOT NULL,
            version BIGINT NOT NULL,
            PRIMARY KEY (workshop, name)
        );
        UPDATE schema_version SET version = 5;
        """;

    /// <summary>Version 0 was one table in an SQLite file, of one workshop without a name. Entries keep their arrival: devices remember how far they have read.</summary>
    private const string FromNoVersion = """
        INSERT INTO workshops (id, name, identity, arrivals)
        SELECT 1, 'workshop', lower(hex(randomblob(16))), coalesce(max(arrival), 0) FROM entries_before;
        INSERT INTO entries (workshop, arrival, job, id, device, seq, line)
        SELECT 1, arrival, job, id, device, seq, line FROM entries_before ORDER BY arrival;
        INSERT INTO jobs (workshop, id, map, opened, entries)
        SELECT 1, first.job, json_extract(first.line, '$.data.map'), first.arrival, (SELECT count(*) FROM entries_before WHERE job = first.job)
        FROM entries_before AS first WHERE first.id = first.job;
        DROP TABLE entries_before;
        """;

    /// <summary>The version of the tables that are there: 0 before there was a version, null when there are none.</summary>
    public static int? VersionOf(Database database, DbConnection connection) =>
        database.HasTable(connection, "schema_version") ? Convert.ToInt32(connection.One("SELECT max(version) FROM schema_version"), null)
        : database.HasTable(connection, "entries") ? 0
        : null;

    /// <summary>Brings the tables to this version and finds the workshop, or adds it; all of it or nothing.</summary>
    /// <returns>The workshop's number.</returns>
    /// <exception cref="InvalidDataException">The tables are of a later version.</exception>
    public static int Prepare(Database database, string workshop)
    {
        using var connection = database.OpenToWrite();
        using var transaction = database.BeginToWrite(connection);
        database.LockForm(transaction);
        var version = VersionOf(database, connection);
        if (version > Version)
        {
            throw new InvalidDataException($"{database.Where} {WrittenLater(version)}");
        }

        if (version is null)
        {
            connection.Run(First);
        }
        else if (version == 0)
        {
            connection.Run("ALTER TABLE entries RENAME TO entries_before");
            connection.Run(First);
            connection.Run(FromNoVersion);
        }

        if (VersionOf(database, connection) == 1)
        {
            connection.Run(Second);
        }

        if (VersionOf(database, connection) == 2)
        {
            connection.Run(Third);
        }

        if (VersionOf(database, connection) == 3)
        {
            connection.Run(Fourth);
        }

        if (VersionOf(database, connection) == 4)
        {
            connection.Run(Fifth);
        }

        var id = connection.One("SELECT id FROM workshops WHERE name = @name", ("@name", workshop));
        if (id is null)
        {
            id = connection.One("SELECT coalesce(max(id), 0) + 1 FROM workshops");
            connection.Run(
                "INSERT INTO workshops (id, name, identity, arrivals) VALUES (@id, @name, @identity, 0)",
                ("@id", Convert.ToInt32(id, null)), ("@name", workshop), ("@identity", NewIdentity()));
        }

        transaction.Commit();
        return Convert.ToInt32(id, null);
    }

    /// <summary>Why records of a later version are not taken, as the end of a sentence.</summary>
    public static string WrittenLater(int? version) => $"was written by a later version of Lastoff (records of version {version}, this program knows {Version}); use that version";

    /// <summary>The records are not those that the devices knew: they find out, and send again what is not here.</summary>
    public static void RenewIdentity(DbConnection connection) => connection.Run("UPDATE workshops SET identity = @identity", ("@identity", NewIdentity()));

    private static string NewIdentity() => Guid.NewGuid().ToString("N");
}
