using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>Trips whose set-ups are taking up tools and going between places, some of them far apart, as above and below a machine on a lift.</summary>
public class PlacesTests
{
    [Fact]
    public void Going_between_places_costs_as_little_as_trying_every_order() => Gen.Byte.Array[0, 120].Select(bytes => Build(new Choices(bytes), [0, 1, 2, 3])).Sample(
        trip => Assert.Equal((EveryTrip.Best(trip), null), Answer(trip)), iter: 1000);

    /// <summary>Ticks and place are kept side by side somewhere in the search: there must be room for both.</summary>
    [Fact]
    public void So_it_does_on_a_map_of_more_than_256_places() => Gen.Byte.Array[0, 120].Select(bytes => Build(new Choices(bytes), [0, 256, 1, 257])).Sample(
        trip => Assert.Equal((EveryTrip.Best(trip), null), Answer(trip)), iter: 6);

    private static (long, string?) Answer(RoundTrip problem)
    {
        var trip = TripSearch.Solve(problem, 200_000)!;
        Assert.Equal(trip.Cost, trip.LowerBound);
        return (trip.Cost, trip.Unproven);
    }

    /// <param name="numbers">The numbers of four places: the first two near each other, and so are the last two.</param>
    private static RoundTrip Build(Choices choices, int[] numbers)
    {
        const int tools = 3;
        var (size, take, near, lift) = (4 + choices.Next(6), 1 + choices.Next(4), 1 + choices.Next(4), choices.Next(20));
        var toolOf = Enumerable.Range(0, tools * numbers.Length).Select(key => key % tools).ToArray();
        var placeOf = Enumerable.Range(0, tools * numbers.Length).Select(key => key / tools).ToArray();
        var taking = Change(tools, (a, b) => a == b || b == 0 ? 0 : take);
        var going = Change(numbers.Max() + 1, (a, b) => a == b ? 0 : near + (Array.IndexOf(numbers, a) / 2 == Array.IndexOf(numbers, b) / 2 ? 0 : lift));
        var setUp = Change(toolOf.Length, (a, b) => taking[toolOf[a], toolOf[b]] + going[numbers[placeOf[a]], numbers[placeOf[b]]]);
        var ways = Enumerable.Range(0, size).Select(x => (IReadOnlyList<TripWay>)[.. Enumerable.Range(0, choices.OneIn(4) ? 2 : 1).Select(_ => new TripWay(
            [.. Enumerable.Range(0, x == 0 ? 0 : choices.Next(3)).Select(_ => OperationSet.Of(size, Enumerable.Range(0, choices.OneIn(4) ? 2 : 1).Select(_ => choices.Next(x))))],
            choices.Next(9), choices.Next(9), choices.Next(toolOf.Length)))]).ToList();
        return new RoundTrip(ways, [.. Enumerable.Range(size / 2, size - size / 2).Select(x => OperationSet.Of(size, [x]))], OperationSet.Empty(size), setUp, 0)
        {
            SetUpParts = [new SetUpPart(toolOf, taking), new SetUpPart([.. placeOf.Select(place => numbers[place])], going)],
        };
    }

    private static long[,] Change(int count, Func<int, int, long> ticks)
    {
        var change = new long[count, count];
        for (var i = 0; i < change.Length; i++)
        {
            change[i / count, i % count] = ticks(i / count, i % count);
        }

        return change;
    }
}
