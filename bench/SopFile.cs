using System.Globalization;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Bench;

/// <summary>Reads a sequential ordering problem of TSPLIB95 as a trip: each place its own operation and key, the way back free.</summary>
/// <remarks>The first place is where one starts, the last where one ends; -1 in row i, column j says that j comes before i.</remarks>
public static class SopFile
{
    /// <summary>What stands for "never directly": more than any whole path, and far from overflowing a sum.</summary>
    private const long Never = 1_000_000_000_000;

    /// <summary>Enough for the small problems to be proven, and no more than about a gigabyte.</summary>
    public const int States = 4_000_000;

    public static RoundTrip Read(string path)
    {
        var words = File.ReadAllText(path).Split("EDGE_WEIGHT_SECTION")[1].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var size = int.Parse(words[0], CultureInfo.InvariantCulture);
        var length = new long[size, size];
        for (var i = 0; i < size * size; i++)
        {
            length[i / size, i % size] = long.Parse(words[1 + i], CultureInfo.InvariantCulture);
        }

        var setUp = new long[size, size];
        var ways = new List<IReadOnlyList<TripWay>>();
        for (var i = 0; i < size; i++)
        {
            var needs = Enumerable.Range(0, size).Where(j => j != i && length[i, j] < 0).Select(j => OperationSet.Of(size, [j]));
            ways.Add([new TripWay([.. needs], 0, 0, i)]);
            for (var j = 0; j < size; j++)
            {
                setUp[i, j] = i == j ? 0 : length[i, j] < 0 ? Never : length[i, j];
            }
        }

        var start = OperationSet.Of(size, [0]);
        return new RoundTrip(ways, [.. Enumerable.Range(1, size - 1).Select(i => OperationSet.Of(size, [i]))], start, setUp, 0)
        {
            BackSetUp = new long[size, size],
        };
    }
}
