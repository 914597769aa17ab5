using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>What must always be true, on random maps and random histories.</summary>
public class LedgerProperties
{
    private static readonly Gen<(Map Map, byte[] Choices)> MapAndChoices = Gen.Select(RandomMaps.UpTo(14), Gen.Byte.Array[40, 400]);

    [Fact]
    public void Devices_that_have_seen_the_same_entries_show_the_same_standing() =>
        Gen.Select(MapAndChoices, Gen.Byte.Array[64]).Sample((mapAndChoices, shuffle) =>
        {
            var choices = new Choices(mapAndChoices.Choices);
            var bay = SeveralDevices(mapAndChoices.Map, choices, steps: 40);
            var expected = Describe.Everything(Fold.Of(bay.Net, bay.Everything));
            for (var round = 0; round < 4; round++)
            {
                var arrived = AnyOrderThatKeepsEachDevices(bay.Everything, new Choices([.. shuffle.Skip(16 * round)]));
                Assert.Equal(expected, Describe.Everything(Fold.Of(bay.Net, arrived)));
                Assert.Equal(expected, Describe.Everything(Fold.Of(bay.Net, arrived.Concat(arrived.Take(5)))));
                Assert.Equal(expected, Describe.Everything(arrived.Aggregate(Job.From(bay.Net, []), (job, entry) => job.With(entry)).Standing));
            }
        }, iter: Tries.Of(150));

    [Fact]
    public void Every_device_keeps_one_whole_chain_through_any_exchange() =>
        MapAndChoices.Sample((map, choices) =>
        {
            var bay = SeveralDevices(map, new Choices(choices), steps: 40);
            Assert.Empty(Chain.Faults(EntryOrder.Of(bay.Everything)));
        }, iter: Tries.Of(100));

    [Fact]
    public void Nothing_is_handed_over_while_anything_is_open() =>
        MapAndChoices.Sample((map, choices) =>
        {
            var bay = SeveralDevices(map, new Choices(choices), steps: 40);
            foreach (var device in Enumerable.Range(0, 3))
            {
                var open = OpenItems.Of(bay.On(device).Standing);
                var handed = bay.On(device).Standing.HandedOver is not null;
                var refusal = bay.Do(device, new HandedOver("The owner", null));
                Assert.Equal(open.Count > 0 || handed, refusal is not null);
                if (refusal is not null && !handed)
                {
                    Assert.Contains(open[0].Sentence, refusal.Sentence);
                    Assert.NotNull(bay.Do(device, new HandedOver("The owner", new Override("", "in a hurry"))));
                    Assert.NotNull(bay.Do(device, new HandedOver("The owner", new Override("Owner of the shop", " "))));
                    Assert.Null(bay.Do(device, new HandedOver("The owner", new Override("Owner of the shop", "towed to the dealer"))));
                    Assert.Equal("towed to the dealer", bay.On(device).Standing.HandedOver!.Override!.Reason);
                }
            }
        }, iter: Tries.Of(100));

    [Fact]
    public void A_handover_that_arrives_with_something_open_does_not_count_and_is_asked_about() =>
        RandomMaps.UpTo(10).Sample(map =>
        {
            var net = OperationNet.From(map);
            var bay = new Bay(net, [map.Parts[^1].Id], TimeSpan.Zero);
            var forged = EntryLine.Write(new HandedOver("The owner", null), EntryId.Next(DateTimeOffset.MaxValue.AddYears(-7900), null, new byte[10]),
                "another", DateTimeOffset.UnixEpoch, "Somebody", null);
            var standing = bay.On(0).With(forged).Standing;
            Assert.Null(standing.HandedOver);
            Assert.Contains(standing.Questions, q => q.Entry == forged.Id);
        }, iter: Tries.Of(25));

