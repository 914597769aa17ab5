using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>Two people who write differently of one thing, each without the other's entry, are asked; nobody else is.</summary>
public class ContradictionTests
{
    private const string Yaml = """
        format: 1
        name: bench
        title: Invented bench pump
        parts: [{id: pump, name: Pump}, {id: lid, name: Lid, aside: {}}]
        joints:
          - {id: hose, name: Hose, kind: hose, holds: [pump]}
          - {id: screws, name: Lid screws, kind: screw, holds: [lid]}
        proofs: [{id: look, name: No leak, kind: leak_look, for: hose}]
        """;

    private static Bay TwoPeople(params ReadOnlySpan<Act> known)
    {
        var read = MapReader.Read(Yaml, "bench");
        Assert.True(read.Map is not null, string.Join('\n', read.Faults));
        var bay = new Bay(OperationNet.From(read.Map), ["pump"], TimeSpan.Zero, TimeSpan.FromHours(-30));
        foreach (var act in known)
        {
            Assert.Null(bay.Do(0, act));
        }

        bay.Pass(0, 1);
        return bay;
    }

    private static void Meet(Bay bay)
    {
        bay.Pass(0, 1);
        bay.Pass(1, 0);
        Assert.Equal(Describe.Everything(bay.On(0).Standing), Describe.Everything(bay.On(1).Standing));
    }

