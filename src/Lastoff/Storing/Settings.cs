using System.Data.Common;
using Lastoff.Core;
using Lastoff.Core.Pricing;

namespace Lastoff.Storing;

/// <summary>A text that the workshop set for all its jobs.</summary>
/// <param name="Version">One more with each saving; zero when nothing was ever saved, and then the text is empty.</param>
public sealed record Setting(string Text, long Version);

/// <summary>What the workshop set for all its jobs, under fixed names.</summary>
public sealed class Settings(Database database, int workshop)
{
    public const string Terms = "terms";
    public const string Prices = "prices";

    public static IReadOnlyList<string> Names { get; } = [Terms, Prices];

    /// <summary>What is wrong with a text under this name; null when nothing is.</summary>
    public static string? Fault(string name, string text) => name == Terms ? FaultOf(TermsJson.Read(text)) : FaultOf(PriceListJson.Read(text));

    /// <exception cref="DbException">The database is away.</exception>
    public Setting Find(string name)
    {
        using var connection = database.OpenToRead();
        return Find(connection, name);
    }

    /// <summary>Saves a text, if the one that is there is still the one of that version.</summary>
    /// <returns>What is there now: the new text, or the one that somebody else saved meanwhile.</returns>
    /// <exception cref="DbException">Nothing was saved, or it is not known.</exception>
    public (bool IsSaved, Setting Now) Save(string name, string text, long version)
    {
        using var connection = database.OpenToWrite();
        using var transaction = database.BeginToWrite(connection);
        (string, object)[] values = [("@workshop", workshop), ("@name", name), ("@text", text), ("@version", version)];
        var changed = version == 0
            ? connection.Run("INSERT INTO settings (workshop, name, text, version) VALUES (@workshop, @name, @text, @version + 1) ON CONFLICT DO NOTHING", values)
            : connection.Run("UPDATE settings SET text = @text, version = version + 1 WHERE workshop = @workshop AND name = @name AND version = @version", values);
        transaction.Commit();
        return (changed == 1, Find(connection, name));
    }

    private Setting Find(DbConnection connection, string name)
    {
        using var command = connection.Command("SELECT text, version FROM settings WHERE workshop = @workshop AND name = @name", ("@workshop", workshop), ("@name", name));
        using var reader = command.ExecuteReader();
        return reader.Read() ? new Setting(reader.GetString(0), reader.GetInt64(1)) : new Setting("", 0);
    }

    private static string? FaultOf<T>(Answer<T> answer) where T : class => answer.TryGet(out _, out var sentence) ? null : sentence;
}
