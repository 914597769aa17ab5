using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What was shown to heed while a thing was told of, as far as it is so of every machine of the sort and not of this one alone.</summary>
internal static class LastingCautions
{
    /// <summary>What may still run out is said by whatever a joint waits for; it needs no saying twice.</summary>
    private static readonly string?[] OfOpenings = [.. Enum.GetValues<SupplyKind>().Select(Cautions.OfOpening)];

    /// <remarks>That open ends are to be closed is of use on the way out alone, and said there.</remarks>
    /// <param name="isSafe">Whether a supply of the kind was made safe before it.</param>
    public static IReadOnlyList<string> Of(ToldMove one, Func<SupplyKind, bool> isSafe)
    {
        // What to heed at a supply follows from its kind.
        if (one.Reading is not { } reading || one.Moved.Move == Move.SupplySafe)
        {
            return [];
        }

        string[] length = reading.Length is { } said ? [$"{RecordedThing.Said(said)} long."] : [];
        return
        [
            .. RecordedThing.CautionsOf(reading with { Seized = false })
                .Concat(length)
                .Concat(ToldDangers.Of(reading, isSafe, isClosed: true).Where(danger => !OfOpenings.Contains(danger)))
                .Distinct(),
        ];
    }
}
