namespace Lastoff.Storing;

/// <summary>Where the files of photos are kept, each under the SHA-256 of its content. A file comes in pieces, and is not there before it is whole.</summary>
public abstract class PhotoFiles
{
    public abstract bool Has(string hash);

    /// <summary>The whole file; null when it is not here, or not whole.</summary>
    public abstract byte[]? Find(string hash);

    /// <summary>How many bytes are here of a file that is not whole.</summary>
    public abstract long Begun(string hash);

    /// <summary>Appends to a file that is not whole; false, and nothing is done, when it does not have exactly <paramref name="from"/> bytes. From 0 it begins anew.</summary>
    public abstract bool Append(string hash, long from, ReadOnlyMemory<byte> piece);

    /// <summary>The bytes that are here of a file that is not whole.</summary>
    public abstract byte[] Pieces(string hash);

    /// <summary>These are all its bytes: from now on it is found. It is on the disk when this returns.</summary>
    public abstract void Finish(string hash, byte[] whole);

    /// <summary>Forgets the pieces of a file that is not whole.</summary>
    public abstract void Discard(string hash);
}

/// <summary>A folder of JPEG files. They never change, so a copy of the folder at any moment is a backup of it.</summary>
internal sealed class PhotoFolder(string folder) : PhotoFiles
{
    public override bool Has(string hash) => File.Exists(Whole(hash));

    public override byte[]? Find(string hash)
    {
        try
        {
            return File.ReadAllBytes(Whole(hash));
        }
        catch (IOException e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
    }

    public override long Begun(string hash) => new FileInfo(Part(hash)) is { Exists: true, Length: var length } ? length : 0;

    public override bool Append(string hash, long from, ReadOnlyMemory<byte> piece)
    {
        Directory.CreateDirectory(folder);
        using var file = new FileStream(Part(hash), FileMode.OpenOrCreate, FileAccess.Write, FileShare.None);
        if (from > 0 && file.Length != from)
        {
            return false;
        }

        file.SetLength(from);
        file.Seek(from, SeekOrigin.Begin);
        file.Write(piece.Span);
        return true;
    }

    public override byte[] Pieces(string hash) => File.Exists(Part(hash)) ? File.ReadAllBytes(Part(hash)) : [];

    public override void Finish(string hash, byte[] whole)
    {
        using (var file = new FileStream(Part(hash), FileMode.Open, FileAccess.ReadWrite, FileShare.None))
        {
            file.Flush(flushToDisk: true);
        }

        File.Move(Part(hash), Whole(hash), overwrite: true);
    }

    public override void Discard(string hash) => File.Delete(Part(hash));

    private string Whole(string hash) => Path.Combine(folder, hash + Bundle.PhotoEnding);

    private string Part(string hash) => Path.Combine(folder, hash + ".part");
}

/// <summary>A table of photos, so that every server on the database has the same.</summary>
internal sealed class PhotoTable(Database database, int workshop) : PhotoFiles
{
    public override bool Has(string hash) => One(hash, "SELECT 1 FROM photos WHERE workshop = @workshop AND hash = @hash AND is_whole = 1") is not null;

    public override byte[]? Find(string hash) => One(hash, "SELECT bytes FROM photos WHERE workshop = @workshop AND hash = @hash AND is_whole = 1") as byte[];

    public override long Begun(string hash) =>
        Convert.ToInt64(One(hash, "SELECT octet_length(bytes) FROM photos WHERE workshop = @workshop AND hash = @hash AND is_whole = 0"), null);

    public override bool Append(string hash, long from, ReadOnlyMemory<byte> piece)
    {
        using var connection = database.OpenToWrite();
        var text = from == 0
            ? """
              INSERT INTO photos (workshop, hash, bytes, is_whole) VALUES (@workshop, @hash, @piece, 0)
              ON CONFLICT (workshop, hash) DO UPDATE SET bytes = excluded.bytes WHERE photos.is_whole = 0 AND @from = 0
              """
            : "UPDATE photos SET bytes = bytes || @piece WHERE workshop = @workshop AND hash = @hash AND is_whole = 0 AND octet_length(bytes) = @from";
        return connection.Run(text, ("@workshop", workshop), ("@hash", hash), ("@piece", piece.ToArray()), ("@from", from)) == 1;
    }

    public override byte[] Pieces(string hash) => One(hash, "SELECT bytes FROM photos WHERE workshop = @workshop AND hash = @hash") as byte[] ?? [];

    // Another server may have begun it anew meanwhile: what counts is what was looked at.
    public override void Finish(string hash, byte[] whole) => Run(
        "INSERT INTO photos (workshop, hash, bytes, is_whole) VALUES (@workshop, @hash, @whole, 1) ON CONFLICT (workshop, hash) DO UPDATE SET bytes = excluded.bytes, is_whole = 1",
        hash, ("@whole", whole));

    public override void Discard(string hash) => Run("DELETE FROM photos WHERE workshop = @workshop AND hash = @hash AND is_whole = 0", hash);

    private object? One(string hash, string text)
    {
        using var connection = database.OpenToRead();
        return connection.One(text, ("@workshop", workshop), ("@hash", hash));
    }

    private void Run(string text, string hash, params ReadOnlySpan<(string Name, object Value)> more)
    {
        using var connection = database.OpenToWrite();
        connection.Run(text, [("@workshop", workshop), ("@hash", hash), .. more]);
    }
}
