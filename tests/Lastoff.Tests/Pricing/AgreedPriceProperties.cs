using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Pricing;

/// <summary>On random maps and histories of three devices whose clocks are wrong: nothing that comes later alters what was agreed.</summary>
public class AgreedPriceProperties
{
    [Fact]
    public void Whatever_comes_after_a_yes_its_lines_and_its_total_stay_those_that_were_agreed() =>
        Gen.Select(RandomMaps.UpTo(8), RandomPrices.In("EUR").Array[6], Gen.Byte.Array[400, 800], Gen.Int[0, 100_000]).Sample((map, drafts, bytes, seed) =>
        {
            var choices = new Choices(bytes);
            List<Price> prices = [.. drafts.Select(draft => Price.Of(draft with { Limit = Portion.OfPercent(10) }).Value!)];
            var net = OperationNet.From(map);
            var bay = new Bay(net, [map.Parts[^1].Id], TimeSpan.Zero, TimeSpan.FromMinutes(-90), TimeSpan.FromDays(2));
            var acts = Bay.Everyone(net).Where(act => act is not HandedOver).ToList();
            // What each yes was given to, as its device saw it at that moment.
            var agreed = new Dictionary<Guid, string>();
            for (var step = 0; step < 60; step++)
            {
                var device = choices.Next(3);
                switch (choices.Next(8))
                {
                    case 0 or 1:
                        bay.Do(device, Core.Ledger.Priced.Of(choices.Of(prices), $"Reason {step}"));
                        break;
                    case 2 or 3 when bay.On(device).Standing.Prices is { Count: > 0 } known:
                        var price = choices.Of([.. known]);
                        if (bay.Do(device, new Agreed("The owner", "in person", "As priced") { Price = AgreedPrice.To(price) }) is null)
                        {
                            agreed[bay.On(device).Entries.Single(entry => entry.Id == bay.On(device).LastOf($"device-{device}")!.Id).Id] = PriceJson.Write(price.Price).ToJsonString();
                        }

                        break;
                    case 4:
                        bay.Do(device, new TakenBack(choices.Of([.. bay.On(device).Entries]).Id));
                        break;
                    case 5:
                        bay.Do(device, new GoalAdded([map.Parts[choices.Next(map.Parts.Count)].Id], []) { Despite = choices.Next(2) == 0 ? null : "it is open" });
                        break;
                    case 6:
                        bay.Pass(device, choices.Next(3));
                        break;
                    default:
                        bay.Do(device, choices.Of(acts));
                        break;
                }
            }

            var everything = bay.Everything.ToArray();
            var standing = Fold.Of(net, everything);
            var gone = Fold.TakenBackEntries([.. EntryOrder.Of(everything).Select(entry => (entry, ActKinds.Read(entry, out _)))]);
            var yeses = standing.Yeses.Where(yes => yes.Price is not null).ToDictionary(yes => yes.Entry);
            // Every yes that was not itself taken back counts, to what it was given to.
            Assert.Equal(agreed.Keys.Where(yes => !gone.Contains(yes)).Order(), yeses.Keys.Order());
            Assert.All(yeses.Values, yes => Assert.Equal(agreed[yes.Entry], PriceJson.Write(yes.Price!.Price).ToJsonString()));
            Assert.All(yeses.Values, yes => Assert.Equal(yes.Agreed.Price!.Total, yes.Price!.Price.Total));

            var expected = Describe.Everything(standing);
            new Random(seed).Shuffle(everything);
            Assert.Equal(expected, Describe.Everything(Fold.Of(net, everything)));
            Assert.Equal(expected, Describe.Everything(everything.Aggregate(Job.From(net, []), (job, entry) => job.With(entry)).Standing));
        }, iter: Tries.Of(30));
}
