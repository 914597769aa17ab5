namespace Lastoff.Core.Estimating;

/// <summary>What a piece of work has in common with others, and what its minutes may go by.</summary>
public enum Trait { Kind, Size, Reach, Person, Job }

/// <summary>One piece of work of a plan or a ledger.</summary>
/// <param name="TradeMinutes">What the trade, or the map, says it typically takes: above zero.</param>
/// <param name="Traits">The kind of joint, its size, how it is reached, who does it, in which job: each by any name. One that is left out is not known.</param>
public sealed record Work(double TradeMinutes, IReadOnlyDictionary<Trait, string> Traits);

/// <summary>A piece of work and what it took.</summary>
public sealed record TimedWork(Work Work, double Minutes)
{
    /// <summary>How much longer than the trade says, as a logarithm.</summary>
    public double LogRatio => Math.Log(Minutes / Work.TradeMinutes);
}
