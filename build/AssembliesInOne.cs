using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using Microsoft.Build.Framework;
using Microsoft.Build.Utilities;

/// <summary>
/// Writes many assemblies into one file: the length of the list as a little-endian number of four bytes, then the list, a line for each with its name, its length, where
/// its metadata tables begin, and of each table its rows, the bytes of a row and which of those are steps; then the assemblies one after another.
/// The tables lie turned: the first bytes of all rows, then all second bytes, and so on. What is alike then stands together, and packs smaller by a thirtieth of the whole.
/// Where what counts up is alike only in its steps, each byte is the step from the one before: a hundredth more. What no browser reads, the versions for Windows, is blank.
/// <c>start.js</c> takes it apart and turns the tables back.
/// </summary>
public sealed class AssembliesInOne : Task
{
    /// <summary>A coded index: the tables it may point into, and the bits that say which (ECMA-335, II.24.2.6).</summary>
    private static readonly Dictionary<char, (int Bits, int[] Tables)> Coded = new()
    {
        ['T'] = (2, [2, 1, 27]),
        ['C'] = (2, [4, 8, 23]),
        ['A'] = (5, [6, 4, 1, 2, 8, 9, 10, 0, 14, 23, 20, 17, 26, 27, 32, 35, 38, 39, 40, 42, 44, 43]),
        ['F'] = (1, [4, 8]),
        ['D'] = (2, [2, 6, 32]),
        ['P'] = (3, [2, 1, 26, 6, 27]),
        ['H'] = (1, [20, 23]),
        ['M'] = (1, [6, 10]),
        ['W'] = (1, [4, 6]),
        ['I'] = (2, [38, 35, 39]),
        ['Y'] = (3, [6, 10]),
        ['R'] = (2, [0, 26, 35, 1]),
        ['O'] = (1, [2, 6]),
    };

    /// <summary>The columns of each table (II.22): a digit for so many bytes, s, g and b for an index into strings, GUIDs and blobs, a number in brackets for one into that table, a capital for a coded one.</summary>
    private static readonly Dictionary<int, string> Columns = new()
    {
        [0] = "2sggg", [1] = "Rss", [2] = "4ssT[4][6]", [4] = "2sb", [6] = "422sb[8]", [8] = "22s", [9] = "[2]T", [10] = "Psb", [11] = "2Cb", [12] = "AYb", [13] = "Fb",
        [14] = "2Db", [15] = "24[2]", [16] = "4[4]", [17] = "b", [18] = "[2][20]", [20] = "2sT", [21] = "[2][23]", [23] = "2sb", [24] = "2[6]H", [25] = "[2]MM", [26] = "s",
        [27] = "b", [28] = "2Ws[26]", [29] = "4[4]", [32] = "422224bss", [35] = "22224bssb", [38] = "4sb", [39] = "44ssI", [40] = "44sI", [41] = "[2][2]", [42] = "22Os",
        [43] = "Mb", [44] = "[42]T",
    };

    [Required]
    public ITaskItem[] Files { get; set; } = [];

    [Required]
    public string To { get; set; } = "";

    public override bool Execute()
    {
        var list = new StringBuilder();
        var parts = new List<byte[]>();
        // The largest first: so tried it packs smallest, and by the name where two are as large.
        foreach (var file in Files.Select(f => f.ItemSpec).OrderByDescending(file => new FileInfo(file).Length).ThenBy(Path.GetFileName, StringComparer.Ordinal))
        {
            var part = File.ReadAllBytes(file);
            BlankVersion(part);
            var (at, tables) = TablesOf(part);
            list.Append($"{Path.GetFileName(file)} {part.Length} {at}");
            foreach (var (rows, width) in tables)
            {
                Turn(part, at, rows, width);
                list.Append($" {rows} {width} {Step(part, at, rows, width)}");
                at += rows * width;
            }

            list.Append('\n');
            parts.Add(part);
        }

        var lines = Encoding.UTF8.GetBytes(list.ToString());
        Directory.CreateDirectory(Path.GetDirectoryName(To)!);
        using var one = File.Create(To);
        one.Write(BitConverter.GetBytes(lines.Length), 0, 4);
        one.Write(lines, 0, lines.Length);
        parts.ForEach(part => one.Write(part, 0, part.Length));
        return true;
    }

