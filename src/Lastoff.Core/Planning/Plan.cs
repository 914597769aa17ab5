using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What a job is for: the parts to take off and renew, and joints to get at without renewing anything behind them.</summary>
public sealed record Goal(IReadOnlyList<string> Off, IReadOnlyList<string> Undo)
{
    public static Goal Renewing(params IReadOnlyList<string> parts) => new(parts, []);
}

public enum StepKind
{
    MakeSafe, Undo, LayAside, TakeOff, Cover,
    Uncover, Clean, Renew, Fit, BringHome, Make, LastLook, Restore, Prove, ReLook,
    /// <summary>Work that the map does not know; its target is what it is, in words.</summary>
    Work,
}

/// <summary>One thing to do. <paramref name="Target"/> is the identifier, in the map, of the part, joint, supply, opening, renewal or proof.</summary>
/// <param name="Minutes">The work itself, with the factor of the alternative taken.</param>
/// <param name="SetUpMinutes">Changing tool and place before it.</param>
/// <param name="Why">For which goal it is needed, in words.</param>
public sealed record PlanStep(
    StepKind Kind,
    string Target,
    string Name,
    Tool Tool,
    Position At,
    double Minutes,
    double SetUpMinutes,
    string? Caution,
    string Why)
{
    /// <summary>What it is needed for, from what it makes possible on to a goal: identifiers of the map. Empty for a goal itself.</summary>
    public IReadOnlyList<string> Chain { get; init; } = [];

    /// <summary>The way of its operation that is taken, by its place in the map.</summary>
    public int Way { get; init; }

    /// <summary>What may go wrong here, beside <see cref="Minutes"/>; null when nothing is known to.</summary>
    public Risk? Risk { get; init; }

    /// <summary>What the risk counts for in the plan: its chance times its minutes.</summary>
    public double RiskMinutes { get; init; }

    /// <summary>What was found here, when the joint would not come undone; its minutes are in <see cref="Minutes"/>.</summary>
    public string? Found { get; init; }

    /// <summary>How long nothing can be done before this step, because something still runs by itself.</summary>
    public double WaitMinutes { get; init; }

    /// <summary>What the wait is for: "Coolant still drains"; null when there is none.</summary>
    public string? WaitFor { get; init; }

    /// <summary>How long this goes on by itself once the step is done, while other work is done.</summary>
    public double RunsMinutes { get; init; }

    /// <summary>What it does meanwhile: "drains", "cools", "cures"; null when it does nothing by itself.</summary>
    public string? Runs { get; init; }

    /// <summary>All that the step counts for in the plan.</summary>
    public double AllMinutes => Minutes + RiskMinutes + SetUpMinutes + WaitMinutes;
}

/// <summary>A joint to check now, because <paramref name="HiddenBy"/> goes on next and hides it.</summary>
public sealed record LastLook(string Joint, string HiddenBy);

public sealed record Plan
{
    /// <summary>Nothing is left to move.</summary>
    public static Plan Through { get; } = new()
    {
        Out = [],
        Back = [],
        MinutesP50 = 0,
        MinutesP90 = 0,
        LowerBoundMinutes = 0,
        ProvenOptimal = true,
        Renewals = [],
        LastLooks = [],
        Tools = [],
        Positions = [],
    };

    /// <summary>Its steps as they go when nothing gives trouble, which is priced apart; its minutes stay those of the whole plan.</summary>
    public Plan WithoutTrouble() => this with { Out = Calm(Out), Back = Calm(Back) };

    private static IReadOnlyList<PlanStep> Calm(IReadOnlyList<PlanStep> steps) => [.. steps.Select(step => step with { Risk = null })];

    public required IReadOnlyList<PlanStep> Out { get; init; }
    public required IReadOnlyList<PlanStep> Back { get; init; }
    /// <summary>The typical minutes: all work, weighted risk, set-ups and waits, out and back. This is what the planner makes least.</summary>
    public required double MinutesP50 { get; init; }
    public required double MinutesP90 { get; init; }
    /// <summary>No plan for these goals takes less.</summary>
    public required double LowerBoundMinutes { get; init; }
    public required bool ProvenOptimal { get; init; }
    /// <summary>Why the search stopped before a proof, in one sentence; null when it did not.</summary>
    public string? Unproven { get; init; }
    /// <summary>What was found at stuck joints when the plan was made, which it takes up.</summary>
    public IReadOnlyList<JointStuck> Stuck { get; init; } = [];
    public required IReadOnlyList<Renewal> Renewals { get; init; }
    public required IReadOnlyList<LastLook> LastLooks { get; init; }
    public required IReadOnlyList<Tool> Tools { get; init; }
    public required IReadOnlyList<Position> Positions { get; init; }
}
