#nullable enable
using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Build.Framework;
using Microsoft.Build.Utilities;

/// <summary>
/// Writes the WebAssembly of the .NET runtime anew without the bodies of functions that this app never calls, and without the tables that only they read.
/// Each such function keeps its number and its type, so nothing else in the file changes; a call to one ends the app at once, it does not go on wrongly.
/// The format is the WebAssembly Core Specification, version 1, section 5 (binary format); archives are those of `ar`.
/// </summary>
public sealed class LighterRuntime : Task
{
    /// <summary>The folder of the runtime pack with dotnet.native.wasm, the names of its functions and the archives it was linked from.</summary>
    [Required]
    public string From { get; set; } = "";

    [Required]
    public string To { get; set; } = "";

    /// <summary>A regular expression; a function whose name it is found in is left out.</summary>
    [Required]
    public string Functions { get; set; } = "";

    /// <summary>Archives in the same folder whose tables are left out: those that stand in the runtime once, as what stands twice may be somebody else's.</summary>
    [Required]
    public ITaskItem[] Tables { get; set; } = [];

    private const int ImportSection = 2, CodeSection = 10, DataSection = 11;

    // Shorter ones are names, by which something may still be looked up, and weigh next to nothing.
    private const int ShortestTable = 64;

    // No locals; unreachable; end.
    private static readonly byte[] s_dead = [0x00, 0x00, 0x0b];

    public override bool Execute()
    {
        var wasm = File.ReadAllBytes(Path.Combine(From, "dotnet.native.wasm"));
        var unwanted = new Regex(Functions);
        var names = File.ReadLines(Path.Combine(From, "dotnet.native.js.symbols"))
            .Select(line => line.Split([':'], 2))
            .ToDictionary(parts => int.Parse(parts[0]), parts => Regex.Replace(parts[1], @"\\([0-9a-f]{2})", m => ((char)Convert.ToInt32(m.Groups[1].Value, 16)).ToString()));

        var sections = Sections(wasm);
        BlankTables(wasm, sections.Single(s => s.Id == DataSection));
        var lighter = new MemoryStream();
        lighter.Write(wasm, 0, 8);
        var left = 0;
        foreach (var section in sections)
        {
            var content = section.Id == CodeSection
                ? Code(wasm, section, ImportedFunctions(wasm, sections.Single(s => s.Id == ImportSection)), i => names.TryGetValue(i, out var name) && unwanted.IsMatch(name), ref left)
                : wasm.Skip(section.At).Take(section.Length).ToArray();
            lighter.WriteByte((byte)section.Id);
            WriteNumber(lighter, content.Length);
            lighter.Write(content, 0, content.Length);
        }

        if (left == 0)
        {
            Log.LogError("No function of the runtime has a name that is to be left out; the names have changed, so look at them in " + From + ".");
            return false;
        }

        // Written only when it is another, so that nothing is packed anew for it; made every time, as a file's date does not tell one version from another.
        if (!File.Exists(To) || !File.ReadAllBytes(To).SequenceEqual(lighter.ToArray()))
        {
            File.WriteAllBytes(To, lighter.ToArray());
            Log.LogMessage(MessageImportance.High, $"The runtime without {left} functions: {wasm.Length} bytes are now {lighter.Length}.");
        }

        return true;
    }

    private static byte[] Code(byte[] wasm, Section code, int imported, Func<int, bool> isUnwanted, ref int left)
    {
        var at = code.At;
        var count = Number(wasm, ref at);
        var written = new MemoryStream();
        WriteNumber(written, count);
        for (var i = 0; i < count; i++)
        {
            var length = Number(wasm, ref at);
            if (isUnwanted(imported + i))
            {
                left++;
                WriteNumber(written, s_dead.Length);
                written.Write(s_dead, 0, s_dead.Length);
            }
            else
            {
                WriteNumber(written, length);
                written.Write(wasm, at, length);
            }

            at += length;
        }

        return written.ToArray();
    }

