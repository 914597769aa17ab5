using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What a strip takes out, sorted by depth.</summary>
public static class Layers
{
    /// <summary>
    /// Peels the strip like an onion: a layer is every part that comes away once the layers above it are gone, with the joints and
    /// supplies that are got at on the way to it.
    /// </summary>
    /// <param name="strip">The operations of the strip, done or still to do.</param>
    public static IReadOnlyList<OperationSet> Of(OperationNet net, OperationSet strip)
    {
        var layers = new List<OperationSet>();
        var done = net.Nothing;
        while (done != strip)
        {
            var loosened = Loosened(net, strip, done);
            var away = OperationSet.Of(net.Operations.Count, strip.Where(o => IsPart(net, o) && net.CanDo(loosened, o)));
            // What can never be reached this way was done against the map: it lies in the last layer.
            var next = away.Count == 0 ? strip : loosened.Union(away);
            layers.Add(next.Except(done));
            done = next;
        }

        return layers;
    }

    private static OperationSet Loosened(OperationNet net, OperationSet strip, OperationSet done)
    {
        while (true)
        {
            var more = OperationSet.Of(net.Operations.Count, strip.Where(o => !IsPart(net, o) && net.CanDo(done, o)));
            if (more.Count == 0)
            {
                return done;
            }

            done = done.Union(more);
        }
    }

    private static bool IsPart(OperationNet net, int operation) =>
        net.Operations[operation].Kind is OperationKind.Off or OperationKind.Aside;
}
