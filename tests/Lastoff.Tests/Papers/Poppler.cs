using System.Diagnostics;
using System.Text;

namespace Lastoff.Tests.Papers;

/// <summary>PDF files as another program reads and draws them: poppler's pdftotext and pdftoppm.</summary>
internal static class Poppler
{
    /// <summary>The text, cell by cell, one string for each sheet.</summary>
    public static async Task<string[]> Text(string file)
    {
        var text = await Run("pdftotext", "-raw", file, "-");
        // A form feed ends each page.
        return text.TrimEnd('\f').Split('\f');
    }

    /// <summary>A sheet as grey pixels, row by row.</summary>
    public static async Task<(byte[] Pixels, int Width, int Height)> Grey(string file, int sheet, int dotsPerInch = 200)
    {
        var target = Path.Combine(Path.GetDirectoryName(file)!, $"sheet-{Guid.NewGuid():N}");
        await Run("pdftoppm", "-gray", "-singlefile", "-f", $"{sheet}", "-r", $"{dotsPerInch}", file, target);
        var image = await File.ReadAllBytesAsync(target + ".pgm", TestContext.Current.CancellationToken);
        // “P5 WIDTH HEIGHT 255” and one white space, then the pixels (netpbm's pgm format).
        var (fields, at) = (new List<string>(), 0);
        while (fields.Count < 4)
        {
            var end = Array.FindIndex(image, at, letter => char.IsWhiteSpace((char)letter));
            fields.Add(Encoding.ASCII.GetString(image, at, end - at));
            at = end + 1;
        }

        Assert.Equal(("P5", "255"), (fields[0], fields[3]));
        return (image[at..], int.Parse(fields[1], null), int.Parse(fields[2], null));
    }

    public static async Task<string> Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, StandardOutputEncoding = Encoding.UTF8 })!;
        var error = process.StandardError.ReadToEndAsync();
        var output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, await error);
        // A file that is not whole, or a font that is not there, is told here.
        Assert.Equal("", await error);
        return output;
    }
}
