using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class OutAndHomeTests
{
    [Fact]
    public void What_has_not_come_home_is_what_the_standing_says_is_out() =>
        Gen.Select(RandomMaps.UpTo(14), Gen.Byte.Array[0, 300]).Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            for (var step = 0; step < 60; step++)
            {
                var job = bay.On(0);
                Act act = job.LastToTakeBack("device-0") is { } last && choices.OneIn(5)
                    ? new TakenBack(last.Id)
                    : choices.Of([.. PossibleActs.Of(job.Standing), new Noted("Nothing moved")]);
                _ = bay.Do(0, act);
            }

            var standing = bay.On(0).Standing;
            var away = OutAndHome.Of(bay.On(0)).Where(row => row.Home is null).Select(row => row.Act).ToList();
            Assert.Equal(standing.Done, OperationSet.Of(bay.Net.Operations.Count, away.OfType<Moved>().Select(m => bay.Net.Find(m.Move.Operation(), m.Target))));
            Assert.Equal(standing.Covered.Order(), away.OfType<OpeningCovered>().Select(c => c.Opening).Order());
        }, iter: 300);

    [Fact]
    public void Taking_back_again_and_again_leads_back_to_the_opening_of_the_job() =>
        Gen.Select(RandomMaps.UpTo(10), Gen.Byte.Array[0, 60]).Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            for (var step = 0; step < 20; step++)
            {
                Assert.Null(bay.Do(0, choices.Of([.. PossibleActs.Of(bay.On(0).Standing), new Noted("Nothing moved")])));
            }

            while (bay.On(0).LastToTakeBack("device-0") is { } last)
            {
                Assert.Null(bay.Do(0, new TakenBack(last.Id)));
            }

            Assert.Equal(bay.Net.Nothing, bay.On(0).Standing.Disturbed);
        }, iter: 100);
}
