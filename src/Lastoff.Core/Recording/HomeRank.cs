using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>In which order what was made safe goes home once everything that came off is on (common practice, no source).</summary>
internal enum HomeRank
{
    /// <summary>A fluid that was drained.</summary>
    Filled,
    /// <summary>A tap that was shut, pressure that was let off: nothing flows before what holds it in is filled and closed.</summary>
    Opened,
    /// <summary>What lets the machine turn: the battery, the lock on it. The lead of a spark plug goes on just before.</summary>
    SwitchedOn,
}

internal static class HomeRanks
{
    public static HomeRank Of(Supply supply, bool isDrained) => supply.Kind switch
    {
        SupplyKind.Battery or SupplyKind.HighVoltage => HomeRank.SwitchedOn,
        _ when isDrained => HomeRank.Filled,
        // What may turn or be hot is locked or unplugged, but for a tap and what was under pressure.
        SupplyKind.Heat when !LineReader.IsTap(supply.Name) && !LineReader.IsPressed(supply.Name) => HomeRank.SwitchedOn,
        _ => HomeRank.Opened,
    };
}
