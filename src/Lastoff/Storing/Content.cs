using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;

namespace Lastoff.Storing;

/// <summary>How much a workshop's records hold: enough to tell whether one copy is behind another, or another at all.</summary>
/// <param name="Identity">Null in a file from before records had one.</param>
/// <param name="Rest">A fingerprint of what is no entry: who may come in, and the maps.</param>
internal sealed record Content(string? Identity, long Arrivals, string Rest)
{
    private static readonly string[] Doors = ["people", "passkeys", "devices", "signing_keys"];

    /// <summary>Null when no version of this program wrote it.</summary>
    /// <param name="maps">Those that belong to it.</param>
    /// <exception cref="SqliteException">It cannot be read.</exception>
    public static Content? Of(SqliteDatabase database, DbConnection connection, IEnumerable<(string Name, string Text)> maps) => Schema.VersionOf(database, connection) switch
    {
        null => null,
        0 => new Content(null, (long)connection.One("SELECT coalesce(max(arrival), 0) FROM entries")!, Fingerprint(Values(maps))),
        var version => new Content(
            (string)connection.One("SELECT identity FROM workshops")!,
            (long)connection.One("SELECT arrivals FROM workshops")!,
            Fingerprint(Values(maps).Concat(version < 2 ? [] : Doors.SelectMany(table => Values(connection, $"SELECT * FROM {table} ORDER BY rowid")))
            .Concat(version < 4 ? [] : Values(connection, "SELECT hash FROM map_texts ORDER BY hash")))),
    };

    /// <summary>What a backup holds; null when it is none, or cannot be read.</summary>
    public static Content? OfBackup(string file)
    {
        var database = new SqliteDatabase(file);
        try
        {
            using var connection = database.OpenToRead();
            return Of(database, connection, database.HasTable(connection, "maps") ? new MapTable(database, workshop: 1).All() : []);
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

    private static IEnumerable<string> Values(IEnumerable<(string Name, string Text)> maps) =>
        maps.OrderBy(map => map.Name, StringComparer.Ordinal).SelectMany(map => (string[])[map.Name, map.Text]);

    private static IEnumerable<string> Values(DbConnection connection, string select)
    {
        using var command = connection.Command(select);
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            for (var column = 0; column < reader.FieldCount; column++)
            {
                yield return Convert.ToString(reader.GetValue(column), CultureInfo.InvariantCulture)!;
            }
        }
    }

    private static string Fingerprint(IEnumerable<string> values)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var value in values)
        {
            // Where a value ends counts too.
            hash.AppendData(Encoding.UTF8.GetBytes($"{value.Length} {value}"));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
