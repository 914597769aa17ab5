namespace Lastoff.Core.Recording;

/// <summary>Sizes, counts and trays said ahead of the thing they belong to: “tray 8, three bolts”.</summary>
internal sealed class Ahead
{
    private readonly List<Term> _terms = [];

    public Reading? Reading { get; private set; }

    public void Add(Heard heard)
    {
        Reading = Reading is { } earlier ? Merging.Of(earlier, heard.Reading) : heard.Reading;
        _terms.AddRange(heard.Clause.Terms);
    }

    /// <summary>What was said ahead, and no more of it, added to the thing.</summary>
    public Reading GiveTo(Reading thing)
    {
        var given = Reading is { } ahead ? Merging.Of(thing, ahead) : thing;
        Reading = null;
        return given;
    }

    /// <summary>The words of it that no field took.</summary>
    public void NoteIn(Told told)
    {
        told.Note(_terms);
        _terms.Clear();
    }
}
