using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Estimating;

/// <summary>What a plan takes by the workshop's own times.</summary>
/// <param name="Jobs">How many jobs it was learned from.</param>
/// <param name="Pieces">How many pieces of work of theirs were timed.</param>
public sealed record PlanTimes(MinutesEstimate Minutes, int Jobs, int Pieces)
{
    /// <summary>From fewer pieces of work there is next to nothing to learn. Set down, no source.</summary>
    public const int Fewest = 20;

    /// <summary>How many of the jobs were on a machine of this map; of the others the work is alike, and the machine is not.</summary>
    public int OnThisMap { get; init; }

    /// <summary>How many jobs went so fast that their times do not count.</summary>
    public int Hasty { get; init; }

    /// <summary>“1 job went so fast that its times do not count.”; empty where none did.</summary>
    public string HastyWords => Hasty switch
    {
        0 => "",
        1 => "1 job went so fast that its times do not count.",
        _ => $"{Hasty} jobs went so fast that their times do not count.",
    };

    /// <summary>How many of these minutes go to one of the plan's own.</summary>
    /// <param name="plan">The plan that they are of.</param>
    public double FactorOn(Plan plan) => Minutes.P50 / plan.Out.Concat(plan.Back).Sum(step => step.AllMinutes);

    /// <param name="timed">The pieces of work of earlier jobs, from <see cref="TimedJob"/>.</param>
    /// <param name="by">Who is to do it; null when that is not known.</param>
    /// <returns>Null when too little was timed.</returns>
    public static PlanTimes? Of(OperationNet net, Plan plan, IReadOnlyList<TimedWork> timed, string? by)
    {
        List<PlanStep> steps = [.. plan.Out, .. plan.Back];
        List<Work> works = [.. steps.Where(step => step.Minutes + step.SetUpMinutes > 0).Select(step =>
            WorkOf(net, step.Kind, step.Target, step.Tool, step.At, step.Minutes + step.SetUpMinutes, by, job: null))];
        var jobs = HastyJobs.Of(timed);
        return jobs.Kept.Count < Fewest || works.Count == 0 ? null : new PlanTimes(
            MinutesEstimate.Of(new WorkTimes(jobs.Kept).MomentsOf(works) + Spread.OfWaitsAndRisks(steps)),
            jobs.Kept.Select(t => t.Work.Traits.GetValueOrDefault(Trait.Job)).Distinct().Count(),
            jobs.Kept.Count)
        { Hasty = jobs.LeftOut };
    }

    /// <summary>One piece of work, with what its minutes may go by.</summary>
    internal static Work WorkOf(OperationNet net, StepKind kind, string target, Tool tool, Position at, double minutes, string? by, string? job)
    {
        var traits = new Dictionary<Trait, string> { [Trait.Kind] = KindOf(net, kind, target), [Trait.Reach] = Words<Position>.Of(at) };
        Add(Trait.Size, kind is StepKind.Undo or StepKind.Make ? tool.Drive : null);
        Add(Trait.Person, by);
        Add(Trait.Job, job);
        return new Work(minutes, traits);

        void Add(Trait trait, string? name)
        {
            if (name is not null)
            {
                traits.Add(trait, name);
            }
        }
    }

    private static string KindOf(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.Undo or StepKind.Make => $"{kind} {net.Joints[target].Kind}",
        StepKind.MakeSafe or StepKind.Restore => $"{kind} {net.Supplies[target].Kind}",
        _ => $"{kind}",
    };
}
