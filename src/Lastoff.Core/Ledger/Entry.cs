using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Lastoff.Core.Ledger;

/// <summary>One line of the ledger: what was done, by whom, on which device, and the device's line before it.</summary>
/// <param name="Seq">Counts the device's entries in this job from 1.</param>
/// <param name="At">The device's own clock, right or wrong.</param>
/// <param name="Seen">The last counts of other devices' entries that came in since the device's entry before; null when none did.</param>
/// <param name="Prev">SHA-256, in hex, of the device's previous line; null on its first.</param>
/// <param name="Seal">SHA-256, in hex, of this line without its seal; null in a ledger written elsewhere without seals.</param>
/// <param name="Line">The line itself in RFC 8785 form.</param>
public sealed record Entry(
    Guid Id,
    string Device,
    long Seq,
    DateTimeOffset At,
    string By,
    string Kind,
    JsonElement Data,
    IReadOnlyDictionary<string, long>? Seen,
    string? Prev,
    string? Seal,
    string Line)
{
    private const int Sha256Length = 64;

    /// <summary>SHA-256, in hex, of the line: what the device's next entry carries as its <see cref="Prev"/>.</summary>
    public string Hash => Sha256(Line);

    /// <summary>SHA-256, in lower-case hex, of the text in UTF-8.</summary>
    public static string Sha256(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>Whether a text can be a SHA-256 as <see cref="Sha256"/> writes it. Nothing else ever names a file.</summary>
    public static bool IsSha256(string text) => text.Length == Sha256Length && text.All(char.IsAsciiHexDigitLower);
}
