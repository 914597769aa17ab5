using System.Text.Json.Nodes;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

/// <summary>A line of plain words about what was just done, where no map says it. In a job with a map it is a note.</summary>
/// <remarks>The entry carries what the line was understood to say, so that a reader which later understands more changes no job that is on record.</remarks>
/// <param name="Text">The line, unchanged.</param>
/// <param name="Readings">What it says, with every question answered.</param>
public sealed record LineRecorded(string Text, IReadOnlyList<Reading> Readings) : Act
{
    /// <summary>Longer is no line that anybody says with a bolt in the hand.</summary>
    public const int LongestText = 2000;

    public override string Kind => ActKinds.LineRecorded;

    public override JsonObject ToData() => new() { ["text"] = Text, ["readings"] = ActKinds.List(Readings.Select(ReadingText.Write)) };

    internal static LineRecorded Read(Entry entry)
    {
        var readings = new List<Reading>();
        foreach (var text in ActKinds.Texts(entry, "readings"))
        {
            if (!ReadingText.Read(text).TryGet(out var read, out var sentence))
            {
                throw new FormatException($"one of its readings cannot be read: {sentence.TrimEnd('.')}");
            }

            readings.AddRange(read);
        }

        return new LineRecorded(ActKinds.Text(entry, "text"), readings);
    }
}
