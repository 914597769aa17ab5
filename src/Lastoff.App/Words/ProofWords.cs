using Lastoff.App.Jobs;
using Lastoff.Core.Planning;

namespace Lastoff.App.Words;

/// <summary>How good the plan is, as far as anybody knows.</summary>
public static class ProofWords
{
    public static string Of(JobSession session) => session switch
    {
        { Plan: null } => "",
        { Plan.ProvenOptimal: true } => "No plan is quicker.",
        { IsBetterWaiting: true } => "A shorter way was found; it comes in after this step.",
        { IsAsking: true } => $"{ToSave(session.Plan)} The server is looking.",
        _ => ToSave(session.Plan),
    };

    /// <summary>Why the search stopped is for the desk; here only what it leaves open.</summary>
    private static string ToSave(Plan plan) => $"At most {Figures.Minutes(plan.MinutesP50 - plan.LowerBoundMinutes)} could still be saved.";
}
