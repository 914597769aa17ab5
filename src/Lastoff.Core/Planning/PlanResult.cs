using System.Diagnostics.CodeAnalysis;

namespace Lastoff.Core.Planning;

/// <summary>A plan, or the one sentence that says why there is none.</summary>
public sealed record PlanResult
{
    private PlanResult(Plan? plan, string? refusal)
    {
        Plan = plan;
        Refusal = refusal;
    }

    public Plan? Plan { get; }

    public string? Refusal { get; }

    [MemberNotNullWhen(true, nameof(Plan))]
    [MemberNotNullWhen(false, nameof(Refusal))]
    public bool HasPlan => Plan is not null;

    public static PlanResult Of(Plan plan) => new(plan, null);

    public static PlanResult Refused(string sentence) => new(null, sentence);
}
