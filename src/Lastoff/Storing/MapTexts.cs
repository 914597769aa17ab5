using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>Where the newest text of each map is kept.</summary>
public abstract class MapTexts
{
    public abstract IEnumerable<(string Name, string Text)> All();

    public abstract string? Find(string name);

    /// <summary>The same for whoever has a connection already: to wait for another meanwhile could be to wait for each other.</summary>
    public abstract string? Find(DbConnection connection, string name);

    public abstract void Keep(string name, string text);

    /// <summary>Keeps it in a transaction that others wait for.</summary>
    public abstract void Keep(DbConnection connection, string name, string text);
}

/// <summary>A folder of map files, read each time they are asked for so that an edited file counts at once.</summary>
internal sealed class MapFolder(string folder) : MapTexts
{
    public override IEnumerable<(string Name, string Text)> All() =>
        from file in Directory.EnumerateFiles(folder, "*" + Bundle.MapEnding)
        let text = Readable(file)
        where text is not null
        select (Path.GetFileName(file)[..^Bundle.MapEnding.Length], text);

    /// <exception cref="IOException">It is there and cannot be read, which is not the same as that there is none.</exception>
    public override string? Find(string name)
    {
        var file = Path.Combine(folder, name + Bundle.MapEnding);
        return File.Exists(file) ? File.ReadAllText(file) : null;
    }

    public override string? Find(DbConnection connection, string name) => Find(name);

    public override void Keep(string name, string text)
    {
        // Whole or not at all: beside it first, then in its place.
        var file = Path.Combine(folder, name + Bundle.MapEnding);
        using (var written = new FileStream(file + ".new", FileMode.Create, FileAccess.Write))
        {
            written.Write(Bundle.Bytes(text));
            written.Flush(flushToDisk: true);
        }

        File.Move(file + ".new", file, overwrite: true);
    }

    // The file is there before the transaction ends: if that fails, it counts as put there by hand.
    public override void Keep(DbConnection connection, string name, string text) => Keep(name, text);

    /// <summary>One file that cannot be read must not keep the others from the devices.</summary>
    private static string? Readable(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}

/// <summary>A table of map texts, so that every server on the database has the same.</summary>
internal sealed class MapTable(Database database, int workshop) : MapTexts
{
    public override IEnumerable<(string Name, string Text)> All()
    {
        using var connection = database.OpenToRead();
        using var command = connection.Command("SELECT name, yaml FROM maps WHERE workshop = @workshop", ("@workshop", workshop));
        using var reader = command.ExecuteReader();
        var all = new List<(string, string)>();
        while (reader.Read())
        {
            all.Add((reader.GetString(0), reader.GetString(1)));
        }

        return all;
    }

    public override string? Find(string name)
    {
        using var connection = database.OpenToRead();
        return Find(connection, name);
    }

    public override string? Find(DbConnection connection, string name) =>
        connection.One("SELECT yaml FROM maps WHERE workshop = @workshop AND name = @name", ("@workshop", workshop), ("@name", name)) as string;

    public override void Keep(string name, string text)
    {
        using var connection = database.OpenToWrite();
        Keep(connection, name, text);
    }

    /// <summary>Keeps these and no others.</summary>
    public void KeepOnly(DbConnection connection, IEnumerable<(string Name, string Text)> maps)
    {
        using var transaction = connection.BeginTransaction();
        connection.Run("DELETE FROM maps WHERE workshop = @workshop", ("@workshop", workshop));
        foreach (var (name, text) in maps)
        {
            Keep(connection, name, text);
        }

        transaction.Commit();
    }

    public override void Keep(DbConnection connection, string name, string text) => connection.Run(
        "INSERT INTO maps (workshop, name, yaml) VALUES (@workshop, @name, @yaml) ON CONFLICT (workshop, name) DO UPDATE SET yaml = excluded.yaml",
        ("@workshop", workshop), ("@name", name), ("@yaml", text));
}
