using System.Security.Cryptography;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>How much of a photo is here.</summary>
/// <param name="Bytes">How many bytes, from the first: a device goes on from there.</param>
public sealed record PhotoArrived(long Bytes, bool IsWhole);

/// <summary>The workshop's photos. One is taken in pieces, goes on after a cut where it stopped, and is there once it is whole, is what its name says and is a photo.</summary>
public sealed class PhotoLibrary(PhotoFiles files)
{
    /// <summary>More than a device makes of any shot.</summary>
    public const long Largest = 4 * 1024 * 1024;

    /// <summary>One device at a time works on a photo: two may send the same one. By the first digit of its name.</summary>
    private readonly Lock[] _gates = [.. Enumerable.Range(0, 16).Select(_ => new Lock())];

    /// <summary>The JPEG file of this SHA-256, or null when it is not here.</summary>
    // A hash holds nothing that could lead out of a folder.
    public byte[]? Find(string hash) => Entry.IsSha256(hash) ? files.Find(hash) : null;

    public bool Has(string hash) => Entry.IsSha256(hash) && files.Has(hash);

    public PhotoArrived Arrived(string hash, long of = 0) => files.Has(hash) ? new PhotoArrived(of, true) : new PhotoArrived(files.Begun(hash), false);

    /// <summary>Takes a piece. One that does not join on to what is here changes nothing; the answer says where to go on.</summary>
    /// <param name="from">How many bytes of the file come before this piece.</param>
    /// <param name="of">How many bytes the whole file has.</param>
    /// <exception cref="InvalidDataException">It is no photo, or not the one its name says; its pieces are forgotten. The message is one sentence.</exception>
    public PhotoArrived Take(string hash, long from, long of, ReadOnlyMemory<byte> piece)
    {
        if (!Entry.IsSha256(hash))
        {
            throw new InvalidDataException("A photo is named by its SHA-256, 64 digits in lower-case hex.");
        }

        if (of is < 1 or > Largest || from < 0 || piece.Length == 0 || from + piece.Length > of)
        {
            throw new InvalidDataException($"A photo has at most {Largest} bytes, and its pieces lie within it; make it smaller and send it again.");
        }

        lock (_gates[Convert.ToInt32(hash[..1], 16)])
        {
            return files.Has(hash) ? new PhotoArrived(of, true) : Append(hash, from, of, piece);
        }
    }

    /// <summary>Keeps a whole file.</summary>
    /// <exception cref="InvalidDataException">As <see cref="Take"/>.</exception>
    public void Keep(string hash, byte[] file) => Take(hash, 0, file.Length, file);

    private PhotoArrived Append(string hash, long from, long of, ReadOnlyMemory<byte> piece)
    {
        if (!files.Append(hash, from, piece) || from + piece.Length < of)
        {
            return Arrived(hash, of);
        }

        var whole = files.Pieces(hash);
        var fault = Convert.ToHexStringLower(SHA256.HashData(whole)) != hash ? "it is not the file whose name it bears" : Jpeg.Fault(whole);
        if (fault is not null)
        {
            files.Discard(hash);
            throw new InvalidDataException($"This is not kept as a photo, because {fault}; take the photo anew.");
        }

        files.Finish(hash, whole);
        return new PhotoArrived(of, true);
    }
}
