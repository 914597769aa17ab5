using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Tests.Papers;

namespace Lastoff.Tests.Recording;

/// <summary>What broke and is asked for as well is one thing: on the list, in a price and on the paper for the customer (common practice, no source).</summary>
public class WantedOnceTests
{
    [Theory]
    // A part that is torn, said in one line or in two, and by less than its whole name.
    [InlineData("Shaft seal", "cover off, four 10 mil bolts", "shaft seal out, torn", "need a new shaft seal")]
    [InlineData("Shaft seal", "cover off, four 10 mil bolts", "shaft seal out, torn", "need a new seal")]
    [InlineData("Shaft seal", "cover off, four 10 mil bolts", "shaft seal out, torn, need a new one")]
    [InlineData("Shaft seal", "cover off, four 10 mil bolts", "shaft seal out, torn", "bearing out", "need a new shaft seal")]
    [InlineData("Shaft seal", "cover off, four 10 mil bolts", "shaft seal torn", "shaft seal pulled out, torn")]
    // A bolt by itself.
    [InlineData("Sump bolt, 13 mm, new", "13 mil sump bolt snapped", "need a new sump bolt")]
    [InlineData("Sump bolt, 13 mm, new", "13 mil sump bolt snapped", "need a new bolt")]
    [InlineData("Sump bolt, 13 mm, new", "13 mil sump bolt snapped, need a new one")]
    [InlineData("Sump bolt, 13 mm, new", "13 mil sump bolt snapped", "sump off", "need a new sump bolt")]
    [InlineData("Sump bolt, 13 mm, new", "guard off", "need a new sump bolt", "13 mil sump bolt snapped")]
    [InlineData("Top hose, new", "top hose off, split", "need a new top hose")]
    // One of several.
    [InlineData("Pump bolt", "pump off, four 13 mil bolts, one snapped", "need a new bolt for the pump")]
    [InlineData("Pump bolt", "four 13 mil bolts off the pump, one snapped", "need a new pump bolt")]
    [InlineData("Pump bolt", "four 13 mil bolts off the pump, one snapped", "pump off", "lid off", "need one new pump bolt")]
    public void It_stands_once(string name, params string[] lines)
    {
        var bay = new Recorder();
        Array.ForEach(lines, line => bay.Say(line));
        var wanted = Assert.Single(Needed.Of(bay.Job.Standing, null), item => item.Kind == NeededKind.New);
        Assert.Equal((name, 1), (wanted.Name, wanted.Count));
        Assert.True(bay.GoesHome());
        Assert.Single(Read.List(Read.Json(new PaperSource(bay.Job).Make(PaperKind.Handover)), "New parts and fluids"));
        // Nothing that was told is lost by it.
        var record = string.Join('\n', Read.Texts(Read.Json(new PaperSource(bay.Job).Make(PaperKind.Record))));
        Assert.All(lines, line => Assert.Contains($"“{line}”", record, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("shaft seal out, torn", "need a new pump seal")]
    [InlineData("13 mil sump bolt snapped", "need two new sump bolts")]
    [InlineData("13 mil sump bolt snapped", "need a new sump gasket")]
    [InlineData("pump off, cracked", "need a new pump seal")]
    // Any gasket may be another.
    [InlineData("lid off, gasket torn", "pump off", "need a new gasket")]
    public void Another_thing_is_wanted_beside_it(params string[] lines)
    {
        var bay = new Recorder().Say("cover off");
        Array.ForEach(lines, line => bay.Say(line));
        Assert.Equal(2, bay.Job.Net.RenewalsFor.Sum(renewals => renewals.Value.Count));
    }

    [Fact]
    public void Torn_once_more_after_the_new_one_is_in_it_is_wanted_again()
    {
        var bay = new Recorder().Say("shaft seal out, torn").Say("need a new shaft seal");
        var renewal = Assert.Single(bay.Job.Net.Map.Renewals);
        Assert.Null(bay.Do(new RenewalFitted(renewal.Id)));
        bay.Say("need a new shaft seal");
        Assert.Equal(2, bay.Job.Net.Map.Renewals.Count);
        Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Renewal);
    }

    [Fact]
    public void A_ledger_from_before_that_put_in_both_says_so_still()
    {
        var bay = new Recorder().Say("shaft seal out, torn").Say("need a new shaft seal");
        var twin = $"wanted:{bay.Job.Entries[^1].Id}:0";
        var write = bay.Job.Entries[^1];
        var fitted = EntryLine.Write(new RenewalFitted(twin), EntryId.Next(write.At, write.Id, new byte[10]), write.Device, write.At, write.By, write);
        var job = bay.Job.With(fitted);
        Assert.Contains(twin, job.Standing.Renewed);
        Assert.Empty(job.Standing.Unread);
    }
}
