using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Lastoff.Storing;

/// <summary>A workshop's folder: <c>lastoff.db</c> with its entries, <c>maps</c>, <c>photos</c>, and <c>backups</c> that are made by themselves.</summary>
public sealed class DataFolder
{
    private const int NewestKept = 12;
    private const int DaysKept = 30;
    private const string Start = "lastoff-";
    private const string Ending = ".db";
    private const string Unfinished = Ending + ".new";
    // Names were once made to the second; none that is new may be taken for one of those.
    private static readonly string[] TimeForms = ["yyyyMMdd'T'HHmmssfff'Z'", "yyyyMMdd'T'HHmmss'Z'"];

    /// <param name="path">Made, with what is in it, when it is not there.</param>
    public DataFolder(string path)
    {
        Path = path;
        Directory.CreateDirectory(Maps);
        Directory.CreateDirectory(BackupFolder);
    }

    public string Path { get; }
    public string Records => System.IO.Path.Combine(Path, "lastoff.db");
    public string Maps => System.IO.Path.Combine(Path, "maps");
    public string Photos => System.IO.Path.Combine(Path, "photos");
    public string BackupFolder => System.IO.Path.Combine(Path, "backups");

    /// <summary>The backups, newest first.</summary>
    public IReadOnlyList<string> Backups() =>
        [.. Directory.EnumerateFiles(BackupFolder, Start + "*" + Ending).Where(file => TimeOf(file) is not null).OrderByDescending(TimeOf)];

    /// <summary>Makes sure that only this process serves the folder, until what is returned is disposed of.</summary>
    /// <exception cref="InvalidDataException">Another one does.</exception>
    public IDisposable Claim()
    {
        try
        {
            return new FileStream(System.IO.Path.Combine(Path, "lastoff.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException)
        {
            throw new InvalidDataException($"another Lastoff works in {Path}; stop it first");
        }
    }

    /// <summary>Looks whether the records are whole. What an earlier version wrote, or is not backed up yet, is backed up before anything is done to it.</summary>
    /// <exception cref="InvalidDataException">They are damaged.</exception>
    public void Check()
    {
        if (!File.Exists(Records))
        {
            return;
        }

        var database = new SqliteDatabase(Records);
        if (database.Damage() is { } damage)
        {
            database.Release();
            throw new InvalidDataException($"{Records} is damaged: {damage}. "
                + (Backups() is [var newest, ..] ? $"Bring the newest backup back with `lastoff restore {newest} --data {Path}`" : "There is no backup beside it; the devices still have what they wrote: move the file away and start anew"));
        }

        using var connection = database.OpenToRead();
        // An earlier copy may have been put in the file's place by hand.
        var isBehind = Backups().Select(Content.OfBackup).FirstOrDefault(saved => saved is not null) is { Identity: not null } kept
            && Content.Of(database, connection, []) is { } now
            && kept.Identity == now.Identity && kept.Arrivals > now.Arrivals;
        if (Schema.VersionOf(database, connection) < Schema.Version)
        {
            Backup();
        }

        if (isBehind)
        {
            Schema.RenewIdentity(connection);
        }
    }

    /// <summary>Copies the records and the maps as they are at this moment, while they may be written; nothing when the newest backup has all of them.</summary>
    /// <returns>The new backup's file, or null.</returns>
    /// <exception cref="SqliteException">The disk is full, or the records are damaged.</exception>
    /// <exception cref="IOException">The disk is full, or another backup is being made.</exception>
    public string? Backup()
    {
        using var alone = new FileStream(System.IO.Path.Combine(BackupFolder, "lastoff.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        var database = new SqliteDatabase(Records);
        using var connection = database.OpenToRead();
        var maps = new MapFolder(Maps).All().ToList();
        if (Backups() is [var newest, ..] && Content.OfBackup(newest) is { } saved && saved == Content.Of(database, connection, maps))
        {
            return null;
        }

        var unfinished = System.IO.Path.Combine(BackupFolder, "lastoff" + Unfinished);
        Copy(connection, maps, unfinished);
        var time = DateTime.UtcNow;
        while (File.Exists(Named(time)))
        {
            time = time.AddMilliseconds(1);
        }

        File.Move(unfinished, Named(time));
        Thin();
        return Named(time);
    }

    /// <summary>Copies a database whole, with its maps, and onto the disk.</summary>
    private void Copy(DbConnection from, List<(string Name, string Text)> maps, string file)
    {
        // What a backup left behind that failed.
        foreach (var left in Directory.EnumerateFiles(BackupFolder, "*" + Unfinished + "*"))
        {
            File.Delete(left);
        }

        from.Run("VACUUM INTO @file", ("@file", file));
        var copy = new SqliteDatabase(file);
        using (var connection = copy.OpenToRead())
        {
            // Before there were versions of them, the records had no place for maps.
            if (copy.HasTable(connection, "maps"))
            {
                new MapTable(copy, workshop: 1).KeepOnly(connection, maps);
            }
        }

        copy.Release();
        using var written = new FileStream(file, FileMode.Open, FileAccess.ReadWrite);
        written.Flush(flushToDisk: true);
    }

    /// <summary>Keeps the newest backups, and of each of the last days the last one.</summary>
    private void Thin()
    {
        var oldest = DateTime.UtcNow.AddDays(-DaysKept);
        var daily = Backups().Where(file => TimeOf(file) > oldest).GroupBy(file => TimeOf(file)!.Value.Date).Select(day => day.First());
        foreach (var file in Backups().Skip(NewestKept).Except(daily))
        {
            File.Delete(file);
        }
    }

    private string Named(DateTime time) => System.IO.Path.Combine(BackupFolder, Start + time.ToString(TimeForms[0], CultureInfo.InvariantCulture) + Ending);

    /// <summary>When a backup was made, by its name, in UTC; null when the file is none.</summary>
    public static DateTime? TimeOf(string file) =>
        System.IO.Path.GetFileName(file) is var name && name.StartsWith(Start, StringComparison.Ordinal) && name.EndsWith(Ending, StringComparison.Ordinal) && name.Length > Start.Length + Ending.Length
        && DateTime.TryParseExact(name[Start.Length..^Ending.Length], TimeForms, CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var time) ? time : null;
}
