using Lastoff.App.Jobs;

namespace Lastoff.App.Words;

/// <summary>How good the plan is, as far as anybody knows.</summary>
public static class ProofWords
{
    public static string Of(JobSession session) => session switch
    {
        { Plan: null } => "",
        { Plan.ProvenOptimal: true } => "No plan is quicker.",
        { IsBetterWaiting: true } => "A shorter way was found; it comes in after this step.",
        { IsAsking: true } => $"{session.Plan.Unproven} The server is looking.",
        _ => session.Plan.Unproven ?? "",
    };
}
