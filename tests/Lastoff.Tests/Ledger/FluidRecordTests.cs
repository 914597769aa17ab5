using System.Text.Json;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>What the ledger carries of a fluid filled and of a proof judged from readings.</summary>
public class FluidRecordTests
{
    private static readonly OperationNet Net = OperationNet.From(new Map
    {
        Name = "bench",
        Title = "Invented bench",
        Supplies = [new Supply { Id = "water", Name = "Water", Kind = SupplyKind.Coolant, Amount_L = 6 }],
        Parts = [new Part { Id = "pump", Name = "Pump" }],
        Joints = [new Joint { Id = "hose", Name = "Hose", Kind = JointKind.Hose, Holds = ["pump"], Needs = ["water"] }],
        Proofs =
        [
            new Proof("hold", "Holds a vacuum", ProofKind.VacuumHold, "water", 5, null, 0),
            new Proof("mix", "Mix", ProofKind.Mix, "water", 1, null, 0),
        ],
    });

    private static readonly Evidence Tight = new(
        "vacuum hold", Verdict.Good, 1.25e-4, -2e-4, 4.5e-4, "Pa·m3/s", new Dictionary<string, double> { ["volume_L"] = 5.7, ["ambient_kPa_abs"] = 101.325 }, "t_s,p_kPa_abs\n0,12\n600,12");

    private static readonly Poured Half = new("Si-OAT “long life”", 50, 48.5, 49.6, 1.2);

    [Fact]
    public void An_entry_reads_back_as_it_was_written()
    {
        var bay = Drained();
        foreach (var act in new Act[]
        {
            new ProofRecorded("hold", Verdict.Good, "Tight") { Evidence = Tight },
            new ProofRecorded("hold", Verdict.Bad, "Tight") { Evidence = Tight, Overruled = "The hose was pinched off" },
            new Moved(Move.SupplyRestored, "water", Amount_L: 5.7) { Poured = Half with { Fills = 3 }, ChangesLeft = 2, Left_ppm = 417.5 },
        })
        {
            Assert.Null(bay.Do(0, act));
            var entry = bay.On(0).Entries[^1];
            Assert.Equal(act.ToData().ToJsonString(), ActKinds.Read(entry, out _)!.ToData().ToJsonString());
            Assert.True(EntryLine.TryRead(entry.Line, out var again, out _));
            Assert.Equal(entry.Seal, again!.Seal);
        }
    }

    [Fact]
    public void What_is_poured_in_after_the_filling_is_in_it_without_its_being_drained_once_more()
    {
        var bay = Drained();
        var filled = new Moved(Move.SupplyRestored, "water", Amount_L: 5.5) { Poured = Half };
        Assert.Null(bay.Do(0, filled));
        Assert.Equal(RefusalKind.Already, bay.Do(0, filled)!.Kind);
        Assert.Equal(RefusalKind.Already, bay.Do(0, filled with { Amount_L = null })!.Kind);
        Assert.Null(bay.Do(0, filled with { Amount_L = 5.7 }));
        Assert.Equal([5.7], bay.On(0).Standing.Restored.Select(one => one.Amount_L!.Value));
        Assert.Equal((5.7, "Si-OAT “long life”"), (bay.On(0).Standing.Filled.Single().Amount_L, bay.On(0).Standing.Filled.Single().Poured!.Fluid));
        // It came home with the first of the two, and taking back the second leaves that.
        Assert.Equal(bay.On(0).Entries[^2].Id, OutAndHome.Of(bay.On(0)).Single(row => row.Act is Moved { Target: "water" }).Home!.Id);
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Equal(5.5, bay.On(0).Standing.Filled.Single().Amount_L);
    }

