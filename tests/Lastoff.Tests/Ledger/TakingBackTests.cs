using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

public class TakingBackTests
{
    private const string Yaml = """
        format: 1
        name: bench
        title: Invented bench pump
        parts: [{id: pump, name: Pump}]
        joints: [{id: hose, name: Hose, kind: hose, holds: [pump]}]
        openings: [{id: port, name: Port, on: hose, cover: cap}]
        """;

    /// <summary>The cover was taken back, so the hose went on over a port that was never covered, which is in question; counting the cover again would close it in.</summary>
    [Fact]
    public void A_cover_does_not_count_again_under_a_joint_made_meanwhile_though_that_joint_is_in_question_already()
    {
        var bay = new Bay(OperationNet.From(MapReader.Read(Yaml, "bench").Map!), ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Null(bay.Do(0, new OpeningCovered("port")));
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        var takenBack = bay.On(0).Entries[^1].Id;
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "hose")));
        Assert.Contains("without ever having been covered", Assert.Single(bay.On(0).Standing.Questions).Sentence);
        Assert.Contains("The cap is still in “Port”", bay.Do(0, new TakenBack(takenBack))!.Sentence);
        Assert.Empty(bay.On(0).Standing.Covered);
    }
}
