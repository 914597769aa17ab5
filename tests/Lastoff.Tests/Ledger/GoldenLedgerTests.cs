using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>Ledgers as they were once written: whatever the program becomes, it reads them, and they say what they said.</summary>
public class GoldenLedgerTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "data", "ledgers");
    private static readonly string Pump = Path.Combine(AppContext.BaseDirectory, "data", "golden", "orchard-sprayer-pump.map.yaml");

    [Fact]
    public void Passes_wrenches_and_a_second_look_are_read_as_they_were_written()
    {
        var (entries, standing) = Read("passes", Path.Combine(Folder, "passes.map.yaml"));
        Assert.Empty(PassesMade.Missing(standing, "lid-bolts"));
        Assert.Equal(12, standing.Tightened.Count);
        Assert.Equal("“Lid bolts” was tightened by Person 0 and looked at again by another person, Person 1.", standing.ReLooked["lid-bolts"].Sentence("Lid bolts"));
        var tightened = entries.Select(entry => ActKinds.Read(entry, out _)).OfType<JointTightened>().ToList();
        Assert.Equal(new JointTightened("lid-bolts", 2, "1", 10, null, Core.Joints.TorqueUnit.FootPound, new WrenchUsed("Bay wrench", new DateOnly(2027, 3, 31), 8.75)), tightened[1]);
    }

    [Fact]
    public void What_fell_in_and_was_found_is_read_as_it_was_written()
    {
        var (_, standing) = Read("lost", Pump);
        Assert.Equal([("M6 washer", "crankcase", "By the drain, whole"), ("10 mm socket", "frame", null)], standing.File.Lost.Select(thing => (thing.What, thing.Where, thing.Found)));
    }

    [Fact]
    public void Prices_yeses_and_payments_are_read_as_they_were_written()
    {
        var (_, standing) = Read("prices", Pump);
        Assert.Null(standing.OverAgreed);
        Assert.Equal(
            [("209.65 EUR", "4f651772697aceb83b4579e40785b096f09c1e05df1633e0bbbc22d6ce423ae6"), ("903.25 EUR", "7c577faee8ef2d71f6c6d7f07d17855ad0192b17936705225e0798fe9b2ca461")],
            standing.Yeses.Select(yes => (yes.Price!.Price.Total.ToString(), yes.Price.Priced.Sha256)));
        Assert.Equal([true, false], standing.Yeses.Select(yes => yes.Agreed.OldPartsBack!.Value));
        Assert.Equal("New suction hose", standing.Yeses[0].Agreed.Declined.Single());
        Assert.Equal("The pump is worn too", standing.LatestPrice!.Priced.Reason);
        Assert.Equal(["60.00 EUR deposit", "100.00 EUR on account"], standing.Payments.Select(paid => $"{paid.Amount} {paid.For}"));
        Assert.Equal("Person 0 recorded “Pump” (goal added) beyond the agreed sum: The owner is at sea and said to go on if it was the pump.", standing.BeyondAgreed.Single());
    }

    [Fact]
    public void Own_work_and_several_fills_are_read_as_they_were_written()
    {
        var (_, standing) = Read("own-work", Pump);
        Assert.Equal([("New seal in the shaft", "upper-head", true), ("New drain hose", "", false)], standing.File.Works.Select(work => (work.What, string.Join(' ', work.Before), work.IsDone)));
        Assert.Equal((3.3, 3, 87.0), standing.Filled.Select(filled => (filled.Amount_L!.Value, filled.Poured!.Fills!.Value, filled.Left_ppm!.Value)).Single());
        Assert.Equal("Person 0 recorded “New seal in the shaft” (work done) beyond the agreed sum: the owner is at sea.", standing.BeyondAgreed.Single());
    }

    [Fact]
    public void A_line_that_was_put_right_is_read_as_it_was_written()
    {
        var job = Job.Recorded(Entries("corrected"));
        Assert.Equal(["Guard", "Belt"], job.Net.Map.Parts.Select(part => part.Name));
        Assert.Equal([("2", 6)], job.Standing.InTrays.Select(set => (set.Tray, set.Count)));
        Assert.Equal(["Guard off", "six 10 mil bolts off the guard, tray 2"], CountedEntry.AllOf(job.Entries).Where(entry => !entry.IsTakenBack).Select(entry => entry.Act).OfType<LineCorrected>().Select(act => act.Text));
        Assert.Empty(job.Standing.Unread);
        Assert.Empty(job.Standing.Questions);
    }

    /// <summary>A ledger that is read whole, with nothing in question.</summary>
    private static (IReadOnlyList<Entry> Entries, Standing Standing) Read(string ledger, string map)
    {
        var net = OperationNet.From(MapReader.Read(File.ReadAllText(map), map).Map!);
        var entries = Entries(ledger);
        var standing = Fold.Of(net, entries);
        Assert.Empty(standing.Unread);
        Assert.Empty(standing.Questions);
        return (entries, standing);
    }

    private static IReadOnlyList<Entry> Entries(string ledger)
    {
        var reading = LedgerFile.Read(File.ReadAllText(Path.Combine(Folder, $"{ledger}.ledger.jsonl")), ledger);
        Assert.Null(reading.Fault);
        return reading.Entries;
    }
}
