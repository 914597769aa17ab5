using Lastoff.Core.Languages;

namespace Lastoff.Core.Papers;

/// <summary>A paper of a job: what it says, in the order in which it is read. It has no looks of its own; <see cref="PaperHtml"/> and <see cref="PaperJson"/> give it some.</summary>
/// <param name="Kind">Which paper it is.</param>
/// <param name="Title">What stands on top: "Handover".</param>
/// <param name="For">Who is to read it: "For the customer".</param>
/// <param name="Machine">The machine, as the job was opened with it.</param>
/// <param name="Basis">What the paper stands on: how many entries, and the last of them.</param>
/// <param name="Invented">What of it is made up, as a sentence; null when nothing is.</param>
public sealed record Paper(PaperKind Kind, string Title, string For, string Machine, string Basis, string? Invented, IReadOnlyList<Section> Sections)
{
    public bool IsInvented => Invented is not null;

    /// <summary>The language it is in, and in which whoever gives it looks says the few words of their own.</summary>
    public Tongue Tongue { get; init; } = Tongue.English;

    /// <summary>The same paper in another language: its texts only, never its data. What people and maps say in their own words stays.</summary>
    public Paper In(Tongue tongue) => tongue == Tongue ? this : new PaperInTongue(tongue).Of(this);
}

/// <param name="Heading">Empty where the section needs none.</param>
public sealed record Section(string Heading, IReadOnlyList<Block> Blocks)
{
    public Section(string heading, params Block[] blocks)
        : this(heading, (IReadOnlyList<Block>)blocks)
    {
    }
}

/// <summary>A piece of a section.</summary>
public abstract record Block;

/// <summary>Names and what there is to say of each, one under the other.</summary>
public sealed record Facts(IReadOnlyList<Fact> Lines) : Block;

public sealed record Fact(string Name, Said Value);

/// <param name="Caption">Empty where the section's heading says it all. It is repeated with the head on every sheet.</param>
public sealed record Table(string Caption, IReadOnlyList<Column> Columns, IReadOnlyList<Row> Rows) : Block;

/// <param name="Share">Its part of the width, against the other columns' parts.</param>
/// <param name="IsFigure">Its cells are numbers, set to the right.</param>
public sealed record Column(string Head, double Share, bool IsFigure = false);

/// <param name="Caution">What can hurt someone at this line; null when nothing is known to.</param>
public sealed record Row(IReadOnlyList<Said> Cells, RowKind Kind = RowKind.Plain, string? Caution = null)
{
    /// <summary>Says what the rows under it are: its one text goes over all columns.</summary>
    public static Row Heading(string text) => new([text], RowKind.Heading);
}

public enum RowKind
{
    Plain,
    /// <summary>It does not count any more, and stays to be read.</summary>
    Struck,
    /// <summary>It is what the rows above come to.</summary>
    Sum,
    Heading,
}

public sealed record Paragraph(Said Text) : Block;

/// <summary>What can hurt someone, or what a reader must not miss.</summary>
public sealed record Caution(Said Text) : Block;

public sealed record Bullets(IReadOnlyList<Said> Items) : Block;

/// <summary>Labels to cut out.</summary>
public sealed record Labels(IReadOnlyList<Label> Items) : Block;

/// <param name="Name">Large, to be read from a step away.</param>
/// <param name="Lines">What lies in it or where it goes.</param>
/// <param name="Code">Opens it on a phone; null where the server's address is not known.</param>
public sealed record Label(string Name, IReadOnlyList<Said> Lines, QrCode? Code);

/// <param name="Link">What the code says.</param>
/// <param name="Dark">Its modules by row and column, without the quiet zone around them.</param>
public sealed record QrCode(string Link, bool[,] Dark);

public sealed record Pictures(IReadOnlyList<Picture> Items) : Block;

/// <param name="Sha256">Of the photo in full, by which it is known again.</param>
/// <param name="Jpeg">The small picture's file; null when it is not here.</param>
public sealed record Picture(Said Caption, string Sha256, byte[]? Jpeg);

/// <summary>The end of each device's chain of entries: with them, a ledger can be known again as the one the paper was made from.</summary>
public sealed record Seal(IReadOnlyList<ChainEnd> Ends, string HowToCheck) : Block;

/// <param name="Hash">SHA-256, in hex, of the device's last line.</param>
public sealed record ChainEnd(string Device, long Entries, Guid Last, string Hash);
