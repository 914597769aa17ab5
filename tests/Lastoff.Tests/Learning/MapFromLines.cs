using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Recording;

namespace Lastoff.Tests.Learning;

/// <summary>From lines that somebody said to the map that is learned of them, and to its plan.</summary>
internal static class MapFromLines
{
    public static Recorder Said(params IEnumerable<string> lines) => lines.Aggregate(new Recorder(), (bay, line) => bay.Say(line));

    public static Recordings Recordings(params Recorder[] bays) => new([.. bays.Select(bay => RecordedStrip.Of("one", bay.Job.Entries))]);

    public static LearnedMap Learned(params Recorder[] bays) => Recordings(bays).Learn("m", "M", []).Or(sentence => throw new InvalidOperationException(sentence));

    public static Map Read(Recorder bay) => Read(Learned(bay));

    public static Map Read(LearnedMap learned)
    {
        var reading = MapReader.Read(learned.Yaml, "learned.map.yaml");
        Assert.True(reading.Map is not null, string.Join('\n', reading.Faults.Select(reading.Describe)));
        return reading.Map;
    }

    public static Plan Plan(Map map, string goal)
    {
        var net = OperationNet.From(map);
        return Planner.Make(net, Goal.Renewing(goal), net.Nothing, PlanLimits.AtOnce).Plan!;
    }
}
