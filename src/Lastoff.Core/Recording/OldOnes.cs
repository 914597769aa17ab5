namespace Lastoff.Core.Recording;

/// <summary>“Old gasket scraped off”: the thing is the gasket, and nobody puts the old one back.</summary>
internal static class OldOnes
{
    /// <summary>The name without what calls the thing old.</summary>
    public static string Plain(string called, PhraseBook book) => called.Split(' ', 2) is [var old, var name] && book.Of(old.ToLowerInvariant(), WordKind.OldOnes) is not null ? name : called;

    /// <summary>The readings with the things by their own names, and with the new ones that are wanted for those that were called old.</summary>
    public static IReadOnlyList<Reading> Renewed(IReadOnlyList<Reading> readings, string line, PhraseBook book)
    {
        List<Reading> told = [];
        foreach (var reading in readings)
        {
            if (reading is not { Deed: Deed.Off, Kind: null, Part: { } called } || Plain(called, book) is var name && name == called)
            {
                told.Add(reading);
                continue;
            }

            told.Add(reading with { Part = name });
            var wanted = new Reading { Deed = Deed.Wanted, Part = SealSize.Named(name, line, book) };
            if (!reading.Broken && !readings.Any(other => OneOfThem.IsSameWant(other, wanted)))
            {
                told.Add(wanted);
            }
        }

        return told;
    }
}
