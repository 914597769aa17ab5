using Lastoff.App.Jobs;
using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How good the plan is, as far as anybody knows.</summary>
public static class ProofWords
{
    public static string Of(JobSession session) => session switch
    {
        { Plan: null } => "",
        { Plan.ProvenOptimal: true } => Say("No plan is quicker."),
        { IsBetterWaiting: true } => Say("A shorter way was found; it comes in after this step."),
        { IsAsking: true } => $"{ToSave(session.Plan)} {Say("The server is looking.")}",
        _ => ToSave(session.Plan),
    };

    /// <summary>Why the search stopped is for the desk; here only what it leaves open.</summary>
    private static string ToSave(Plan plan) => Say($"At most {Figures.Minutes(plan.MinutesP50 - plan.LowerBoundMinutes)} could still be saved.");
}
