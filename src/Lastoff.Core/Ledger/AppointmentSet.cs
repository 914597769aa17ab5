using System.Globalization;
using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>A day and an hour were agreed: the machine comes in, or is fetched.</summary>
/// <param name="On">Whoever writes it means their own clock.</param>
public sealed record AppointmentSet(string What, DateTimeOffset On) : Act
{
    public override string Kind => ActKinds.AppointmentSet;

    public override JsonObject ToData() => new() { ["what"] = What, ["on"] = On.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture) };

    /// <exception cref="FormatException">The entry's data does not fit.</exception>
    internal static AppointmentSet Read(Entry entry) => new(
        ActKinds.Text(entry, "what"),
        DateTimeOffset.TryParseExact(ActKinds.Text(entry, "on"), "yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on)
            ? on
            : throw new FormatException("its time is none, such as 2031-05-30T08:00:00+02:00"));
}
