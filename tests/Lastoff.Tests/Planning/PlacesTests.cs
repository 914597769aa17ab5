using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>Trips whose set-ups are taking up tools and going between places, some of them far apart, as above and below a machine on a lift.</summary>
public class PlacesTests
{
    /// <summary>The bare hand and two others.</summary>
    private const int Tools = 3;

    [Fact]
    public void Going_between_places_costs_as_little_as_trying_every_order() => Gen.Byte.Array[0, 120].Select(bytes => Build(new Choices(bytes), [0, 1, 2, 3])).Sample(
        trip => Assert.Equal((EveryTrip.Best(trip), null), Answer(trip)), iter: 1000);

    /// <summary>Ticks and place are kept side by side somewhere in the search: there must be room for both.</summary>
    [Fact]
    public void So_it_does_on_a_map_of_more_than_256_places() => Gen.Byte.Array[0, 120].Select(bytes => Build(new Choices(bytes), [0, 256, 1, 257])).Sample(
        trip => Assert.Equal((EveryTrip.Best(trip), null), Answer(trip)), iter: 6);

    /// <summary>
    /// Either of two operations opens the way to a third, and the tools of both may yet be carried on: to open the way, one of the two gives that up, not both.
    /// </summary>
    [Fact]
    public void Of_two_that_would_do_the_same_only_one_gives_up_carrying_its_tool()
    {
        const int wrench = 1, driver = 2;
        OperationSet Need(params int[] any) => OperationSet.Of(6, any);
        var trip = Trip(
            [
                [new TripWay([], 7, 0, Key(3, wrench))],
                [new TripWay([Need(0)], 5, 2, Key(2, driver))],
                [new TripWay([], 0, 6, Key(0, driver)), new TripWay([Need(1)], 3, 3, Key(0, driver))],
                [new TripWay([Need(0, 2)], 0, 6, Key(3, driver))],
                [new TripWay([Need(2), Need(1)], 3, 0, Key(1, wrench))],
                [new TripWay([], 0, 0, Key(0, 0))],
            ],
            [Need(3), Need(4), Need(5)], [0, 1, 2, 3], take: 4, near: 1, lift: 16);

        Assert.Equal((EveryTrip.Best(trip), null), Answer(trip));
        Assert.Equal(106, EveryTrip.Best(trip));
    }

    private static (long, string?) Answer(RoundTrip problem)
    {
        var trip = TripSearch.Solve(problem, 200_000)!;
        Assert.Equal(trip.Cost, trip.LowerBound);
        return (trip.Cost, trip.Unproven);
    }

    private static RoundTrip Build(Choices choices, int[] numbers)
    {
        var (size, take, near, lift) = (4 + choices.Next(6), 1 + choices.Next(4), 1 + choices.Next(4), choices.Next(20));
        var ways = Enumerable.Range(0, size).Select(x => (IReadOnlyList<TripWay>)[.. Enumerable.Range(0, choices.OneIn(4) ? 2 : 1).Select(_ => new TripWay(
            [.. Enumerable.Range(0, x == 0 ? 0 : choices.Next(3)).Select(_ => OperationSet.Of(size, Enumerable.Range(0, choices.OneIn(4) ? 2 : 1).Select(_ => choices.Next(x))))],
            choices.Next(9), choices.Next(9), choices.Next(Tools * numbers.Length)))]).ToList();
        return Trip(ways, [.. Enumerable.Range(size / 2, size - size / 2).Select(x => OperationSet.Of(size, [x]))], numbers, take, near, lift);
    }

    /// <param name="numbers">The numbers of four places: the first two near each other, and so are the last two.</param>
    private static RoundTrip Trip(IReadOnlyList<IReadOnlyList<TripWay>> ways, IReadOnlyList<OperationSet> goals, int[] numbers, long take, long near, long lift)
    {
        int[] keys = [.. Enumerable.Range(0, Tools * numbers.Length)];
        int[] toolOf = [.. keys.Select(key => key % Tools)];
        int[] placeOf = [.. keys.Select(key => key / Tools)];
        var taking = Change(Tools, (a, b) => a == b || b == 0 ? 0 : take);
        var going = Change(numbers.Max() + 1, (a, b) => a == b ? 0 : near + (Array.IndexOf(numbers, a) / 2 == Array.IndexOf(numbers, b) / 2 ? 0 : lift));
        var setUp = Change(keys.Length, (a, b) => taking[toolOf[a], toolOf[b]] + going[numbers[placeOf[a]], numbers[placeOf[b]]]);
        return new RoundTrip(ways, goals, OperationSet.Empty(ways.Count), setUp, 0)
        {
            SetUpParts = [new SetUpPart(toolOf, taking), new SetUpPart([.. placeOf.Select(place => numbers[place])], going)],
        };
    }

    private static int Key(int place, int tool) => place * Tools + tool;

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
