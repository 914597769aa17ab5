using Lastoff.Core.Identity;
using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>Whether a machine drives on roads, which no map says: it came in with a distance counter, or with the number that road vehicles have.</summary>
internal static class RoadMachine
{
    public static bool Is(Standing standing) => standing.File.Machine is { } machine && (machine.Odometer_km is not null || Vin.Read(machine.Vin).Value is not null);
}
