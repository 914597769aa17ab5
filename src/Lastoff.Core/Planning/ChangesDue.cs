using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>A fluid that is to be changed once more, because something else had got in: it comes out again as late as it can, and before anything closes over it.</summary>
internal static class ChangesDue
{
    /// <summary>Whether the fluid is to come out again, and can be got at now.</summary>
    public static bool IsDue(Standing standing, string supply) =>
        standing.Filled.Any(filled => filled.Target == supply && filled.ChangesLeft > 0) && Guards.Check(standing, new Moved(Move.SupplySafe, supply)) is null;

    /// <summary>The fluid that comes out again before this step of the way home; null when none does.</summary>
    /// <param name="back">Null when nothing else is left to do.</param>
    public static string? Before(Standing standing, PlanStep? back)
    {
        var after = back?.Kind.AsMove() is { } move && standing.Net.TryFind(move.Operation(), back.Target, out var operation) ? standing.Done.Without(operation) : standing.Done;
        return standing.Filled.Select(filled => filled.Target).FirstOrDefault(supply =>
            IsDue(standing, supply) && (back is null || !standing.Net.CanDo(after, standing.Net.Find(OperationKind.MakeSafe, supply))));
    }
}
