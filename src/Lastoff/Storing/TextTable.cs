using System.Data.Common;
using System.Globalization;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>One text of a map, as it was saved for good.</summary>
/// <param name="Hash">The SHA-256 of the text in UTF-8.</param>
/// <param name="Name">The name of the map.</param>
/// <param name="By">Who saved it; empty when it was put into the folder of maps by hand.</param>
/// <param name="EditedFrom">The SHA-256 of the text it was edited from; null for a new map, or when nobody said.</param>
public sealed record SavedText(string Hash, string Name, string Yaml, string By, DateTimeOffset At, string? EditedFrom)
{
    public static SavedText Of(string name, string yaml, string by, string? editedFrom) => new(Entry.Sha256(yaml), name, yaml, by, DateTimeOffset.UtcNow, editedFrom);
}

/// <summary>Every text of a map that was ever saved or found here. None is ever changed or taken away.</summary>
internal sealed class TextTable(Database database, int workshop)
{
    private const string Columns = "hash, name, yaml, saved_by, saved_at, edited_from";

    public string? Find(string hash)
    {
        using var connection = database.OpenToRead();
        return connection.One("SELECT yaml FROM map_texts WHERE workshop = @workshop AND hash = @hash", ("@workshop", workshop), ("@hash", hash)) as string;
    }

    /// <summary>Keeps a text; one that is here already stays as it was first saved.</summary>
    public void Keep(SavedText text)
    {
        using var connection = database.OpenToWrite();
        Keep(connection, text);
    }

    public void Keep(DbConnection connection, SavedText text) => connection.Run(
        $"INSERT INTO map_texts (workshop, {Columns}) VALUES (@workshop, @hash, @name, @yaml, @by, @at, @from) ON CONFLICT DO NOTHING",
        ("@workshop", workshop), ("@hash", text.Hash), ("@name", text.Name), ("@yaml", text.Yaml), ("@by", text.By),
        ("@at", text.At.ToString("O", CultureInfo.InvariantCulture)), ("@from", text.EditedFrom ?? ""));

    /// <summary>Who saved a text, and what it was edited from; null when it is not here.</summary>
    public (string By, string? EditedFrom)? Origin(DbConnection connection, string hash)
    {
        using var command = connection.Command("SELECT saved_by, edited_from FROM map_texts WHERE workshop = @workshop AND hash = @hash", ("@workshop", workshop), ("@hash", hash));
        using var reader = command.ExecuteReader();
        return reader.Read() ? (reader.GetString(0), NullIfEmpty(reader.GetString(1))) : null;
    }

    /// <summary>All of them, in the order in which they were saved.</summary>
    public static IEnumerable<SavedText> All(DbConnection connection, int workshop)
    {
        using var command = connection.Command($"SELECT {Columns} FROM map_texts WHERE workshop = @workshop ORDER BY saved_at, hash", ("@workshop", workshop));
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return new SavedText(
                reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetString(3),
                DateTimeOffset.Parse(reader.GetString(4), CultureInfo.InvariantCulture), NullIfEmpty(reader.GetString(5)));
        }
    }

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
