using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>Ledgers as they were once written: whatever the program becomes, it reads them, and they say what they said.</summary>
public class GoldenLedgerTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "data", "ledgers");

    [Fact]
    public void Passes_wrenches_and_a_second_look_are_read_as_they_were_written()
    {
        var net = OperationNet.From(MapReader.Read(File.ReadAllText(Path.Combine(Folder, "passes.map.yaml")), "passes").Map!);
        var reading = LedgerFile.Read(File.ReadAllText(Path.Combine(Folder, "passes.ledger.jsonl")), "passes.ledger.jsonl");
        Assert.Null(reading.Fault);
        var standing = Fold.Of(net, reading.Entries);
        Assert.Empty(standing.Unread);
        Assert.Empty(standing.Questions);
        Assert.Empty(PassesMade.Missing(standing, "lid-bolts"));
        Assert.Equal(12, standing.Tightened.Count);
        Assert.Equal("“Lid bolts” was tightened by Person 0 and looked at again by another person, Person 1.", standing.ReLooked["lid-bolts"].Sentence("Lid bolts"));
        var tightened = reading.Entries.Select(entry => ActKinds.Read(entry, out _)).OfType<JointTightened>().ToList();
        Assert.Equal(new JointTightened("lid-bolts", 2, "1", 10, null, Core.Joints.TorqueUnit.FootPound, new WrenchUsed("Bay wrench", new DateOnly(2027, 3, 31), 8.75)), tightened[1]);
    }
}
