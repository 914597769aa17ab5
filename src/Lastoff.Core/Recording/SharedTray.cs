using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Where the fasteners of a line were put.</summary>
internal sealed class SharedTray
{
    private int _withoutTray;

    /// <summary>A tray said once is for every fastener since the last one that was said.</summary>
    public void Spread(string? tray, IReadOnlyList<Told> line)
    {
        for (; tray is not null && _withoutTray < line.Count; _withoutTray++)
        {
            var told = line[_withoutTray];
            if (told.Reading is { Tray: null, Kind: not (null or JointKind.Hose or JointKind.Pipe or JointKind.Connector or JointKind.Face) })
            {
                told.Reading = told.Reading with { Tray = tray };
            }
        }
    }
}