    [Fact]
    public void No_joint_is_made_while_something_in_it_under_it_or_before_it_is_missing() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var acts = Bay.Everyone(bay.Net);
            for (var step = 0; step < 150; step++)
            {
                var act = choices.Of(acts);
                var record = new JointRecord(map, bay.On(0).Entries);
                if (bay.Do(0, act) is null && act is Moved { Move: Move.JointMade } made)
                {
                    Assert.Null(record.Missing(made.Target));
                }
            }
        }, iter: Tries.Of(150));

    [Fact]
    public void A_strip_run_backwards_is_a_legal_way_home_and_ends_with_nothing_open() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var net = OperationNet.From(map);
            var bay = new Bay(net, [map.Parts[^1].Id], TimeSpan.Zero);
            Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the seal")));
            var strip = Strip(bay, choices);
            foreach (var operation in Enumerable.Reverse(strip))
            {
                Home(bay, operation);
            }

            foreach (var proof in map.Proofs)
            {
                Assert.Null(bay.Do(0, new ProofRecorded(proof.Id, Verdict.Good, "as it should be")));
            }

            Assert.Empty(OpenItems.Of(bay.On(0).Standing));
            Assert.Equal(bay.On(0).Standing.CoversPutIn, bay.On(0).Standing.CoversTakenOut);
            Assert.Null(bay.Do(0, new HandedOver("The owner", null)));
        }, iter: Tries.Of(150));

    [Fact]
    public void Whatever_single_act_is_left_out_the_machine_is_handed_over_only_when_the_bare_record_shows_nothing_open() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var net = OperationNet.From(map);
            var goal = map.Parts[^1].Id;
            var whole = new Bay(net, [goal], TimeSpan.Zero);
            whole.Do(0, new Agreed("The owner", "in person", "Renew the seal"));
            foreach (var operation in Enumerable.Reverse(Strip(whole, choices)))
            {
                Home(whole, operation);
            }

            foreach (var proof in map.Proofs)
            {
                // What the readings say decides, unless a person says why not: the last one recorded need not be a good one.
                whole.Do(0, choices.OneIn(2) ? new ProofRecorded(proof.Id, Verdict.Good, "as it should be") : choices.Of([.. Bay.Judged(proof.Id)]));
            }

            var acts = whole.On(0).Entries.Skip(1).Select(e => ActKinds.Read(e, out _)!).ToList();
            var leftOut = choices.Next(acts.Count);
            var bay = new Bay(net, [goal], TimeSpan.Zero);
            foreach (var act in acts.Where((_, i) => i != leftOut))
            {
                bay.Do(0, act);
            }

            var open = new BareRecord(map, bay.On(0).Entries, goal).Open();
            var refusal = bay.Do(0, new HandedOver("The owner", null));
            Assert.True(open is null || refusal is not null, $"Handed over although {open}.");
        }, iter: Tries.Of(150));

    [Fact]
    public void What_was_done_against_the_map_is_told_with_its_reason_and_what_it_hid_is_asked_about() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var moves = Bay.Everyone(bay.Net).OfType<Moved>().ToList();
            for (var step = 0; step < 60; step++)
            {
                var move = choices.Of(moves) with { Despite = "it was so" };
                var before = bay.On(0).Standing;
                var hidden = move.Move is Move.PartFitted or Move.PartHome && before.Net.TryFind(move.Move.Operation(), move.Target, out var operation)
                    && before.Done.Contains(operation) ? LastLooks.Owed(before, operation).Count() : 0;
                if (bay.Do(0, move) is null)
                {
                    Assert.Equal(before.AgainstTheMap.Count + 1, bay.On(0).Standing.AgainstTheMap.Count);
                    Assert.True(bay.On(0).Standing.Questions.Count >= before.Questions.Count + hidden);
                }
            }
        }, iter: Tries.Of(100));

    [Theory]
    [InlineData(" ", "in person", "Renew")]
    [InlineData("The owner", "in person", "")]
    public void A_yes_without_a_name_or_a_matter_is_none(string who, string way, string what)
    {
        var map = RandomMaps.Build(new Choices([1, 2, 3, 4, 5, 6, 7, 8, 9]), 6);
        var bay = new Bay(OperationNet.From(map), [map.Parts[0].Id], TimeSpan.Zero);
        Assert.StartsWith("Write down", bay.Do(0, new Agreed(who, way, what))!.Sentence);
        Assert.StartsWith("Write down", bay.Do(0, new HandedOver("", new Override("Somebody", "A reason")))!.Sentence);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew")));
        Assert.Null(bay.Do(0, new GoalAdded([map.Parts[0].Id], [])));
        Assert.Null(bay.On(0).Standing.Agreed);
    }

    [Fact]
    public void No_opening_is_closed_over_its_cover() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var bay = SeveralDevices(map, new Choices(bytes), steps: 60, devices: 1);
            var standing = bay.On(0).Standing;
            foreach (var opening in map.Openings)
            {
                Assert.True(!standing.Covered.Contains(opening.Id) || standing.IsBare(opening), $"{opening.Name} was closed over its cover.");
            }

            Assert.Equal(standing.Covered.Count, standing.CoversPutIn - standing.CoversTakenOut);
        }, iter: Tries.Of(150));

    [Fact]
    public void Taking_the_last_entry_back_leaves_the_standing_before_it() =>
        MapAndChoices.Sample((map, bytes) =>
        {
            var bay = SeveralDevices(map, new Choices(bytes), steps: 25, devices: 1);
            var job = bay.On(0);
            var last = job.Entries[^1];
            if (job.Entries.Count < 2 || last.Kind == ActKinds.TakenBack)
            {
                return;
            }

            var before = Job.From(bay.Net, job.Entries.SkipLast(1)).Standing;
            Assert.Null(bay.Do(0, new TakenBack(last.Id)));
            Assert.Equal(Describe.Everything(before), Describe.Everything(bay.On(0).Standing));
            Assert.Contains(last, bay.On(0).Entries);
        }, iter: Tries.Of(100));

    /// <summary>Random acts on devices that now and then pass on what they know; what the guards refuse is simply not recorded.</summary>
    private static Bay SeveralDevices(Map map, Choices choices, int steps, int devices = 3)
    {
        TimeSpan[] skews = [TimeSpan.Zero, TimeSpan.FromDays(3), TimeSpan.FromHours(-30)];
        var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], skews[..devices]);
        var acts = Bay.Everyone(bay.Net);
        for (var step = 0; step < steps; step++)
        {
            var device = choices.Next(devices);
            bay.Do(device, choices.OneIn(12) ? new TakenBack(choices.Of(bay.On(device).Entries).Id) : choices.Of(acts));
            if (choices.OneIn(5))
            {
                bay.Pass(device, choices.Next(devices));
            }
        }

        return bay;
    }

    private static List<int> Strip(Bay bay, Choices choices)
    {
        var strip = new List<int>();
        for (var tries = 0; tries < 60; tries++)
        {
            var possible = bay.Net.Operations.Where(o => bay.Net.CanDo(bay.On(0).Standing.Done, o.Index)).ToList();
            if (possible.Count == 0 || (choices.OneIn(8) && GoalReached(bay)))
            {
                break;
            }

            var operation = choices.Of(possible);
            Assert.Null(bay.Do(0, new Moved(operation.Kind.Out(), operation.Target)));
            strip.Add(operation.Index);
            foreach (var opening in bay.Net.OpeningsOn.GetValueOrDefault(operation.Target, []))
            {
                bay.Do(0, new OpeningCovered(opening.Id));
            }
        }

        return strip;
    }

    private static bool GoalReached(Bay bay) => bay.On(0).Standing.GoalParts.All(p => bay.On(0).Standing.StateOf(p) == PartState.Off);

    private static void Home(Bay bay, int operation)
    {
        var target = bay.Net.Operations[operation].Target;
        foreach (var opening in bay.Net.OpeningsOn.GetValueOrDefault(target, []).Where(o => bay.On(0).Standing.Covered.Contains(o.Id)).ToList())
        {
            Assert.Null(bay.Do(0, new OpeningUncovered(opening.Id)));
        }

        foreach (var renewal in bay.On(0).Standing.RenewalsOwed(target).Where(r => bay.On(0).Standing.IsOpen(target) && !bay.On(0).Standing.Renewed.Contains(r.Id)).ToList())
        {
            Assert.Null(bay.Do(0, new RenewalFitted(renewal.Id)));
        }

        if (bay.Net.Operations[operation].Kind == OperationKind.Undo)
        {
            Assert.Null(bay.Do(0, new FaceCleaned(target)));
        }

        while (bay.Net.Operations[operation].Kind == OperationKind.Undo && PassesMade.AtHand(bay.On(0).Standing, target) is { } pass)
        {
            Assert.NotNull(bay.Do(0, new Moved(Move.JointMade, target)));
            Assert.Null(bay.Do(0, pass.Left.Count > 1 ? pass.Next() : pass.Whole()));
        }

        foreach (var joint in LastLooks.Owed(bay.On(0).Standing, operation).ToList())
        {
            Assert.Null(bay.Do(0, new LastLookTaken(joint.Id)));
        }

        Assert.Null(bay.Do(0, new Moved(bay.Net.Operations[operation].Kind.Back(), target)));
    }

    private static List<Entry> AnyOrderThatKeepsEachDevices(IReadOnlyList<Entry> entries, Choices choices)
    {
        var queues = entries.GroupBy(e => e.Device).Select(g => new Queue<Entry>(g.OrderBy(e => e.Seq))).ToList();
        var order = new List<Entry>();
        while (queues.Count > 0)
        {
            var queue = choices.Of(queues);
            order.Add(queue.Dequeue());
            queues.RemoveAll(q => q.Count == 0);
        }

        return order;
    }
}
