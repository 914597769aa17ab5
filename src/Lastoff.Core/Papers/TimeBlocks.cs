using System.Globalization;
using Lastoff.Core.Estimating;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Papers;

/// <summary>What a job took, against what was charged and what its map says.</summary>
internal static class TimeBlocks
{
    /// <summary>Nothing when no work was timed.</summary>
    public static IEnumerable<Block> Of(PaperSource source)
    {
        if (TimeTaken.Of(source.Job) is not { } taken)
        {
            yield break;
        }

        List<Fact> facts = [new("Worked", new Said($"{Hours((decimal)taken.WorkedMinutes / 60)}, by the time marks, pauses left out", Datum.Of("worked_min", Math.Round((decimal)taken.WorkedMinutes, 1))))];
        if (taken.ChargedHours is { } charged)
        {
            facts.Add(new("Charged", new Said($"{Hours(charged)}, by the price that was agreed to", Datum.Of("charged_h", charged))));
        }

        yield return new Facts(facts);
        if (taken.Longer.Count == 0)
        {
            yield break;
        }

        var net = source.Standing.Net;
        yield return new Table("Took longer than the map says", [new("What", 7), new("On the map", 2.5, true), new("It took", 2.5, true)],
        [
            .. taken.Longer.Select(step => new Row(
            [
                new Said($"{StepVerbs.Of(net, step.Kind, step.Target)}: {NamesOf.Thing(net, step.Target)}", Datum.Of("step", step.Target)),
                Minutes(step.Took.Work.TradeMinutes, "map_min"),
                Minutes(step.Took.Minutes, "took_min"),
            ])),
        ]);
    }

    private static string Hours(decimal hours) => string.Create(CultureInfo.InvariantCulture, $"{hours:0.00} h");

    private static Said Minutes(double minutes, string key) => new(string.Create(CultureInfo.InvariantCulture, $"{Math.Max(minutes > 0 ? 1 : 0, Math.Round(minutes)):0} min"), Datum.Of(key, Math.Round((decimal)minutes, 1)));
}
