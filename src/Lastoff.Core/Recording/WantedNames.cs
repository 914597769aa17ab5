using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What a wanted thing is called where the line says more of it elsewhere.</summary>
internal static class WantedNames
{
    /// <summary>“Wants new hose, return hose is split” is the return hose; an old O-ring is an O-ring; and the seal that is wanted has the size that stands behind.</summary>
    public static Reading Whole(Reading wanted, IReadOnlyList<Reading> told, string line, PhraseBook book)
    {
        if (wanted is not { Deed: Deed.Wanted, Part: { } called })
        {
            return wanted;
        }

        var name = OldOnes.Plain(called, book);
        name = wanted.Of is null && told.FirstOrDefault(one => one.Broken && Ends(one, name)) is { } broken ? broken.Name ?? broken.Part! : name;
        return wanted with { Part = SealSize.Named(name, line, book) };
    }

    /// <summary>“Return hose split, needs a new one”: found so, and not undone yet.</summary>
    public static Reading Found(Reading told, IEnumerable<Reading> wanted, bool saysDeed) =>
        !saysDeed && told is { Deed: Deed.Undone, Broken: true, Kind: JointKind.Hose or JointKind.Pipe, Name: { } name } && wanted.Any(one => one.Deed == Deed.Wanted && name.Equals(one.Part, StringComparison.OrdinalIgnoreCase)) ? told with { Deed = Deed.Note } : told;

    private static bool Ends(Reading told, string name) => (told.Name ?? told.Part)?.EndsWith($" {name}", StringComparison.OrdinalIgnoreCase) == true;
}
