using System.Buffers.Binary;

namespace Lastoff.Core.Ledger;

/// <summary>Makes the identifiers of entries: UUID version 7 (RFC 9562) whose time never runs behind any entry the device has seen.</summary>
/// <remarks>
/// That makes the identifiers a hybrid logical clock: an entry written with knowledge of another sorts after it, whatever the two
/// devices' own clocks say. The device's own time stands, unaltered, in the entry's <c>at</c>.
/// </remarks>
public static class EntryId
{
    private const int RandomBytes = 10;

    /// <param name="now">The device's clock.</param>
    /// <param name="latestSeen">The greatest identifier on the device, or null.</param>
    /// <param name="randomness">Ten random bytes.</param>
    /// <exception cref="ArgumentException">There are not ten random bytes.</exception>
    public static Guid Next(DateTimeOffset now, Guid? latestSeen, ReadOnlySpan<byte> randomness)
    {
        if (randomness.Length != RandomBytes)
        {
            throw new ArgumentException($"An identifier takes {RandomBytes} random bytes.", nameof(randomness));
        }

        var time = now.ToUnixTimeMilliseconds();
        if (latestSeen is { } seen && Time(seen) >= time)
        {
            time = Time(seen) + 1;
        }

        Span<byte> bytes = stackalloc byte[16];
        BinaryPrimitives.WriteInt64BigEndian(bytes, time << 16);
        randomness.CopyTo(bytes[6..]);
        bytes[6] = (byte)(0x70 | (bytes[6] & 0x0F));
        bytes[8] = (byte)(0x80 | (bytes[8] & 0x3F));
        return new Guid(bytes, bigEndian: true);
    }

    /// <summary>The milliseconds since 1970 that the identifier carries.</summary>
    public static long Time(Guid id)
    {
        Span<byte> bytes = stackalloc byte[16];
        id.TryWriteBytes(bytes, bigEndian: true, out _);
        return BinaryPrimitives.ReadInt64BigEndian(bytes) >>> 16;
    }

    public static bool IsVersion7(Guid id) => id.Version == 7 && id.Variant is >= 8 and <= 11;
}
