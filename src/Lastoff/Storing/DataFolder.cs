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
    private const string TimeForm = "yyyyMMdd'T'HHmmss'Z'";

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
        [.. Directory.EnumerateFiles(BackupFolder, Start + "*" + Ending).Where(file => TimeOf(file) is not null).OrderDescending(StringComparer.Ordinal)];

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
        if (Schema.VersionOf(database, connection) < Schema.Version)
        {
            Backup();
        }
        else if (Backups() is [var saved, ..] && Content.OfFile(saved) is var before && Content.Of(database, connection) is var now
            && before.Identity == now.Identity && before.Arrivals > now.Arrivals)
        {
            // An earlier copy was put in the file's place by hand.
            Schema.RenewIdentity(connection);
        }
    }

    /// <summary>Copies the records as they are at this moment, while they may be written; nothing when the newest backup has all of them.</summary>
    /// <returns>The new backup's file, or null.</returns>
    /// <exception cref="SqliteException">The disk is full, or the records are damaged.</exception>
    public string? Backup()
    {
        var database = new SqliteDatabase(Records);
        using var connection = database.OpenToRead();
        if (Backups() is [var newest, ..] && Content.Of(database, connection) == Content.OfFile(newest))
        {
            return null;
        }

        var file = System.IO.Path.Combine(BackupFolder, Start + DateTime.UtcNow.ToString(TimeForm, CultureInfo.InvariantCulture) + Ending);
        Copy(connection, file);
        Thin();
        return file;
    }

    /// <summary>Copies a database whole, and onto the disk, before the file has its name.</summary>
    internal static void Copy(System.Data.Common.DbConnection from, string file)
    {
        var unfinished = file + ".new";
        File.Delete(unfinished);
        from.Run("VACUUM INTO @file", ("@file", unfinished));
        using (var written = new FileStream(unfinished, FileMode.Open, FileAccess.ReadWrite))
        {
            written.Flush(flushToDisk: true);
        }

        File.Move(unfinished, file, overwrite: true);
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

    private static DateTime? TimeOf(string file) =>
        DateTime.TryParseExact(System.IO.Path.GetFileName(file)[Start.Length..^Ending.Length], TimeForm, CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var time) ? time : null;
}
