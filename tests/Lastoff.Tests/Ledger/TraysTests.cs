using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class TraysTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void What_was_left_over_once_is_settled_when_all_of_them_went_in_later()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        InAndOut(2, 1);
        Assert.EndsWith("1 left over. Find the place, or say why.", Assert.Single(LeftOver()), StringComparison.Ordinal);
        // As many as came out, and still one less than it has.
        InAndOut(1, 1);
        Assert.Single(LeftOver());
        InAndOut(2, 2);
        Assert.Empty(LeftOver());

        IEnumerable<string> LeftOver() => bay.On(0).Standing.Questions.Select(question => question.Sentence).Where(sentence => sentence.Contains("left over", StringComparison.Ordinal));

        void InAndOut(int cameOut, int wentIn)
        {
            Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts", "It was tried") { Tray = "2", Count = cameOut }));
            Assert.Null(bay.Do(0, new Moved(Move.JointMade, "regulator-bolts", "It was tried") { Count = wentIn }));
        }
    }
}
