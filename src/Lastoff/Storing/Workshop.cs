namespace Lastoff.Storing;

/// <summary>One workshop: its maps, entries and photos, in a data folder or in a PostgreSQL database.</summary>
public sealed class Workshop : IAsyncDisposable
{
    private readonly IAsyncDisposable _hearing;

    private Workshop(Database database, int number, MapTexts maps, PhotoFiles photos)
    {
        Database = database;
        Number = number;
        Maps = new MapLibrary(database, number, maps);
        Photos = new PhotoLibrary(photos);
        Entries = new EntryStore(database, number);
        Settings = new Settings(database, number);
        News = new News();
        _hearing = database.Hear(number, News);
    }

    public Database Database { get; }
    /// <summary>The workshop's number in the database.</summary>
    public int Number { get; }
    public MapLibrary Maps { get; }
    public PhotoLibrary Photos { get; }
    public EntryStore Entries { get; }
    public Settings Settings { get; }
    public News News { get; }

    /// <exception cref="InvalidDataException">The records there are damaged, or of a later version.</exception>
    public static Workshop Open(DataFolder folder)
    {
        folder.Check();
        var database = new SqliteDatabase(folder.Records);
        var number = Schema.Prepare(database, "workshop");
        return new Workshop(database, number, new MapFolder(folder.Maps), new PhotoFolder(folder.Photos));
    }

    /// <param name="name">Workshops of other names in the database have nothing to do with this one.</param>
    /// <exception cref="InvalidDataException">The records there are of a later version.</exception>
    public static Workshop Open(PostgresDatabase database, string name)
    {
        var number = Schema.Prepare(database, name);
        return new Workshop(database, number, new MapTable(database, number), new PhotoTable(database, number));
    }

    /// <summary>Changes who may come in. When this returns, this server knows nobody any more as they were before; the others hear of it with the commit.</summary>
    /// <returns>How many rows were changed.</returns>
    internal int ChangeDoors(string sql, params ReadOnlySpan<(string Name, object Value)> values)
    {
        using var connection = Database.OpenToWrite();
        using var transaction = Database.BeginToWrite(connection);
        try
        {
            var changed = connection.Run(sql, values);
            Database.CommitAndTell(transaction, Number, NewsOf.Doors);
            return changed;
        }
        finally
        {
            // Not only when its own word has come round; and also when it is not known whether it was committed.
            News.TellOfDoors();
        }
    }

    /// <summary>Writes what has come in, and leaves the records settled.</summary>
    public async ValueTask DisposeAsync()
    {
        Entries.Dispose();
        await _hearing.DisposeAsync();
        await Database.DisposeAsync();
    }
}
