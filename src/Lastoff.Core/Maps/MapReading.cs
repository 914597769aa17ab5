namespace Lastoff.Core.Maps;

/// <summary>One thing wrong with a map file.</summary>
/// <param name="Line">The line of the file, counted from 1.</param>
/// <param name="Field">The field, within its part, joint or supply: "count", "reach.clear".</param>
/// <param name="Sentence">What is wrong, where, and what to do about it.</param>
public sealed record MapFault(int Line, string Field, string Sentence)
{
    /// <summary>Where it stands from the file's own fields on, such as "joints[3].reach.clear[1]"; empty for a fault of the text itself.</summary>
    public string Path { get; init; } = "";
}

/// <summary>What came of reading a map file: a map, or everything that is wrong with it, by line.</summary>
public sealed record MapReading(string FileName, Map? Map, IReadOnlyList<MapFault> Faults)
{
    /// <summary>The fault as one line of text that names file, line and field.</summary>
    public string Describe(MapFault fault) => $"{FileName}, line {fault.Line}, {fault.Field}: {fault.Sentence}";
}
