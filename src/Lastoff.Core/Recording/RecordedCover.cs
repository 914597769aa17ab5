using Lastoff.Core.Ledger;

namespace Lastoff.Core.Recording;

/// <summary>A cover, plug or rag that a recorded line put into an opening or took out of it.</summary>
/// <param name="Act">As the ledger counts it. An opening is known by its name, since another line speaks of it again.</param>
public sealed record RecordedCover(Act Act, Reading Reading)
{
    private const string Mark = "opening:";

    /// <summary>In the order of the line.</summary>
    public static IReadOnlyList<RecordedCover> Of(LineRecorded line) => Of(line.Readings);

    public static IReadOnlyList<RecordedCover> Of(IReadOnlyList<Reading> readings) =>
    [
        .. from reading in readings
           where reading is { Deed: Deed.Covered or Deed.Uncovered, Part: not null }
           let id = OpeningOf(reading.Part!)
           select new RecordedCover(reading.Deed == Deed.Covered ? new OpeningCovered(id) : new OpeningUncovered(id), reading),
    ];

    /// <summary>An opening by its name.</summary>
    public static string OpeningOf(string name) => Mark + RecordedThing.Plain(name);

    public string Opening => Act switch { OpeningCovered covered => covered.Opening, OpeningUncovered uncovered => uncovered.Opening, _ => "" };

    public string Name => RecordedThing.Capital(Reading.Part!);

    /// <summary>What this line says went in or came out: “rag”, “set of 2 (caps)”.</summary>
    public string Cover => (Reading.Cover ?? "cover", Reading.Count) switch
    {
        (var cover, > 1 and var count) => $"set of {count} ({cover})",
        var (cover, _) => cover,
    };
}