    // RFC 8785: members sorted by name, numbers as ECMAScript writes them, no escapes but those that are needed.
    [Fact]
    public void The_line_has_the_canonical_form()
    {
        var bay = Drained();
        Assert.Null(bay.Do(0, new ProofRecorded("hold", Verdict.Good, "Tight") { Evidence = Tight }));
        Assert.Contains(
            """
            "data":{"evidence":{"figure":0.000125,"given":{"ambient_kPa_abs":101.325,"volume_L":5.7},"high":0.00045,"low":-0.0002,"method":"vacuum hold","readings":"t_s,p_kPa_abs\n0,12\n600,12","says":"good","unit":"Pa·m3/s"},"proof":"hold","reading":"Tight","verdict":"good"}
            """,
            bay.On(0).Entries[^1].Line);
        Assert.Null(bay.Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: 5.7) { Poured = Half }));
        Assert.Contains(
            """
            "data":{"amount_L":5.7,"poured":{"before_percent":48.5,"fluid":"Si-OAT “long life”","mix_percent":49.6,"percent":50,"plus_minus_percent":1.2},"supply":"water"}
            """,
            bay.On(0).Entries[^1].Line);
    }

    [Fact]
    public void Readings_are_overruled_only_with_a_reason()
    {
        var bay = Drained();
        var against = new ProofRecorded("hold", Verdict.Bad, "Tight") { Evidence = Tight };
        Assert.Equal("The readings of “Holds a vacuum” say good; to say bad all the same, write down why.", bay.Do(0, against)!.Sentence);
        Assert.NotNull(bay.Do(0, against with { Overruled = " " }));
        Assert.Null(bay.Do(0, against with { Overruled = "The hose was pinched off" }));
        Assert.Contains("The readings say good; a person says bad, because: The hose was pinched off.", Assert.Single(ProofLines.Of(bay.On(0).Standing)));
    }

    [Fact]
    public void Readings_overruled_without_a_reason_elsewhere_do_not_count_and_are_asked_about()
    {
        var bay = Drained();
        var forged = EntryLine.Write(new ProofRecorded("hold", Verdict.Good, "Tight") { Evidence = Tight with { Says = Verdict.Bad } },
            EntryId.Next(DateTimeOffset.MaxValue.AddYears(-7900), null, new byte[10]), "another", DateTimeOffset.UnixEpoch, "Somebody", null);
        var standing = bay.On(0).With(forged).Standing;
        Assert.Empty(standing.Readings);
        Assert.Contains(standing.Questions, question => question.Entry == forged.Id);
    }

    [Fact]
    public void A_vacuum_hold_is_taken_empty_and_says_nothing_any_more_once_a_joint_is_undone_again()
    {
        var bay = Drained();
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Equal("“Holds a vacuum” cannot be taken yet: first do up “Hose”.", bay.Do(0, new ProofRecorded("hold", Verdict.Good, "Tight"))!.Sentence);
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "hose")));
        Assert.Null(bay.Do(0, new ProofRecorded("hold", Verdict.Good, "Tight")));
        Assert.Equal("“Mix” cannot be taken yet: first restore “Water”.", bay.Do(0, new ProofRecorded("mix", Verdict.Good, "50 %"))!.Sentence);
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "hose")));
        Assert.Empty(bay.On(0).Standing.Readings);
        Assert.Contains(OpenItems.Of(bay.On(0).Standing), item => item is { Kind: OpenKind.Proof, Target: "hold" });
    }

    [Fact]
    public void What_was_poured_stands_until_it_is_drained_again()
    {
        var bay = Drained();
        Assert.Null(bay.Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: 5.7) { Poured = Half }));
        Assert.Equal("“Water” was filled: 5.7 L of Si-OAT “long life”, 50 %; the mix is 49.6 % ± 1.2.", Assert.Single(ProofLines.Filled(bay.On(0).Standing)));
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "water", Amount_L: 5.5)));
        Assert.Empty(bay.On(0).Standing.Filled);
    }

    [Fact]
    public void Every_filling_stays_on_record_and_one_told_twice_is_one()
    {
        var bay = Drained();
        Assert.Null(bay.Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: 5.7)));
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "water", Amount_L: 5.5)));
        Assert.Null(bay.Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: 5.5) { Poured = Half }));
        Assert.Equal([5.7, 5.5], bay.On(0).Standing.Restored.Select(filled => filled.Amount_L!.Value));
        Assert.Equal(
            "“Water” was filled: 2 times, 11.2 L in all; in it now: 5.5 L of Si-OAT “long life”, 50 %; the mix is 49.6 % ± 1.2.", Assert.Single(ProofLines.Filled(bay.On(0).Standing)));
        var last = bay.On(0).Entries[^1];
        var again = EntryLine.Write(new Moved(Move.SupplyRestored, "water", Amount_L: 5.4), EntryId.Next(last.At, last.Id, new byte[10]), "another", last.At, "Somebody", null);
        Assert.Equal([5.7, 5.4], bay.On(0).With(again).Standing.Restored.Select(filled => filled.Amount_L!.Value));
    }

    [Fact]
    public void Fills_that_were_told_at_once_are_said_in_one_line() =>
        Assert.Equal("9.3 L of OAT, 100 %, in 3 fills; the mix is 50 % ± 2", ProofLines.Words(new Moved(Move.SupplyRestored, "water", Amount_L: 9.3) { Poured = new Poured("OAT", 100, 20, 50, 2) { Fills = 3 } }));

    [Theory]
    [InlineData(-1, null, "What is left of what had got in is between 0 and 1 000 000 ppm; check the number.")]
    [InlineData(1_000_001, null, "What is left of what had got in is between 0 and 1 000 000 ppm; check the number.")]
    [InlineData(double.NaN, null, "What is left of what had got in is between 0 and 1 000 000 ppm; check the number.")]
    [InlineData(400, 1, "It went in by 2 to 100 fills, or by one and no number; check it.")]
    [InlineData(400, 101, "It went in by 2 to 100 fills, or by one and no number; check it.")]
    public void What_is_left_and_how_many_fills_it_took_are_refused_where_they_cannot_be(double left, int? fills, string sentence) =>
        Assert.Equal(sentence, Drained().Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: 5) { Left_ppm = left, Poured = new Poured("OAT") { Fills = fills } })!.Sentence);

    [Theory]
    [InlineData(-1, 50)]
    [InlineData(5, 130)]
    [InlineData(5, -2)]
    public void Figures_that_cannot_be_are_refused(double litres, double percent) =>
        Assert.EndsWith(".", Drained().Do(0, new Moved(Move.SupplyRestored, "water", Amount_L: litres) { Poured = new Poured("OAT", percent) })!.Sentence);

    [Theory]
    [InlineData("""{"proof":"hold","verdict":"good","reading":"x","evidence":5}""", "its evidence names no method or does not say what the readings say")]
    [InlineData("""{"proof":"hold","verdict":"good","reading":"x","evidence":{"method":"by eye","says":"splendid"}}""", "its verdict is not good, bad or unclear")]
    public void Evidence_that_is_none_is_kept_and_told(string data, string fault)
    {
        var entry = Drained().On(0).Entries[^1] with { Kind = ActKinds.ProofRecorded, Data = JsonDocument.Parse(data).RootElement };
        Assert.Null(ActKinds.Read(entry, out var told));
        Assert.Equal(fault, told);
    }

    [Fact]
    public void A_log_too_long_for_a_line_is_known_again_by_its_fingerprint()
    {
        var log = string.Concat(Enumerable.Range(0, 20_000).Select(i => $"{i},20\n"));
        var kept = Evidence.Kept(log)!;
        Assert.Equal($"# {log.Length} characters, SHA-256 {Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(log)))}", kept);
        Assert.Equal("t_s,p_kPa_abs", Evidence.Kept("t_s,p_kPa_abs"));
    }

    private static Bay Drained()
    {
        var bay = new Bay(Net, ["pump"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "water", Amount_L: 5.7)));
        return bay;
    }
}
