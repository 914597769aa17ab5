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
        if (!File.Exists(backup) || new SqliteDatabase(backup).Damage() is not null)
        {
            throw new InvalidDataException($"{backup} is no whole backup; `lastoff restore --data {folder.Path}` lists those there are");
        }

        var coming = folder.Records + ".new";
        Discard(coming);
        File.Copy(backup, coming);
        try
        {
            MakeReady(coming);
            var lost = Lost(folder.Records, coming);
            return new Restored(lost, isTrial ? null : PutInPlace(folder.Records, coming, isReadable: lost is not null));
        }
        finally
        {
            Discard(coming);
        }
    }

    private static void MakeReady(string file)
    {
        var database = new SqliteDatabase(file);
        Schema.Prepare(database, "workshop");
        using (var connection = database.OpenToWrite())
        {
            Schema.RenewIdentity(connection);
        }

        database.Settle();
        database.Release();
        using var written = new FileStream(file, FileMode.Open, FileAccess.ReadWrite);
        written.Flush(flushToDisk: true);
    }

    private static List<LostEntries>? Lost(string present, string coming)
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
            using var reader = command.ExecuteReader();
            var lost = new List<LostEntries>();
            while (reader.Read())
            {
                lost.Add(new LostEntries(Guid.Parse(reader.GetString(0)), reader.GetInt64(1)));
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
            foreach (var part in Parts(present).Where(File.Exists))
            {
                File.Copy(part, aside + part[present.Length..]);
            }

            // A log left behind would be taken for that of the file that comes.
            foreach (var log in Parts(present).Skip(1))
            {
                File.Delete(log);
            }
        }

        File.Move(coming, present, overwrite: true);
        return aside;
    }

    private static void Discard(string file)
    {
        foreach (var part in Parts(file))
        {
            File.Delete(part);
        }
    }

    private static IEnumerable<string> Parts(string file) => [file, file + "-wal", file + "-shm"];
}
