namespace Lastoff.Core.Recording;

/// <summary>A count and a size, or a count and a place, of a second group of the fasteners that were told before.</summary>
internal static class AnotherGroup
{
    /// <returns>Null where the clause tells more of the group before.</returns>
    public static Reading? Of(Heard heard, Reading before)
    {
        var said = heard.Reading;
        if (before is not { Kind: { } kind, Count: { } known })
        {
            return null;
        }

        // “Four 10 mil and one 13”.
        if (said.IsMeasured() && said.Count is not null && before.IsMeasured())
        {
            // “Six T20, four 10 mm”: heads of another sort are of another sort of fastener.
            return said with { Kind = before.Name is null && kind == Fasteners.Likely(before.Drive) && before.Drive is not null ? Fasteners.Likely(said.Drive) : kind, Deed = Deed.Undone };
        }

        // “Three from above, two from below”; of “six, two from below”, two are among the six.
        return heard.Open is { } number && said.At is not null && (before.At is not null || number.Number >= known)
            ? said with { Kind = kind, Count = (int)number.Number, Deed = before.Deed }
            : null;
    }
}
