using System.Text;
using Lastoff.Core.Fluids;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary>Reads the files a command is given; whatever is wrong with one becomes one sentence.</summary>
internal static class InputFile
{
    private const long LargestMap = 4L * 1024 * 1024;
    private const long LargestLedger = 256L * 1024 * 1024;
    private const long LargestPoints = 1024 * 1024;
    private const long LargestPrices = 16L * 1024 * 1024;
    private const long LargestReadings = 32L * 1024 * 1024;

    /// <exception cref="Failure">The file cannot be read, or the map has a fault.</exception>
    public static OperationNet Map(string path)
    {
        var reading = MapText(path);
        return reading.Map is { } map
            ? OperationNet.From(map)
            : throw new Failure(reading.Describe(reading.Faults[0])
                + (reading.Faults.Count > 1 ? $" ({reading.Faults.Count - 1} more: run `lastoff check {path}`.)" : ""));
    }

    /// <exception cref="Failure">The file cannot be read.</exception>
    public static MapReading MapText(string path) => MapReader.Read(Text(path, LargestMap, "a map"), path);

    /// <exception cref="Failure">The file cannot be read.</exception>
    public static string LedgerText(string path) => Text(path, LargestLedger, "a ledger");

    /// <summary>The entries of a job; a sentence on standard error when it was opened with another text of the map.</summary>
    /// <exception cref="Failure">The file cannot be read, the ledger cannot be trusted, or it is that of a job on another map.</exception>
    public static IReadOnlyList<Entry> Ledger(string path, string mapPath, Map map)
    {
        var entries = Entries(path);
        var opened = JobOpened.In(entries);
        if (opened is not null && opened.Map != map.Name)
        {
            throw new Failure(opened.HasMap
                ? $"{path}: this job was opened with the map “{opened.Map}”, not with “{map.Name}”; give the map it was opened with."
                : $"{path}: this job was opened without a map; leave the map out.");
        }

        if (opened?.MapSha256 is { } hash && hash != Entry.Sha256(Text(mapPath, LargestMap, "a map")))
        {
            Console.Error.WriteLine($"{mapPath}: this job was opened with another text of the map “{map.Name}” (SHA-256 {hash}), so what follows may not be what its people saw; `lastoff export` writes that text.");
        }

        return entries;
    }

    /// <summary>A ledger by itself, whatever map it is of.</summary>
    /// <exception cref="Failure">The file cannot be read, or the ledger cannot be trusted.</exception>
    public static IReadOnlyList<Entry> Entries(string path)
    {
        var reading = LedgerFile.Read(LedgerText(path), path);
        return reading.Fault is { } fault ? throw new Failure(fault) : reading.Entries;
    }

    /// <exception cref="Failure">The file cannot be read, or does not give holes.</exception>
    public static IReadOnlyList<Hole> Holes(string path) =>
        HoleFile.Read(Text(path, LargestPoints, "a list of holes"), path).Or(sentence => throw new Failure(sentence));

    /// <exception cref="Failure">The file cannot be read, or is no table of readings.</exception>
    public static ReadingTable Readings(string path) => ReadingTable.Read(Text(path, LargestReadings, "a log"), path).OrFail();

    /// <exception cref="Failure">The file cannot be read.</exception>
    public static string Prices(string path) => Text(path, LargestPrices, "prices or price terms");

    private static string Text(string path, long largest, string what)
    {
        if (string.IsNullOrWhiteSpace(path) || Directory.Exists(path))
        {
            throw new Failure($"“{path}” is not a file; name the file of {what}.");
        }

        try
        {
            var size = new FileInfo(path).Length;
            return size > largest
                ? throw new Failure($"{path}: the file has {size / 1048576} MB and {what} has at most {largest / 1048576} MB; check that it is the file you mean.")
                : File.ReadAllText(path, new UTF8Encoding(false, throwOnInvalidBytes: true));
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new Failure($"{path}: there is no such file; check the name.");
        }
        catch (DecoderFallbackException)
        {
            throw new Failure($"{path}: the file is not UTF-8 text; save it as UTF-8, or check that it is {what}.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Failure($"{path}: the file cannot be read; check that it is a file and that you may read it.");
        }
    }
}
