using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Lastoff.Storing;

/// <summary>Entries of one job that the present records have and the backup has not.</summary>
public sealed record LostEntries(Guid Job, long Entries);

/// <summary>What bringing a backup back does, or would do.</summary>
/// <param name="Lost">Null when the present file cannot be read.</param>
/// <param name="Aside">Where the present file is kept; null when there is none, or nothing was done.</param>
public sealed record Restored(IReadOnlyList<LostEntries>? Lost, string? Aside);

/// <summary>Brings a backup back into a data folder that nobody serves. The present file is kept aside, and at every moment one of the two stands in its place.</summary>
public static class Restoring
{
    /// <param name="isTrial">Only look what would be lost.</param>
    /// <exception cref="InvalidDataException">The backup cannot be used, or a server runs on the folder.</exception>
    public static Restored Restore(DataFolder folder, string backup, bool isTrial)
    {
        using var claim = folder.Claim();
        if (Fault(backup) is { } fault)
        {
            throw new InvalidDataException($"{backup} {fault}; `lastoff restore --data {folder.Path}` lists the backups there are");
        }

        var coming = folder.Records + ".new";
        SqliteDatabase.Delete(coming);
        File.Copy(backup, coming);
        try
        {
            var lost = MakeReady(coming, folder.Records);
            if (isTrial)
            {
                return new Restored(lost, null);
            }

            PutMapsBack(coming, folder);
            return new Restored(lost, PutInPlace(folder.Records, coming, isReadable: lost is not null));
        }
        finally
        {
            SqliteDatabase.Delete(coming);
        }
    }

    /// <summary>Why a file cannot be brought back, as the end of a sentence; null when it can.</summary>
    private static string? Fault(string backup)
    {
        if (!File.Exists(backup))
        {
            return "is not there";
        }

        var database = new SqliteDatabase(backup);
        try
        {
            if (database.Damage() is { } damage)
            {
                return $"is no whole backup: {damage}";
            }

            using var connection = database.OpenToRead();
            return Content.OfBackup(backup) is null ? "holds no records of Lastoff"
                : Schema.VersionOf(database, connection) is { } version && version > Schema.Version ? Schema.WrittenLater(version)
                : null;
        }
        finally
        {
            database.Release();
        }
    }

    /// <summary>Brings the records that come to this version, and looks what they lack.</summary>
    private static List<LostEntries>? MakeReady(string coming, string present)
    {
        var database = new SqliteDatabase(coming);
        try
        {
            Schema.Prepare(database, "workshop");
            using (var connection = database.OpenToWrite())
            {
                Schema.RenewIdentity(connection);
            }

            var lost = Compare(present, coming);
            database.Settle();
            return lost;
        }
        finally
        {
            database.Release();
        }
    }

    /// <summary>A map that the folder has not comes back; one that is there may have been edited since, and stays.</summary>
    private static void PutMapsBack(string coming, DataFolder folder)
    {
        var database = new SqliteDatabase(coming);
        var maps = new MapFolder(folder.Maps);
        foreach (var (name, text) in new MapTable(database, workshop: 1).All().Where(map => maps.Find(map.Name) is null))
        {
            maps.Keep(name, text);
        }

        database.Release();
    }

    /// <summary>What the present records have more. Who is shut out in them stays out: a backup from before lets nobody in again.</summary>
    private static List<LostEntries>? Compare(string present, string coming)
    {
        if (!File.Exists(present))
        {
            return [];
        }

        var database = new SqliteDatabase(present);
        try
        {
            using var connection = database.OpenToRead();
            connection.Run("ATTACH @coming AS coming", ("@coming", coming));
            using var command = connection.Command("""
                SELECT job, count(*) FROM main.entries AS here
                WHERE NOT EXISTS (SELECT 1 FROM coming.entries AS there WHERE there.workshop = 1 AND there.job = here.job AND there.id = here.id)
                GROUP BY job ORDER BY job
                """);
            var lost = new List<LostEntries>();
            using (var reader = command.ExecuteReader())
            {
                while (reader.Read())
                {
                    lost.Add(new LostEntries(Guid.Parse(reader.GetString(0)), reader.GetInt64(1)));
                }
            }

            // Jobs stand on them, and they never change: what the backup has not comes along.
            if (database.HasTable(connection, "map_texts"))
            {
                connection.Run("INSERT OR IGNORE INTO coming.map_texts SELECT * FROM main.map_texts");
            }

            foreach (var who in (string[])["devices", "people"])
            {
                if (database.HasTable(connection, who))
                {
                    connection.Run($"UPDATE coming.{who} SET is_out = 1 WHERE id IN (SELECT id FROM main.{who} WHERE is_out = 1)");
                }
            }

            return lost;
        }
        catch (SqliteException)
        {
            return null;
        }
        finally
        {
            database.Release();
        }
    }

    private static string? PutInPlace(string present, string coming, bool isReadable)
    {
        string? aside = null;
        if (File.Exists(present))
        {
            if (isReadable)
            {
                var database = new SqliteDatabase(present);
                database.Settle();
                database.Release();
            }

            aside = Path.ChangeExtension(present, null) + "-aside-" + DateTime.UtcNow.ToString("yyyyMMdd'T'HHmmssfff'Z'", CultureInfo.InvariantCulture) + ".db";
            foreach (var part in SqliteDatabase.Parts(present).Where(File.Exists))
            {
                File.Copy(part, aside + part[present.Length..]);
            }

            // A log left behind would be taken for that of the file that comes.
            foreach (var log in SqliteDatabase.Parts(present).Skip(1))
            {
                File.Delete(log);
            }
        }

        using (var written = new FileStream(coming, FileMode.Open, FileAccess.ReadWrite))
        {
            written.Flush(flushToDisk: true);
        }

        File.Move(coming, present, overwrite: true);
        return aside;
    }
}
