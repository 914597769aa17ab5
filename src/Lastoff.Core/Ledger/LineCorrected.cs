using System.Text.Json.Nodes;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

/// <summary>A recorded line put right. What it says now counts where the line stood, as though it had been said so at first; of two corrections the last one does.</summary>
/// <param name="Line">The entry of the line.</param>
/// <param name="Text">The line as it should have been.</param>
/// <param name="Readings">What it says, with every question answered.</param>
public sealed record LineCorrected(Guid Line, string Text, IReadOnlyList<Reading> Readings) : Act
{
    public override string Kind => ActKinds.LineCorrected;

    /// <summary>The line as it counts now.</summary>
    internal LineRecorded Corrected => new(Text, Readings);

    public override JsonObject ToData()
    {
        var data = Corrected.ToData();
        data["line"] = Line.ToString();
        return data;
    }

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static LineCorrected Read(Entry entry)
    {
        var (text, readings) = LineRecorded.Read(entry);
        return new LineCorrected(Guid.TryParse(ActKinds.Text(entry, "line"), out var line) ? line : throw new FormatException("its data names no line"), text, readings);
    }
}
