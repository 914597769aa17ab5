namespace Lastoff.Core.Recording;

/// <summary>“Key in tray 2”, “spring and ball in tray 3”: a name of which no more is told than its tray.</summary>
internal static class LaidInTray
{
    /// <summary>The names, each with the tray it lies in: its own, or that of the one it is joined to by “and”. Null for none.</summary>
    public static IReadOnlyList<(Heard Heard, string? Tray)> Of(IReadOnlyList<Heard> names)
    {
        var laid = new (Heard Heard, string? Tray)[names.Count];
        for (var at = names.Count - 1; at >= 0; at--)
        {
            var isJoined = at + 1 < names.Count && names[at + 1].Clause.Joined == Joined.And;
            laid[at] = (names[at], names[at].Reading.Tray ?? (isJoined ? laid[at + 1].Tray : null));
        }

        return laid;
    }

    /// <summary>Whether it came off by itself: what goes on a fastener lies with it, a rag was on no machine, and “the rest” is what was told before.</summary>
    public static bool IsByItself(Heard heard, Told? last) => heard.Reading.Part is { } name && !LineReader.IsCover(name) && !LineReader.IsUnnamed(name)
        && !(heard.Clause.Has(WordKind.Sundries) && last is { IsRemark: false, Reading.Tray: null } && last.Reading.IsTurned() && !heard.Clause.IsStart);
}
