using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Papers;

/// <summary>A fluid that was changed stands on paper with all that went in, not only with what is in it now.</summary>
public class FillingsTests
{
    [Fact]
    public void The_record_has_each_filling_and_the_sum()
    {
        var rows = Read.Rows(Read.Json(new PaperSource(Bench.Proved(changes: 2).Job).Make(PaperKind.Record)), "Filled").Where(cells => (string?)cells[0]!["supply"] == "pump-oil").ToList();
        Assert.Equal(4, rows.Count);
        Assert.All(rows.Take(3), cells => Assert.Equal(1.15, (double)cells[1]!["amount_L"]!));
        Assert.Equal([true, true, false], rows.Take(3).Select(cells => ((string)cells[1]!["text"]!).EndsWith("\ncame out again", StringComparison.Ordinal)));
        Assert.Equal(("Filled 3 times, 3.45 L in all", 3, 3.45), ((string)rows[3][1]!["text"]!, (int)rows[3][1]!["times"]!, Math.Round((double)rows[3][1]!["all_L"]!, 9)));
    }

    [Fact]
    public void The_customer_sees_how_much_went_in_and_what_is_in_it()
    {
        Assert.StartsWith("Oil in the pump: filled 3 times, 3.45 L in all\nin it now: 1.15 L of SAE 30\n", Handover(Bench.Proved(changes: 2)));
        Assert.StartsWith("Oil in the pump: filled, 1.15 L of SAE 30\n", Handover(Bench.Proved()));
    }

    [Fact]
    public void In_German_too()
    {
        var german = PaperWordsTests.TongueOf("de");
        Assert.Equal(
            "Oil in the pump: befüllt 3-mal, insgesamt 3,45 L\njetzt darin: 1,15 L SAE 30", german.SayLines("Oil in the pump: filled 3 times, 3.45 L in all\nin it now: 1.15 L of SAE 30"));
        Assert.Equal("9,3 L OAT, 100 %, in 3 Füllungen; die Mischung hat 50 % ± 2", german.Say("9.3 L of OAT, 100 %, in 3 fills; the mix is 50 % ± 2"));
        Assert.Equal("1,1 L; vom Eingedrungenen sind rechnerisch 417 ppm übrig", german.Say("1.1 L; 417 ppm of what had got in are left, by calculation"));
    }

    [Fact]
    public void What_was_not_measured_is_not_counted_in_and_said()
    {
        var bench = Bench.Proved();
        bench.DoAllTheSame(new Moved(Move.SupplySafe, "pump-oil"));
        bench.DoAllTheSame(new RenewalFitted(Fluid));
        bench.DoAllTheSame(new Moved(Move.SupplyRestored, "pump-oil"));
        Assert.Equal("Oil in the pump: filled 2 times, 1.15 L in all of what was measured\nin it now: an unmeasured amount", Handover(bench));
        Assert.DoesNotContain("was not measured", string.Join('\n', New(bench).Select(line => (string)line["text"]!)), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_left_of_what_had_got_in_is_said_with_what_is_in_it()
    {
        var bench = Bench.Proved();
        bench.DoAllTheSame(new Moved(Move.SupplySafe, "pump-oil"));
        bench.DoAllTheSame(new RenewalFitted(Fluid));
        bench.DoAllTheSame(new Moved(Move.SupplyRestored, "pump-oil", Amount_L: 1.1) { Left_ppm = 417.4 });
        Assert.EndsWith("in it now: 1.1 L; 417 ppm of what had got in are left, by calculation", Handover(bench));
    }

    private static string Fluid => Bench.Net.RenewalsFor["pump-oil"].Single(renewal => renewal.Kind == RenewalKind.Fluid).Id;

    private static IReadOnlyList<JsonNode> New(Bench bench) => [.. Read.List(Read.Json(new PaperSource(bench.Job).Make(PaperKind.Handover)), "New parts and fluids")];

    private static string Handover(Bench bench) => (string)Assert.Single(New(bench), line => (string?)line["supply"] == "pump-oil")["text"]!;

    /// <summary>The list of what to have here has the fluid for every change that is still to be made, and no more.</summary>
    [Fact]
    public void More_changes_take_as_much_each_time_and_it_is_on_the_list()
    {
        var count = Bench.Net.RenewalsFor["pump-oil"].Single(renewal => renewal.Kind == RenewalKind.Fluid).Count;
        var bench = Bench.Proved();
        Change(2);
        Assert.Equal(2 * count, Wanted());
        bench.DoAllTheSame(new Moved(Move.SupplySafe, "pump-oil"));
        Assert.Equal(2 * count, Wanted());
        bench.DoAllTheSame(new RenewalFitted(Fluid));
        Assert.Equal(count, Wanted());
        bench.DoAllTheSame(new Moved(Move.SupplyRestored, "pump-oil", Amount_L: 1.15) { ChangesLeft = 1 });
        Assert.Equal(count, Wanted());
        Change(null);
        Assert.Equal(0, Wanted());

        double Wanted() => Needed.Of(bench.Job.Standing, null).Where(item => item.Name.StartsWith("Pump oil", StringComparison.Ordinal) && item.State != ItemState.Here).Sum(item => item.Count);

        void Change(int? left)
        {
            bench.DoAllTheSame(new Moved(Move.SupplySafe, "pump-oil"));
            bench.DoAllTheSame(new RenewalFitted(Fluid));
            bench.DoAllTheSame(new Moved(Move.SupplyRestored, "pump-oil", Amount_L: 1.15) { ChangesLeft = left });
        }
    }
}
