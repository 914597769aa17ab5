using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>How much a file of records holds: enough to tell whether one copy is behind another.</summary>
/// <param name="Identity">Null in a file from before records had one.</param>
internal sealed record Content(string? Identity, long Arrivals)
{
    public static Content Of(SqliteDatabase database, DbConnection connection) => Schema.VersionOf(database, connection) switch
    {
        null => new Content(null, 0),
        0 => new Content(null, (long)connection.One("SELECT coalesce(max(arrival), 0) FROM entries")!),
        _ => new Content((string)connection.One("SELECT identity FROM workshops")!, (long)connection.One("SELECT arrivals FROM workshops")!),
    };

    public static Content OfFile(string file)
    {
        var database = new SqliteDatabase(file);
        try
        {
            using var connection = database.OpenToRead();
            return Of(database, connection);
        }
        finally
        {
            database.Release();
        }
    }
}