    [Fact]
    public void A_joint_one_says_is_made_and_the_other_undone_is_asked_about_until_somebody_who_has_seen_both_settles_it()
    {
        var bay = TwoPeople();
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "hose")));
        Assert.Null(bay.Do(1, new Moved(Move.JointUndone, "hose")));
        Meet(bay);
        var question = Assert.Single(bay.On(0).Standing.Questions);
        Assert.Contains("“Hose”: Person ", question.Sentence);
        Assert.Contains("says done up", question.Sentence);
        Assert.Contains("says undone", question.Sentence);
        Assert.Contains(OpenItems.Of(bay.On(1).Standing), item => item.Kind == OpenKind.Question && item.Sentence == question.Sentence);
        Assert.Null(bay.Do(1, new Settled(question.Entry, "It hangs loose, I undid it")));
        Meet(bay);
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    public static TheoryData<string, Act, Act> Differing => new()
    {
        { "“No leak”: ", new ProofRecorded("look", Verdict.Good, "dry"), new ProofRecorded("look", Verdict.Bad, "drips") },
        { "“Lid”: ", new Moved(Move.PartAside, "lid"), new Moved(Move.PartOff, "lid") },
        { "“Hose”: ", new JointStuck("hose", 0, true, "rusted"), new Moved(Move.JointUndone, "hose") },
        { "What was agreed: ", new Agreed("The owner", "in person", "The seal only"), new Agreed("The owner", "phone", "The whole pump") },
    };

    [Theory]
    [MemberData(nameof(Differing))]
    public void What_the_two_say_of_one_thing_without_each_other_is_asked_about(string named, Act one, Act other)
    {
        Act[] known = one is ProofRecorded ? [new Moved(Move.JointUndone, "hose"), new Moved(Move.JointMade, "hose")]
            : one is Moved ? [new Moved(Move.JointUndone, "screws")]
            : [];
        var bay = TwoPeople(known);
        Assert.Null(bay.Do(0, one));
        Assert.Null(bay.Do(1, other));
        Meet(bay);
        Assert.Contains(bay.On(0).Standing.Questions, q => q.Sentence.StartsWith(named, StringComparison.Ordinal) && q.Sentence.Contains("neither had seen"));

        // The same, the second with the first one's entry at hand: nobody is asked.
        var inTurn = TwoPeople(known);
        Assert.Null(inTurn.Do(0, one));
        inTurn.Pass(0, 1);
        inTurn.Do(1, other);
        Meet(inTurn);
        Assert.DoesNotContain(inTurn.On(0).Standing.Questions, q => q.Sentence.Contains("neither had seen"));
    }

    [Fact]
    public void The_same_word_of_two_people_is_no_contradiction()
    {
        var bay = TwoPeople();
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Null(bay.Do(1, new Moved(Move.JointUndone, "hose")));
        Meet(bay);
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    [Fact]
    public void Settled_by_somebody_who_had_not_seen_the_other_side_it_stays_in_question()
    {
        var bay = TwoPeople();
        // Person 1 goes against the map's guard and is asked about it, and settles that, all before anything of person 0 arrives.
        Assert.Null(bay.Do(1, new Moved(Move.JointUndone, "hose")));
        var contested = bay.On(1).Entries[^1].Id;
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "hose")));
        var third = Job.From(bay.Net, bay.On(1).Entries);
        Meet(bay);
        var question = Assert.Single(bay.On(0).Standing.Questions);
        var latest = bay.On(1).Entries.Max(e => e.Id.ToString())!;
        var blind = EntryLine.Write(new Settled(question.Entry, "All is well"), EntryId.Next(DateTimeOffset.UnixEpoch, Guid.Parse(latest), new byte[10]),
            "device-2", DateTimeOffset.UnixEpoch, "Person 2", null, new Dictionary<string, long> { [question.Entry == contested ? "device-1" : "device-0"] = 3 });
        Assert.Contains(bay.On(0).With(blind).Standing.Questions, q => q.Sentence == question.Sentence);
        var seeing = EntryLine.Write(new Settled(question.Entry, "All is well"), EntryId.Next(DateTimeOffset.UnixEpoch, Guid.Parse(latest), new byte[10]),
            "device-2", DateTimeOffset.UnixEpoch, "Person 2", null, new Dictionary<string, long> { ["device-0"] = 3, ["device-1"] = 1 });
        Assert.DoesNotContain(bay.On(0).With(seeing).Standing.Questions, q => q.Sentence == question.Sentence);
        Assert.Equal(2, third.Entries.Count);
    }

    [Fact]
    public void An_entry_says_only_what_came_in_since_the_one_before()
    {
        var bay = TwoPeople();
        bay.Do(0, new Moved(Move.JointUndone, "hose"));
        bay.Do(1, new Noted("Looked at it"));
        bay.Do(1, new Noted("And again"));
        bay.Pass(0, 1);
        bay.Do(1, new Noted("With the other's entry"));
        var seen = bay.On(1).Entries.Where(e => e.Device == "device-1").OrderBy(e => e.Seq).Select(e => e.Seen is null ? "-" : string.Join(' ', e.Seen)).ToList();
        Assert.Equal(["[device-0, 1]", "-", "[device-0, 2]"], seen);
        Assert.Equal(["", "-"], bay.On(0).Entries.Where(e => e.Device == "device-0").Select(e => e.Seen is null ? "-" : string.Join(' ', e.Seen)));
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("""{"device-1":0}""")]
    [InlineData("""{"device-1":"2"}""")]
    [InlineData("""{"":2}""")]
    public void What_was_seen_is_a_list_of_devices_and_counts(string seen)
    {
        var line = TwoPeople().On(0).Entries[0].Line;
        var changed = line.Replace("\"seen\":{}", $"\"seen\":{seen}", StringComparison.Ordinal);
        Assert.NotEqual(line, changed);
        Assert.False(EntryLine.TryRead(changed, out _, out var fault));
        Assert.StartsWith("its seen is not a list of devices", fault);
    }

    [Fact]
    public void On_random_histories_last_words_that_differ_are_asked_about_and_in_turn_nobody_is_asked() =>
        Gen.Select(RandomMaps.UpTo(12), Gen.Byte.Array[60, 300]).Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var isInTurn = choices.OneIn(3);
            TimeSpan[] skews = [TimeSpan.Zero, TimeSpan.FromDays(3), TimeSpan.FromHours(-30)];
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], skews);
            // What each entry's device held when it wrote it, kept here and not in the entries.
            var held = new Dictionary<Guid, HashSet<Guid>>();
            List<Act> acts = [.. Bay.Everyone(bay.Net).Where(act => act is Moved or OpeningCovered or OpeningUncovered or ProofRecorded)];
            for (var step = 0; step < 40; step++)
            {
                var device = choices.Next(3);
                var known = bay.On(device).Entries.Select(e => e.Id).ToHashSet();
                if (bay.Do(device, choices.Of(acts)) is null)
                {
                    held[bay.On(device).LastOf($"device-{device}")!.Id] = known;
                }

                foreach (var other in Enumerable.Range(0, 3).Where(other => isInTurn || (other != device && choices.OneIn(6))))
                {
                    bay.Pass(device, other);
                }
            }

            var all = Job.From(bay.Net, bay.Everything);
            var questions = all.Standing.Questions;
            if (isInTurn)
            {
                Assert.DoesNotContain(questions, q => q.Sentence.Contains("neither had seen"));
                return;
            }

            var uncounted = questions.Where(q => q.Sentence.Contains("does not count")).Select(q => q.Entry).ToHashSet();
            var words = all.Entries.Where(e => held.ContainsKey(e.Id) && !uncounted.Contains(e.Id)).Select(e => (Entry: e, Said: Bare(e))).ToList();
            foreach (var thing in words.GroupBy(w => w.Said.Thing))
            {
                var last = thing.Where(w => !thing.Any(later => later.Entry.Id != w.Entry.Id
                    && (held[later.Entry.Id].Contains(w.Entry.Id) || (later.Entry.Device == w.Entry.Device && later.Entry.Seq > w.Entry.Seq)))).ToList();
                if (last.Select(w => w.Said.Says).Distinct().Count() > 1)
                {
                    Assert.Contains(questions, q => q.Sentence.Contains("neither had seen") && last.Any(w => w.Entry.Id == q.Entry));
                }
            }
        }, iter: 200);

    /// <summary>What an entry says of which thing, from its bare kind and data.</summary>
    private static (string Thing, string Says) Bare(Entry entry)
    {
        var kind = entry.Kind.Split('-');
        var target = entry.Data.GetProperty(entry.Kind == "proof-recorded" ? "proof" : kind[0]).GetString()!;
        var litres = entry.Data.TryGetProperty("amount_L", out var amount) ? amount.GetDouble() : 0;
        return ($"{kind[0]} {target}", entry.Kind switch
        {
            "proof-recorded" => entry.Data.GetProperty("verdict").GetString()!,
            "part-home" or "part-fitted" => "in place",
            "supply-restored" => $"restored {litres}",
            _ => kind[1],
        });
    }
}
