using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>A line as it was typed or dictated, and the reading that was written beside it by hand.</summary>
internal sealed record RecordedExample(string Line, string Expected, string Language)
{
    public string Got => ReadingText.Write(LineReader.In(Language).Read(Line).Readings);

    public bool IsRight => Got == ReadingText.Write(Meant);

    private IReadOnlyList<Reading> Meant => ReadingText.Read(Expected).Or(sentence => throw new FormatException($"{Line}: {sentence}"));

    /// <summary>The examples of a file: “line => reading”, comments with #.</summary>
    public static IReadOnlyList<RecordedExample> Of(string file, string language = "en") =>
        [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", "recording", file))
            .Where(row => row.Length > 0 && row[0] != '#')
            .Select(row => row.Split(" => ") is [var line, var expected] ? new RecordedExample(line, expected, language) : throw new FormatException($"{file}: “{row}” is not one line and one reading."))];
}
