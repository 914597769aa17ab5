using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Ledger;

namespace Lastoff.Tests.Recording;

/// <summary>What holds of every recording, on random ones: it goes home, its reverse is legal, and whoever has seen the same lines sees the same.</summary>
public class RecordedJobProperties
{
    private static readonly string[] Parts = ["seat", "side panel", "tank", "air box", "hose bracket", "pump"];

    /// <summary>A random line about one of a few parts: joints of it or of nobody knows what, the part off or aside, a supply.</summary>
    internal static readonly Gen<string> Lines = Gen.Select(Gen.Int[0, Parts.Length - 1], Gen.Int[0, 9], Gen.Int[1, 5]).Select((part, sort, count) => Line(Parts[part], sort, count));

    private static string Line(string part, int sort, int count) => sort switch
    {
        0 or 1 => $"{Counts[count]} 10 mil bolts off the {part}, tray {count}",
        2 => $"{part} off",
        3 => $"{part} laid aside",
        4 => $"{part} off, {Counts[count]} nuts",
        5 => $"{Counts[count]} T30 screws, tray {count}",
        6 => count > 3 ? "battery disconnected" : "coolant drained",
        8 => $"plugged the {part} port with a rag",
        9 => $"{part} off, port capped",
        _ => $"{part} plug unplugged",
    };

    private static readonly string[] Counts = ["no", "one", "two", "three", "four", "five"];

    [Fact]
    public void Every_recording_has_a_way_home_that_no_guard_stops() =>
        Lines.Array[1, 25].Sample(lines =>
        {
            var bay = new Recorder();
            foreach (var line in lines)
            {
                bay.Say(line);
            }

            Assert.Empty(bay.Job.Standing.Questions);
            Assert.True(bay.GoesHome(), string.Join(" / ", lines));
        }, iter: Tries.Of(200));

    [Fact]
    public void No_joint_is_made_while_its_part_is_away_whatever_came_home_in_between() =>
        Gen.Select(Lines.Array[2, 20], Gen.Int[0, 5].Array[20]).Sample((lines, turns) =>
        {
            var bay = new Recorder();
            foreach (var (line, turn) in lines.Zip(turns))
            {
                bay.Say(line);
                for (var steps = 0; steps < turn && bay.Job.Standing.Done.Count > 0; steps++)
                {
                    bay.GoHomeOneStep();
                }

                var standing = bay.Job.Standing;
                var away = standing.Net.Map.Parts.Where(part => standing.IsDone(OperationKind.Off, part.Id)).Select(part => part.Id).ToHashSet();
                var early = standing.Net.Map.Joints.FirstOrDefault(joint => standing.IsDone(OperationKind.Undo, joint.Id) && joint.Holds.Any(away.Contains)
                    && Guards.Check(standing, new Moved(Move.JointMade, joint.Id)) is null);
                // Nothing stands on air: what is undone could be undone by the map as it has grown, so its guards hold.
                Assert.True(standing.Net.Supported(standing.Done).Equals(standing.Done), string.Join(" / ", lines));
                Assert.True(early is null, $"{early?.Name}: {string.Join(" / ", lines)}");
            }
        }, iter: Tries.Of(150));

    [Fact]
    public void Its_reverse_is_legal() =>
        Lines.Array[1, 25].Sample(lines =>
        {
            var bay = new Recorder();
            // What is said of a part that is off already was done before.
            foreach (var (line, _) in lines.Select((line, at) => (line, at)).Where(said => !Parts.Any(part => said.line.Contains(part) && lines[..said.at].Any(before => before.StartsWith(part)))))
            {
                bay.Say(line);
            }

            var (net, done) = (bay.Job.Net, bay.Job.Standing.Done);
            foreach (var moved in OutAndHome.Of(bay.Job).Select(row => row.Act).OfType<Moved>().Reverse())
            {
                var operation = net.Find(moved.Move.Operation(), moved.Target);
                Assert.True(net.CanReverse(done, operation), $"{moved.Target}: {string.Join(" / ", lines)}");
                done = done.Without(operation);
            }
        }, iter: Tries.Of(200));

    [Fact]
    public void Devices_that_have_seen_the_same_lines_show_the_same_standing() =>
        Gen.Select(Lines.Array[2, 16], Gen.Int[0, 3].Array[16]).Sample((lines, turns) =>
        {
            var bay = new Recorder(3);
            foreach (var (line, turn) in lines.Zip(turns))
            {
                bay.Say(line, turn % 3);
                if (turn == 3)
                {
                    bay.Pass(0, 1);
                }
            }

            for (var device = 0; device < 3; device++)
            {
                bay.Pass(device, (device + 1) % 3);
            }

            for (var device = 0; device < 3; device++)
            {
                bay.Pass(device, (device + 1) % 3);
            }

            var expected = Describe.Everything(bay.On(0).Standing);
            Assert.All([1, 2], device => Assert.Equal(expected, Describe.Everything(bay.On(device).Standing)));
            Assert.Equal(expected, Describe.Everything(Job.Recorded(bay.On(0).Entries.Reverse()).Standing));
        }, iter: Tries.Of(100));
}