    private static void Turn(byte[] part, int at, int rows, int width)
    {
        var table = part.Skip(at).Take(rows * width).ToArray();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < width; column++)
            {
                part[at + (column * rows) + row] = table[(row * width) + column];
            }
        }
    }

    /// <summary>Makes steps of the turned columns that pack clearly better so; gives back which, a bit for each, the first the lowest.</summary>
    private static int Step(byte[] part, int at, int rows, int width)
    {
        var stepped = 0;
        for (var column = 0; column < width; column++, at += rows)
        {
            var steps = Enumerable.Range(0, rows).Select(row => (byte)(part[at + row] - (row > 0 ? part[at + row - 1] : 0))).ToArray();
            // Tried at 1, 0.9 and 0.8: the whole packs smallest so, as what stands together is also alike in other ways.
            if (Bits(steps) < 0.9 * Bits(part.Skip(at).Take(rows)))
            {
                steps.CopyTo(part, at);
                stepped |= 1 << column;
            }
        }

        return stepped;
    }

    /// <summary>What the bytes pack to, each by itself (Shannon).</summary>
    private static double Bits(IEnumerable<byte> bytes)
    {
        var counts = bytes.GroupBy(one => one).Select(group => (double)group.Count()).ToList();
        var all = counts.Sum();
        return counts.Sum(count => count * Math.Log(all / count, 2));
    }

    /// <summary>The section of a packed assembly (Webcil: a header of 28 bytes, then for each section its size, its place, and the size and the place of its bytes) that holds its version for Windows.</summary>
    private static void BlankVersion(byte[] file)
    {
        var (start, version) = (IndexOf(file, Encoding.ASCII.GetBytes("WbIL")), IndexOf(file, Encoding.Unicode.GetBytes("VS_VERSION_INFO")));
        for (var section = 0; start >= 0 && section < BitConverter.ToUInt16(file, start + 8); section++)
        {
            var (size, from) = (BitConverter.ToInt32(file, start + 28 + (16 * section) + 8), start + BitConverter.ToInt32(file, start + 28 + (16 * section) + 12));
            if (from <= version && version < from + size)
            {
                Array.Clear(file, from, size);
            }
        }
    }

    private static int IndexOf(byte[] file, byte[] sought)
    {
        for (var at = Array.IndexOf(file, sought[0]); at >= 0 && at <= file.Length - sought.Length; at = Array.IndexOf(file, sought[0], at + 1))
        {
            if (sought.SequenceEqual(new ArraySegment<byte>(file, at, sought.Length)))
            {
                return at;
            }
        }

        return -1;
    }

    /// <summary>Where the tables begin, and of each its rows and the bytes of a row (II.24.2); none where the file has a table that is not known here.</summary>
    private static (int At, IReadOnlyList<(int Rows, int Width)> Tables) TablesOf(byte[] file)
    {
        var stream = StreamOf(file);
        if (stream < 0)
        {
            return (0, []);
        }

        var sizes = file[stream + 6];
        var present = BitConverter.ToUInt64(file, stream + 8);
        var at = stream + 24;
        var rows = new int[64];
        for (var table = 0; table < 64; table++)
        {
            if ((present >> table & 1) == 1)
            {
                rows[table] = BitConverter.ToInt32(file, at);
                at += 4;
            }
        }

        List<int> tables = [.. Enumerable.Range(0, 64).Where(table => (present >> table & 1) == 1)];
        return tables.All(Columns.ContainsKey) ? (at, [.. tables.Select(table => (rows[table], WidthOf(Columns[table], sizes, rows)))]) : (0, []);
    }

    private static int WidthOf(string columns, byte sizes, int[] rows)
    {
        var width = 0;
        for (var i = 0; i < columns.Length; i++)
        {
            if (columns[i] == '[')
            {
                var end = columns.IndexOf(']', i);
                width += rows[int.Parse(columns.Substring(i + 1, end - i - 1))] > 0xFFFF ? 4 : 2;
                i = end;
                continue;
            }

            width += columns[i] switch
            {
                's' => (sizes & 1) == 0 ? 2 : 4,
                'g' => (sizes & 2) == 0 ? 2 : 4,
                'b' => (sizes & 4) == 0 ? 2 : 4,
                >= '0' and <= '9' and var digit => digit - '0',
                var coded => Coded[coded].Tables.Max(table => rows[table]) >= 1 << (16 - Coded[coded].Bits) ? 4 : 2,
            };
        }

        return width;
    }

    /// <summary>Where the stream “#~” of the metadata begins; below zero where there is none.</summary>
    private static int StreamOf(byte[] file)
    {
        for (var root = 0; root < file.Length - 16; root++)
        {
            if (file[root] != 'B' || file[root + 1] != 'S' || file[root + 2] != 'J' || file[root + 3] != 'B')
            {
                continue;
            }

            var at = root + 16 + BitConverter.ToInt32(file, root + 12);
            var streams = BitConverter.ToUInt16(file, at + 2);
            at += 4;
            for (var stream = 0; stream < streams; stream++)
            {
                var offset = BitConverter.ToInt32(file, at);
                var end = Array.IndexOf(file, (byte)0, at + 8);
                if (Encoding.ASCII.GetString(file, at + 8, end - at - 8) == "#~")
                {
                    return root + offset;
                }

                at += 8 + ((end - at - 8 + 4) & ~3);
            }
        }

        return -1;
    }
}
