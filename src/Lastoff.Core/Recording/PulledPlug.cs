using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>“Pulled the plug and waited for the drum to stop”: what stopped it is the mains plug, and no connector.</summary>
internal static class PulledPlug
{
    /// <summary>The readings with that plug as what makes the machine safe; as a note, where a connector was told before and the plug may be another.</summary>
    /// <param name="before">What was told in the lines before, the last first.</param>
    public static IReadOnlyList<Reading> Told(IReadOnlyList<Reading> readings, IReadOnlyList<Reading> before, string line, PhraseBook book)
    {
        if (Plug(line, book) is not { } plug || readings.Index().FirstOrDefault(at => IsPlug(at.Item, book), (-1, null!)) is not ( >= 0 and var at, { } told))
        {
            return readings;
        }

        var stopped = !before.Any(other => other.Kind == JointKind.Connector) ? new Reading { Deed = Deed.Safe, Part = plug, Supply = SupplyKind.HighVoltage, Note = told.Note }
            : readings.Count == 1 ? new Reading { Note = line.Trim() }
            : told with { Deed = Deed.Note };
        return [.. readings.Take(at), stopped, .. readings.Skip(at + 1)];
    }

    private static bool IsPlug(Reading reading, PhraseBook book) => reading is { Deed: Deed.Undone, Kind: JointKind.Connector, Part: null, Count: null or 1, Tray: null } && (reading.Name is not { } name || book.Has(name.ToLowerInvariant(), WordKind.MainsPlugs));

    /// <summary>What the line calls the plug, behind which it says that something was waited for until it stood; null where it does not.</summary>
    private static string? Plug(string line, PhraseBook book)
    {
        var tokens = book.Cut(line);
        var plug = tokens.FindIndex(token => book.Of(token.Lower, WordKind.MainsPlugs) is not null);
        var waited = plug < 0 ? -1 : tokens.FindIndex(plug, token => book.Of(token.Lower, WordKind.Waited) is not null);
        // “Waited for the oil to run down”: another plug.
        return waited > 0 && !Enumerable.Range(0, tokens.Count).Any(at => book.At(tokens, at, WordKind.Fluids) is not null) && Enumerable.Range(waited, tokens.Count - waited).Any(at => book.At(tokens, at, WordKind.Stood) is not null) ? line[tokens[plug].Start..tokens[plug].End] : null;
    }
}
