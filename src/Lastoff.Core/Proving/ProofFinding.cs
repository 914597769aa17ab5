using Lastoff.Core.Ledger;

namespace Lastoff.Core.Proving;

/// <summary>What readings show: the words for the record, and what it was judged from.</summary>
public sealed record ProofFinding(string Summary, Evidence Evidence);