    private static int ImportedFunctions(byte[] wasm, Section imports)
    {
        var at = imports.At;
        var functions = 0;
        for (var count = Number(wasm, ref at); count > 0; count--)
        {
            Skip(wasm, ref at);
            Skip(wasm, ref at);
            switch (wasm[at++])
            {
                case 0:
                    functions++;
                    Number(wasm, ref at);
                    break;
                case 1:
                    at++;
                    Limits(wasm, ref at);
                    break;
                case 2:
                    Limits(wasm, ref at);
                    break;
                case 3:
                    at += 2;
                    break;
                default:
                    at++;
                    Number(wasm, ref at);
                    break;
            }
        }

        return functions;

        static void Skip(byte[] wasm, ref int at)
        {
            var length = Number(wasm, ref at);
            at += length;
        }

        static void Limits(byte[] wasm, ref int at)
        {
            var hasMost = (wasm[at++] & 1) != 0;
            Number(wasm, ref at);
            if (hasMost)
            {
                Number(wasm, ref at);
            }
        }
    }

    private void BlankTables(byte[] wasm, Section data)
    {
        foreach (var archive in Tables)
        {
            foreach (var table in Objects(File.ReadAllBytes(Path.Combine(From, archive.ItemSpec))).SelectMany(Stretches).Where(table => table.Length >= ShortestTable))
            {
                var end = data.At + data.Length;
                var at = IndexOf(wasm, table, data.At, end);
                if (at >= 0 && IndexOf(wasm, table, at + 1, end) < 0)
                {
                    Array.Clear(wasm, at, table.Length);
                }
            }
        }
    }

    /// <summary>The object files in an archive: a line of 60 characters before each, with its length at the 48th.</summary>
    private static IEnumerable<byte[]> Objects(byte[] archive)
    {
        for (var at = 8; at < archive.Length;)
        {
            var length = int.Parse(Encoding.ASCII.GetString(archive, at + 48, 10).Trim());
            var content = archive.Skip(at + 60).Take(length).ToArray();
            at += 60 + length + (length & 1);
            if (content.Length > 8 && content[0] == 0 && content[1] == 'a' && content[2] == 's' && content[3] == 'm')
            {
                yield return content;
            }
        }
    }

    /// <summary>The stretches of an object's data between its zeros: linking leaves those of no address as they are.</summary>
    private static IEnumerable<byte[]> Stretches(byte[] wasm)
    {
        foreach (var section in Sections(wasm).Where(s => s.Id == DataSection))
        {
            var at = section.At;
            for (var count = Number(wasm, ref at); count > 0; count--)
            {
                var isPassive = wasm[at++] == 1;
                if (!isPassive)
                {
                    at++;
                    Number(wasm, ref at);
                    at++;
                }

                var end = Number(wasm, ref at) + at;
                var start = at;
                var zeros = 0;
                for (; at <= end; at++)
                {
                    if (at < end && wasm[at] != 0)
                    {
                        zeros = 0;
                    }
                    else if (++zeros == 8 || at == end)
                    {
                        var length = at + 1 - zeros - start;
                        // Linking takes zeros away at the edges too.
                        var table = wasm.Skip(start).Take(length).SkipWhile(b => b == 0).ToArray();
                        if (table.Length > 0)
                        {
                            yield return table;
                        }

                        while (at + 1 < end && wasm[at + 1] == 0)
                        {
                            at++;
                        }

                        start = at + 1;
                        zeros = 0;
                    }
                }

                at = end;
            }
        }
    }

    private static int IndexOf(byte[] wasm, byte[] table, int from, int to)
    {
        for (var at = from; (at = Array.IndexOf(wasm, table[0], at, to - at)) >= 0 && at + table.Length <= to; at++)
        {
            var i = 1;
            while (i < table.Length && wasm[at + i] == table[i])
            {
                i++;
            }

            if (i == table.Length)
            {
                return at;
            }
        }

        return -1;
    }

    private static List<Section> Sections(byte[] wasm)
    {
        var sections = new List<Section>();
        for (var at = 8; at < wasm.Length;)
        {
            var id = wasm[at++];
            var length = Number(wasm, ref at);
            sections.Add(new Section { Id = id, At = at, Length = length });
            at += length;
        }

        return sections;
    }

    /// <summary>LEB128, as every number in the file is.</summary>
    private static int Number(byte[] wasm, ref int at)
    {
        var number = 0;
        for (var shift = 0; ; shift += 7)
        {
            var next = wasm[at++];
            number |= (next & 0x7f) << shift;
            if (next < 0x80)
            {
                return number;
            }
        }
    }

    private static void WriteNumber(Stream to, int number)
    {
        for (; number >= 0x80; number >>= 7)
        {
            to.WriteByte((byte)(number & 0x7f | 0x80));
        }

        to.WriteByte((byte)number);
    }

    private struct Section
    {
        public int Id;
        public int At;
        public int Length;
    }
}
