using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Planning;

/// <summary>The least cost of a trip by going through every set, every order and every way.</summary>
internal static class EveryTrip
{
    public static long Best(RoundTrip trip)
    {
        var size = trip.Ways.Count;
        List<OperationSet> sets = [.. Enumerable.Range(0, 1 << size).Select(bits =>
            OperationSet.Of(size, Enumerable.Range(0, size).Where(i => (bits >> i & 1) != 0)))];
        var keys = trip.SetUp.GetLength(0);
        var outward = Table();
        var home = Table();
        outward[sets.IndexOf(trip.Start), trip.StartKey] = 0;
        for (var key = 0; key < keys; key++)
        {
            home[0, key] = 0;
        }

        for (var bits = 0; bits < sets.Count; bits++)
        {
            for (var x = 0; x < size; x++)
            {
                foreach (var way in trip.Ways[x].Where(way => !sets[bits].Contains(x) && way.Needs.All(need => need.Overlaps(sets[bits]))))
                {
                    var more = bits | 1 << x;
                    for (var key = 0; key < keys; key++)
                    {
                        outward[more, way.Key] = Least(outward[more, way.Key], outward[bits, key], trip.SetUp[key, way.Key] + way.Out);
                        home[more, key] = Least(home[more, key], home[bits, way.Key], trip.SetUp[key, way.Key] + way.Back);
                    }
                }
            }
        }

        return Enumerable.Range(0, sets.Count)
            .Where(bits => trip.Goals.All(goal => goal.Overlaps(sets[bits])) && home[bits, trip.StartKey] < long.MaxValue)
            .Select(bits => Enumerable.Range(0, keys).Select(key => Least(long.MaxValue, outward[bits, key], home[bits, trip.StartKey])).Min())
            .Min();

        long[,] Table()
        {
            var table = new long[sets.Count, keys];
            for (var i = 0; i < sets.Count * keys; i++)
            {
                table[i / keys, i % keys] = long.MaxValue;
            }

            return table;
        }
    }

    private static long Least(long known, long from, long more) => from == long.MaxValue ? known : Math.Min(known, from + more);
}
