using System.Collections.Concurrent;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Storing;

/// <summary>A map the workshop has.</summary>
/// <param name="Sha256">Of its newest text.</param>
public sealed record ListedMap(string Name, string Title, bool Invented, string Sha256);

/// <summary>What became of a text that was to be the newest of its map. It is kept in either case.</summary>
/// <param name="Newest">The SHA-256 of the text that is the newest now.</param>
/// <param name="IsTaken">The text is the newest, or was and has been edited since.</param>
/// <param name="By">Who saved the newest; empty when nobody says.</param>
public sealed record SavedMap(string Newest, bool IsTaken, string By);

/// <summary>The workshop's maps: the newest text under each name, and every text there ever was under its SHA-256, for the jobs that stand on it.</summary>
public sealed class MapLibrary
{
    private readonly ConcurrentDictionary<string, (string Text, ListedMap? Map)> _read = [];
    private readonly Database _database;
    private readonly int _workshop;
    private readonly MapTexts _newest;
    private readonly TextTable _texts;

    internal MapLibrary(Database database, int workshop, MapTexts newest) =>
        (_database, _workshop, _newest, _texts) = (database, workshop, newest, new TextTable(database, workshop));

    /// <summary>The maps without faults, by name. A faulty one stays out until <c>lastoff check</c> finds nothing in it.</summary>
    public IReadOnlyList<ListedMap> List() =>
        [.. _newest.All().OrderBy(map => map.Name, StringComparer.Ordinal).Select(map => Read(map.Name, map.Text)).OfType<ListedMap>()];

    /// <summary>The newest text of a map, or null when there is none of that name.</summary>
    // A name holds nothing that could lead out of a folder.
    public string? Text(string name) => IsName(name) ? _newest.Find(name) : null;

    /// <summary>The text of this SHA-256, or null when it was never here.</summary>
    public string? TextOf(string hash) => Entry.IsSha256(hash) ? _texts.Find(hash) : null;

    /// <summary>The text that a job stands on; before jobs said which, a name had only one.</summary>
    public string? Text(JobOpened opened) => opened.MapSha256 is { } hash ? TextOf(hash) : Text(opened.Map);

    /// <summary>The newest text of every map, faulty or not.</summary>
    public IEnumerable<(string Name, string Text)> All() => _newest.All();

    /// <summary>Keeps a map's text as the newest, whatever was the newest before.</summary>
    /// <exception cref="ArgumentException">No map has such a name.</exception>
    public void Keep(string name, string text)
    {
        if (!IsName(name))
        {
            throw new ArgumentException($"“{name}” is no name of a map.", nameof(name));
        }

        _newest.Keep(name, text);
        Read(name, text);
    }

    /// <summary>Keeps a text for the jobs that stand on it, and leaves the newest as it is.</summary>
    public void Keep(SavedText text) => _texts.Keep(text);

    /// <summary>Keeps a text for the jobs that stand on it, and leaves the newest as it is, unless there is none.</summary>
    /// <exception cref="System.Data.Common.DbException">Nothing was saved.</exception>
    public SavedMap KeepBeside(SavedText text)
    {
        if (Text(text.Name) is not { } newest)
        {
            return Save(text);
        }

        _texts.Keep(text);
        return new SavedMap(Entry.Sha256(newest), true, text.By);
    }

    /// <summary>Saves a text without faults. It becomes the newest if it was edited from the newest; otherwise it is kept and the newest stays.</summary>
    /// <exception cref="System.Data.Common.DbException">Nothing was saved.</exception>
    public SavedMap Save(SavedText text)
    {
        using var connection = _database.OpenToWrite();
        using var transaction = _database.BeginToWrite(connection);
        // One saving at a time, on whichever server.
        connection.One("SELECT identity FROM workshops WHERE id = @workshop" + _database.RowLock, ("@workshop", _workshop));
        var before = _newest.Find(connection, text.Name);
        var newest = before is null ? null : Entry.Sha256(before);
        if (before is not null)
        {
            _texts.Keep(connection, SavedText.Of(text.Name, before, "", null));
        }

        _texts.Keep(connection, text);
        // Sent again because the answer was lost, it may have been edited since.
        if (newest is not null && newest != text.EditedFrom)
        {
            transaction.Commit();
            // Saved once more, from another text than the first time, it is no sending again: a person wants an older text back.
            var isSentAgain = newest == text.Hash || (_texts.Origin(connection, text.Hash)?.EditedFrom == text.EditedFrom && IsBehind(newest, text.Hash));
            return new SavedMap(newest, isSentAgain, _texts.Origin(connection, newest)?.By ?? "");
        }

        _newest.Keep(connection, text.Name, text.Yaml);
        _database.CommitAndTell(transaction, _workshop, NewsOf.Entries);
        return new SavedMap(text.Hash, true, text.By);

        bool IsBehind(string? at, string hash)
        {
            for (var seen = new HashSet<string>(); at is not null && seen.Add(at); at = _texts.Origin(connection, at)?.EditedFrom)
            {
                if (at == hash)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>Reads a newest text that was not read before, and keeps it for good: from now on jobs may stand on it.</summary>
    private ListedMap? Read(string name, string text)
    {
        if (!_read.TryGetValue(name, out var known) || known.Text != text)
        {
            known = (text, MapReader.Read(text, name).Map is { } map && map.Name == name ? new ListedMap(map.Name, map.Title, map.Invented, Entry.Sha256(text)) : null);
            if (known.Map is not null)
            {
                _texts.Keep(SavedText.Of(name, text, "", null));
            }

            _read[name] = known;
        }

        return known.Map;
    }

    public static bool IsName(string name) => name.Length is > 0 and <= Map.LongestName && name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');
}
