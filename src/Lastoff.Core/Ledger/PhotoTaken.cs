using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>A photo was taken. The entry names it by its content; the picture itself travels beside the ledger.</summary>
/// <param name="Photo">SHA-256 of the JPEG file, 64 digits in lower-case hex.</param>
/// <param name="Thumbnail">SHA-256 of a small JPEG file of the same picture.</param>
/// <param name="About">The part, joint, supply or whatever was in hand; null when nothing was.</param>
public sealed record PhotoTaken(string Photo, string Thumbnail, string? About = null) : Act
{
    public override string Kind => ActKinds.PhotoTaken;

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["photo"] = Photo, ["thumbnail"] = Thumbnail };
        if (About is not null)
        {
            data["about"] = About;
        }

        return data;
    }

    internal static PhotoTaken Read(Entry entry) => new(Hash(entry, "photo"), Hash(entry, "thumbnail"), ActKinds.OptionalText(entry, "about"));

    private static string Hash(Entry entry, string name) =>
        ActKinds.Text(entry, name) is var text && Entry.IsSha256(text) ? text : throw new FormatException($"its {name} is not a SHA-256");
}
