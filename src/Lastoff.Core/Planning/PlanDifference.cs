using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What one row of moves has that another has not.</summary>
/// <param name="Dropped">Moves of the first that the second does without.</param>
/// <param name="Added">Moves that only the second makes.</param>
/// <param name="OtherWay">Moves, as the second makes them, that both make but not the same way.</param>
public sealed record PlanDifference(IReadOnlyList<PlanStep> Dropped, IReadOnlyList<PlanStep> Added, IReadOnlyList<PlanStep> OtherWay)
{
    private const int MostNamed = 3;

    public static PlanDifference Between(IEnumerable<PlanStep> first, IEnumerable<PlanStep> second)
    {
        var (had, has) = (first.ToDictionary(Key), second.ToDictionary(Key));
        return new PlanDifference(
            [.. had.Values.Where(step => !has.ContainsKey(Key(step)))],
            [.. has.Values.Where(step => !had.ContainsKey(Key(step)))],
            [.. has.Values.Where(step => had.TryGetValue(Key(step), out var old) && old.Way != step.Way)]);
    }

    internal static (StepKind, string) Key(PlanStep step) => (step.Kind, step.Target);

    /// <summary>Names the first few, in the order of the work, and counts the rest; empty when there are none.</summary>
    internal static string Few(IEnumerable<PlanStep> steps, Func<PlanStep, string> words)
    {
        List<string> all = [.. steps.Select(words)];
        return string.Join(", ", all.Take(MostNamed)) + (all.Count > MostNamed ? $" and {all.Count - MostNamed} more" : "");
    }

    /// <summary>"take “Cowl” off".</summary>
    internal static string Move(PlanStep step) => step.Kind switch
    {
        StepKind.MakeSafe => $"make “{step.Name}” safe",
        StepKind.Undo => $"undo “{step.Name}”",
        StepKind.LayAside => $"lay “{step.Name}” aside",
        StepKind.TakeOff => $"take “{step.Name}” off",
        StepKind.Restore => $"restore “{step.Name}”",
        StepKind.Make => $"do up “{step.Name}”",
        StepKind.BringHome => $"bring “{step.Name}” home",
        _ => $"fit “{step.Name}”",
    };

    /// <summary>"“Pump bolt” from below with long swivel (6 min)".</summary>
    internal static string Way(PlanStep step) =>
        $"“{step.Name}” {Place(step.At)} {(step.Tool.IsHand ? "by hand" : $"with {step.Tool}")} ({MinuteWords.Of(step.Minutes)})";

    private static string Place(Position at) => at switch
    {
        Position.Above => "from above",
        Position.Below => "from below",
        _ => $"from the {Words<Position>.Of(at)}",
    };
}
