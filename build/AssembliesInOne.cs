using System;
using System.IO;
using System.Linq;
using System.Text;
using Microsoft.Build.Framework;
using Microsoft.Build.Utilities;

/// <summary>
/// Writes many files into one: its length as a little-endian number of four bytes, then a line for each file with its name and its length, then the files one after another.
/// <c>start.js</c> takes it apart.
/// </summary>
public sealed class AssembliesInOne : Task
{
    [Required]
    public ITaskItem[] Files { get; set; } = [];

    [Required]
    public string To { get; set; } = "";

    public override bool Execute()
    {
        var files = Files.Select(f => f.ItemSpec).OrderBy(Path.GetFileName, StringComparer.Ordinal).ToList();
        var list = Encoding.UTF8.GetBytes(string.Concat(files.Select(f => $"{Path.GetFileName(f)} {new FileInfo(f).Length}\n")));
        Directory.CreateDirectory(Path.GetDirectoryName(To)!);
        using var one = File.Create(To);
        one.Write(BitConverter.GetBytes(list.Length), 0, 4);
        one.Write(list, 0, list.Length);
        foreach (var file in files)
        {
            using var part = File.OpenRead(file);
            part.CopyTo(one);
        }

        return true;
    }
}
