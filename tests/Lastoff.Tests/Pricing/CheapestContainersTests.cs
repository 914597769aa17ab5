using CsCheck;
using Lastoff.Core.Fluids;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Pricing;

/// <summary>What is bought where containers have prices: checked against trying every combination.</summary>
public class CheapestContainersTests
{
    [Fact]
    public void Enough_for_the_least_money_then_the_least_left_over_then_the_fewest_by_trying_all() =>
        Gen.Select(Gen.Int[0, 600], Gen.Select(Gen.Int[10, 300], Gen.Int[0, 40]).Array[1, 4]).Sample(
            (need, containers) =>
            {
                // Few prices, so that combinations often cost the same.
                int[] sizes = [.. containers.Select(container => container.Item1)];
                decimal[] prices = [.. containers.Select(container => container.Item2 / 4m)];
                var bought = Containers.Cheapest(need / 100.0, [.. sizes.Select(size => size / 100.0)], prices);
                var volume = bought.Zip(sizes, (count, size) => count * size).Sum();
                Assert.True(volume >= need);
                Assert.Equal(Best(need, sizes, prices), (bought.Zip(prices, (count, price) => count * price).Sum(), volume, bought.Sum()));
            },
            iter: 300);

    [Theory]
    [InlineData(4.2, "1 L 9.80, 5 L 39.00", "0 1")]
    [InlineData(3.9, "1 L 9.80, 5 L 39.00", "0 1")]
    [InlineData(3.9, "1 L 9.70, 5 L 39.00", "4 0")]
    [InlineData(2, "1 L 5.00, 2 L 10.00", "0 1")]
    [InlineData(6, "5 L 30.00, 1 L 30.00, 4 L 30.00", "1 1 0")]
    public void What_is_dearer_in_sum_is_not_bought(double litres, string sold, string bought)
    {
        var containers = sold.Split(", ").Select(container => container.Split(' ')).ToList();
        Assert.Equal(bought.Split(' ').Select(int.Parse), Containers.Cheapest(litres, [.. containers.Select(one => double.Parse(one[0]))], [.. containers.Select(one => decimal.Parse(one[2], System.Globalization.CultureInfo.InvariantCulture))]));
    }

    /// <summary>A jug of five quarts holds five quarts, though neither is a whole number of centilitres.</summary>
    [Theory]
    [InlineData("5 US qt", "5 US qt, 1 US qt", "1 0")]
    [InlineData("15 US qt", "5 US qt, 1 US qt", "3 0")]
    [InlineData("2 US qt", "1 US qt", "2")]
    [InlineData("3 imp pt", "1 imp pt", "3")]
    [InlineData("946 mL", "946 mL", "1")]
    public void Containers_of_other_units_are_enough_for_as_many_of_them(string need, string sizes, string bought) =>
        Assert.Equal(bought.Split(' ').Select(int.Parse), Containers.ToBuy(Litres(need), [.. sizes.Split(", ").Select(Litres)]));

    [Fact]
    public void A_full_drum_and_a_thousand_litres_are_no_burden() =>
        Assert.Equal([4, 168, 0], Containers.Cheapest(1000, [208, 1, 0.5], [505m, 3m, 2m]));

    [Fact]
    public void Sizes_amounts_and_prices_that_cannot_be_are_mistakes_of_the_program()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Containers.Cheapest(1, [0], [1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Containers.Cheapest(double.NaN, [1], [1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Containers.Cheapest(1, [1], [-1]));
        Assert.Throws<ArgumentException>(() => Containers.Cheapest(1, [1], [1, 2]));
    }

    private static double Litres(string text) => Volume.TryParseLitres(text, out var litres) ? litres : throw new ArgumentException(text);

    private static (decimal Price, int Volume, int Count) Best(int need, int[] sizes, decimal[] prices)
    {
        var best = (Price: decimal.MaxValue, Volume: 0, Count: 0);
        Try(0, 0, 0, 0);
        return best;

        void Try(int at, decimal price, int volume, int count)
        {
            if (at == sizes.Length)
            {
                best = volume >= need && (price, volume, count).CompareTo(best) < 0 ? (price, volume, count) : best;
                return;
            }

            for (var more = 0; more == 0 || volume + ((more - 1) * sizes[at]) < need; more++)
            {
                Try(at + 1, price + (more * prices[at]), volume + (more * sizes[at]), count + more);
            }
        }
    }
}
