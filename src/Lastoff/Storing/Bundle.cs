using System.IO.Compression;
using System.Text;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>A whole workshop as files: <c>maps/NAME.map.yaml</c>, every text that these ever had, <c>maps/texts/SHA256.yaml</c>, with who saved it in <c>maps/texts.jsonl</c>, and one ledger for each job, <c>jobs/ID.ledger.jsonl</c>, its price terms and price list, <c>NAME.setting.json</c>, and its photos, <c>photos/SHA256.jpg</c>, in a folder or in one ZIP file.</summary>
public static class Bundle
{
    public const string MapEnding = ".map.yaml";
    public const string LedgerEnding = ".ledger.jsonl";
    public const string PhotoEnding = ".jpg";
    /// <summary>Who saved which text of a map, when, and from which it was edited: one JSON object a line.</summary>
    public const string TextsPath = "maps/texts.jsonl";

    private const string SettingEnding = ".setting.json";
    private const string TextEnding = ".yaml";

    private static readonly UTF8Encoding Utf8 = new(false, throwOnInvalidBytes: true);

    public static bool IsZip(string path) => path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);

    public static string MapPath(string name) => $"maps/{name}{MapEnding}";

    public static string TextPath(string hash) => $"maps/texts/{hash}{TextEnding}";

    /// <summary>Whatever else lies in the folder is not ours.</summary>
    public static bool IsText(string path) => path.EndsWith(TextEnding, StringComparison.Ordinal) && Entry.IsSha256(Path.GetFileName(path)[..^TextEnding.Length]);

    public static bool IsTexts(string path) => path.EndsWith(TextsPath["maps/".Length..], StringComparison.Ordinal);

    public static string LedgerPath(Guid job) => $"jobs/{job}{LedgerEnding}";

    public static string PhotoPath(string hash) => $"photos/{hash}{PhotoEnding}";

    public static string SettingPath(string name) => $"{name}{SettingEnding}";

    /// <summary>The name of the setting in a file; null when it is none of ours.</summary>
    public static string? SettingOf(string path) => Settings.Names.FirstOrDefault(name => Path.GetFileName(path) == SettingPath(name));

    public static byte[] Bytes(string text) => Utf8.GetBytes(text);

    /// <summary>Writes the files, over any of the same names in a folder, in place of the ZIP file that was there.</summary>
    /// <exception cref="IOException">They cannot be written.</exception>
    public static void Write(string path, IEnumerable<(string Path, byte[] Bytes)> files)
    {
        if (!IsZip(path))
        {
            foreach (var (name, bytes) in files)
            {
                var file = System.IO.Path.Combine(path, name);
                Directory.CreateDirectory(System.IO.Path.GetDirectoryName(file)!);
                File.WriteAllBytes(file, bytes);
            }

            return;
        }

        using (var zip = new ZipArchive(File.Create(path + ".new"), ZipArchiveMode.Create))
        {
            foreach (var (name, bytes) in files)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(bytes);
            }
        }

        File.Move(path + ".new", path, overwrite: true);
    }

    /// <summary>The maps and ledgers there, each under its path.</summary>
    /// <exception cref="InvalidDataException">It is neither a folder nor a ZIP file of a workshop.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static IReadOnlyList<(string Path, string Text)> Read(string path)
    {
        try
        {
            if (Directory.Exists(path))
            {
                return [.. from file in Directory.EnumerateFiles(path, "*", SearchOption.AllDirectories)
                           where IsOurs(file)
                           orderby file
                           select (file, File.ReadAllText(file, Utf8))];
            }

            using var zip = ZipFile.OpenRead(path);
            var read = new List<(string, string)>();
            foreach (var entry in zip.Entries.Where(entry => IsOurs(entry.FullName)))
            {
                using var text = new StreamReader(entry.Open(), Utf8);
                read.Add(($"{path}/{entry.FullName}", text.ReadToEnd()));
            }

            return read;
        }
        catch (DecoderFallbackException)
        {
            throw new InvalidDataException($"{path}: a file in it is not UTF-8 text");
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException($"{path}: this is no ZIP file, or a damaged one; give a folder or ZIP file that `lastoff export` wrote");
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new InvalidDataException($"{path}: there is no such folder or ZIP file");
        }
    }

    /// <summary>The photos there under their names, one after the other: together they may be more than memory holds.</summary>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static IEnumerable<(string Name, byte[] Bytes)> Photos(string path)
    {
        if (Directory.Exists(path))
        {
            foreach (var file in Directory.EnumerateFiles(path, "*" + PhotoEnding, SearchOption.AllDirectories).Order(StringComparer.Ordinal))
            {
                yield return (file, File.ReadAllBytes(file));
            }

            yield break;
        }

        using var zip = ZipFile.OpenRead(path);
        foreach (var entry in zip.Entries.Where(entry => entry.FullName.EndsWith(PhotoEnding, StringComparison.Ordinal)))
        {
            using var bytes = new MemoryStream();
            using var file = entry.Open();
            file.CopyTo(bytes);
            yield return ($"{path}/{entry.FullName}", bytes.ToArray());
        }
    }

    private static bool IsOurs(string path) => path.EndsWith(MapEnding, StringComparison.Ordinal) || IsText(path) || IsTexts(path) || path.EndsWith(LedgerEnding, StringComparison.Ordinal) || SettingOf(path) is not null;
}
