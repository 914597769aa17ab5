namespace Lastoff.Core.Planning;

/// <summary>One thing to choose: whether an operation is done at all, or whether one of its ways is the one to take, out or back.</summary>
/// <param name="Way">The way, or -1 when the operation itself is in question.</param>
internal readonly record struct TripChoice(int Operation, int Way, bool IsOut)
{
    public bool IsWay => Way >= 0;

    public static TripChoice ToDo(int operation) => new(operation, -1, true);

    /// <summary>The operations that alternatives differ in, of which it is still open whether they are done.</summary>
    public static IEnumerable<TripChoice> Open(OneWay problem)
    {
        var open = (ulong[])problem.Allowed.Clone();
        Bits.TakeAway(open, new Landmarks(problem).Forced);
        var named = new ulong[problem.Words];
        foreach (var ways in problem.Ways)
        {
            foreach (var way in ways)
            {
                if (ways.Length > 1)
                {
                    Bits.AddAll(named, way.Must);
                }

                foreach (var set in way.OneOf)
                {
                    Bits.AddAll(named, set);
                }
            }
        }

        Bits.KeepOnly(open, named);
        for (var operation = Bits.Next(open, 0); operation >= 0; operation = Bits.Next(open, operation + 1))
        {
            yield return ToDo(operation);
        }
    }

    /// <summary>The ways of every operation that can still be done in several; the last way follows from the others.</summary>
    public static IEnumerable<TripChoice> Ways(OneWay problem, bool isOut)
    {
        for (var operation = 0; operation < problem.Operations; operation++)
        {
            foreach (var way in problem.Ways[operation].SkipLast(1))
            {
                yield return new TripChoice(operation, way.Index, isOut);
            }
        }
    }
}
