using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>How tight everything is that was done up: what was tightened pass by pass, and what went tight in one go by a figure of the map.</summary>
internal static class TightenedBlocks
{
    public static IEnumerable<Block> Of(Standing standing, IReadOnlyList<Written> written)
    {
        List<Row> rows = [.. written.Select(line => RowOf(standing, line)).OfType<Row>()];
        yield return new Table("", [new("Joint", 3.6), new("Pass", 2.3), new("To", 2.7), new("Wrench", 4), new("By", 3.8)], rows);
        yield return new Bullets([.. standing.ReLooked.OrderBy(look => look.Key, StringComparer.Ordinal).Select(look => (Said)look.Value.Sentence(NamesOf.Thing(standing.Net, look.Key)))]);
        if (rows.Count > 0)
        {
            yield return new Caution(JobHead.MakersFirst);
        }
    }

    private static Row? RowOf(Standing standing, Written line) => line.Act switch
    {
        JointTightened tightened => RowOf(
            standing.Net, line, tightened.Joint,
            new Said(NamesOf.Capital(TorqueWords.Pass(standing.Net, tightened)), Datum.Of("pass", (decimal)tightened.Pass)), TorqueWords.Tightness(tightened), TorqueWords.Wrench(tightened.With)),
        Moved { Move: Move.JointMade, Torque_Nm: { } torque_Nm } made => RowOf(standing.Net, line, made.Target, "In one go", TorqueWords.AsDone(torque_Nm), TorqueWords.Wrench(made.With)),
        // Where there are passes, each of them has its row.
        Moved { Move: Move.JointMade } made when standing.Net.Joints.GetValueOrDefault(made.Target) is { Torque: { } torque, Passes.Count: 0 } =>
            RowOf(standing.Net, line, made.Target, "In one go", TorqueWords.AsAsked(torque, hasMap: standing.Opened is not { HasMap: false }), TorqueWords.NoWrench),
        _ => null,
    };

    private static Row RowOf(OperationNet net, Written line, string joint, Said pass, Said to, Said wrench) => new(
        [
            new Said(NamesOf.Thing(net, joint), Datum.Of("joint", joint)),
            pass,
            to,
            wrench,
            new Said($"{line.Entry.By}\n{PaperTime.Of(line.Entry.At)}", Datum.Of("by", line.Entry.By), Datum.Of("at", line.Entry.At)),
        ],
        line.IsTakenBack ? RowKind.Struck : RowKind.Plain);
}
