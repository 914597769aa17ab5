using System.IO.Compression;
using System.Text;

namespace Lastoff.Storing;

/// <summary>A whole workshop as files: <c>maps/NAME.map.yaml</c> and one ledger for each job, <c>jobs/ID.ledger.jsonl</c>, in a folder or in one ZIP file.</summary>
public static class Bundle
{
    public const string MapEnding = ".map.yaml";
    public const string LedgerEnding = ".ledger.jsonl";

    private static readonly UTF8Encoding Utf8 = new(false, throwOnInvalidBytes: true);

    public static bool IsZip(string path) => path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);

    public static string MapPath(string name) => $"maps/{name}{MapEnding}";

    public static string LedgerPath(Guid job) => $"jobs/{job}{LedgerEnding}";

    /// <summary>Writes the files, over any of the same names in a folder, in place of the ZIP file that was there.</summary>
    /// <exception cref="IOException">They cannot be written.</exception>
    public static void Write(string path, IEnumerable<(string Path, string Text)> files)
    {
        if (!IsZip(path))
        {
            foreach (var (name, text) in files)
            {
                var file = System.IO.Path.Combine(path, name);
                Directory.CreateDirectory(System.IO.Path.GetDirectoryName(file)!);
                File.WriteAllText(file, text, Utf8);
            }

            return;
        }

        using (var zip = new ZipArchive(File.Create(path + ".new"), ZipArchiveMode.Create))
        {
            foreach (var (name, text) in files)
            {
                using var entry = new StreamWriter(zip.CreateEntry(name).Open(), Utf8);
                entry.Write(text);
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

    private static bool IsOurs(string path) => path.EndsWith(MapEnding, StringComparison.Ordinal) || path.EndsWith(LedgerEnding, StringComparison.Ordinal);
}
