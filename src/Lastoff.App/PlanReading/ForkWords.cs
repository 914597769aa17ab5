using Lastoff.App.Words;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.PlanReading;

/// <summary>How the ways at a fork of the plan are said.</summary>
public static class ForkWords
{
    private const int MostNamed = 4;

    /// <summary>Below this nobody sees a difference.</summary>
    private const double Nothing_min = 0.05;

    /// <summary>What the way asks for: from below, long swivel; with “Cowl” off or aside; 3 times the work.</summary>
    public static string Of(OperationNet net, Fork fork, ForkWay way)
    {
        var offered = net.Operations[net.Find(fork.Step.Kind.AsMove()!.Value.Operation(), fork.Step.Target)].Ways[way.Way];
        var (clear, off) = (Names(net, offered.Alternative?.Clear ?? []), Names(net, offered.Alternative?.Off ?? []));
        return string.Join("; ", ((string?[])
        [
            $"{Figures.Place(offered.At)}, {(offered.Tool.IsHand ? Say("by hand") : offered.Tool.ToString())}",
            clear.Length > 0 ? Say($"with {clear} off or aside") : null,
            off.Length > 0 ? Say($"with {off} off") : null,
            offered.Times == 1 ? null : Say($"{Figures.Number(offered.Times)} times the work"),
            offered.Risk is { Chance: > 0 } risk ? Say($"may happen: {risk.Odds} that {risk.What}") : null,
        ]).OfType<string>());
    }

    /// <summary>What the way makes of the whole plan, beside the plan at hand.</summary>
    public static string More(Plan plan, ForkWay way)
    {
        if (way is not { Minutes: { } minutes, AtLeast: { } least })
        {
            return Say("no plan goes this way from here");
        }

        var (more, sure) = (minutes - plan.MinutesP50, least - plan.MinutesP50);
        return more < -Nothing_min ? Say($"takes {Figures.Minutes(-more)} less, so better than this plan")
            : more < Nothing_min ? Say("takes no more time")
            : more - sure < Nothing_min ? Say($"takes {Figures.Minutes(more)} more")
            : sure < Nothing_min ? Say($"takes {Figures.Minutes(more)} more, as far as was searched")
            : Say($"takes {Figures.Minutes(more)} more, as far as was searched; at least {Figures.Minutes(sure)} more");
    }

    /// <summary>What else is otherwise then: one sentence for each.</summary>
    public static IEnumerable<string> Besides(Fork fork, PlanDifference instead)
    {
        var gone = instead.Added.Select(step => step.Target).ToHashSet();
        foreach (var (names, words) in ((string, Func<string, string>)[])
        [
            (Few(instead.Dropped.Where(step => !gone.Contains(step.Target))), names => Say($"Left alone: {names}")),
            (Few(instead.Added), names => Say($"Also to do: {names}")),
            (Few(instead.OtherWay.Where(step => step.Target != fork.Step.Target)), names => Say($"Another way as well: {names}")),
        ])
        {
            if (names.Length > 0)
            {
                yield return words(names);
            }
        }
    }

    private static string Names(OperationNet net, IEnumerable<string> parts) => string.Join(", ", parts.Select(part => Say($"“{net.Parts[part].Name}”")));

    /// <summary>Parts first, which are seen from afar.</summary>
    private static string Few(IEnumerable<PlanStep> steps)
    {
        List<string> all = [.. steps.OrderBy(step => step.Kind is StepKind.TakeOff or StepKind.LayAside ? 0 : 1).DistinctBy(step => step.Target).Select(step => Say($"“{step.Name}”"))];
        var named = string.Join(", ", all.Take(MostNamed));
        return (all.Count - MostNamed) switch
        {
            <= 0 => named,
            1 => Say($"{named} and one more step"),
            var more => Say($"{named} and {more} more steps"),
        };
    }
}
