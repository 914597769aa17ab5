namespace Lastoff.Core.Ledger;

public enum RefusalKind
{
    /// <summary>It names something the map or the ledger does not have.</summary>
    Unknown,
    /// <summary>It changes nothing: it is so already.</summary>
    Already,
    /// <summary>Something else comes first. A person who did it all the same can say why.</summary>
    OutOfOrder,
    /// <summary>It cannot be, whatever the reason.</summary>
    Forbidden,
}

/// <summary>Why an act is refused, in the one sentence the user reads.</summary>
public sealed record Refusal(RefusalKind Kind, string Sentence)
{
    /// <summary>A yes of the customer's is what is missing.</summary>
    public bool AsksForYes { get; init; }
}
