using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>What is said in passing of things that are lost, torn or have to be new, in the words of the bay (common practice, no source): it stands open until it is there.</summary>
public class WantedThingsTests
{
    [Theory]
    [InlineData("gasket is shot", "wanted; part gasket")]
    [InlineData("gasket torn", "wanted; part gasket")]
    [InlineData("washer missing", "wanted; part washer")]
    [InlineData("needs a new O-ring", "wanted; part O-ring")]
    [InlineData("new gasket needed", "wanted; part gasket")]
    [InlineData("two washers missing", "wanted; x2; part washers")]
    [InlineData("seal on the pump is shot", "wanted; part seal; of pump")]
    [InlineData("one bolt missing from the sump guard", "wanted; x1; part bolt; of sump guard")]
    [InlineData("lid off, gasket torn", "off; part lid; note gasket torn + wanted; part gasket")]
    [InlineData("pump off, it's shot", "off; part pump; note it's shot + wanted; part pump")]
    [InlineData("27 mm union on the pressure pipe undone, copper washer, new one needed", "undone; pipe; 27mm; name union; part pressure pipe; note copper washer, new one needed + wanted; part copper washer")]
    [InlineData("pump off, four bolts, gasket, new one needed", "off; part pump + undone; bolt; x4; part pump; note gasket, new one needed + wanted; part gasket")]
    [InlineData("pump off, tray 2, new one needed", "off; part pump; tray 2; note new one needed + wanted; part pump")]
    [InlineData("tine shaft out, two seals, both shot", "off; part tine shaft; note two seals, both shot + wanted; x2; part seals")]
    [InlineData("fan guard, four 10s, one missing", "undone; bolt; x4; 10mm; part fan guard; note one missing + wanted; x1; part Fan guard bolt")]
    [InlineData("pump off, seal worn out and needs a new bearing", "off; part pump; note seal worn out and needs a new bearing + wanted; part seal + wanted; part bearing")]
    [InlineData("got the new gasket", "note; note got the new gasket + here; part gasket")]
    [InlineData("found the washer", "note; note found the washer + here; part washer")]
    // What was looked at just before is what needs a new one.
    [InlineData("drain plug out, 17 mil, washer flattened, needs a new one", "undone; bolt; 17mm; name drain plug; note washer flattened, needs a new one + wanted; part washer")]
    [InlineData("lid off, copper washer is badly squashed, renew it", "off; part lid; note copper washer is badly squashed, renew it + wanted; part copper washer")]
    [InlineData("o-ring of the motor squashed, renew it", "note; note o-ring of the motor squashed, renew it + wanted; part o-ring; of motor")]
    [InlineData("pump off, gasket torn, needs a new one", "off; part pump; note gasket torn, needs a new one + wanted; part gasket")]
    [InlineData("pump off, four bolts, one stripped, needs a new one", "off; part pump + undone; bolt; x4; part pump; note one stripped, needs a new one + wanted; x1; part Pump bolt; broken")]
    [InlineData("drain plug out, 17 mil, needs a new one", "undone; bolt; 17mm; name drain plug; note needs a new one + wanted; x1; part Drain plug")]
    [InlineData("lid off, very tight, needs a new one", "off; part lid; note very tight, needs a new one + wanted; x1; part lid")]
    [InlineData("renew the o-ring", "wanted; part o-ring")]
    [InlineData("6 cover bolts 13, tray 4, top one snapped off", "undone; bolt; x6; 13mm; part cover; tray 4; note top one snapped off + wanted; x1; part Cover bolt; broken")]
    [InlineData("pump off, 4 x 13 mil bolts to the bracket, top left one sheared off", "off; part pump + undone; bolt; x4; 13mm; part bracket; note top left one sheared off + wanted; x1; part Bracket bolt; broken")]
    [InlineData("four bolts out, left hand one snapped", "undone; bolt; x4; note left hand one snapped + wanted; x1; part Bolt; broken")]
    [InlineData("four bolts out, back one is broken", "undone; bolt; x4; note back one is broken + wanted; x1; part Bolt; broken")]
    [InlineData("six 10s off the cover, the two front ones snapped", "undone; bolt; x6; 10mm; part cover; note the two front ones snapped + wanted; x2; part Cover bolts; broken")]
    [InlineData("four bolts off the bracket, top left one broke, need a new one", "undone; bolt; x4; part bracket; note top left one broke, need a new one + wanted; x1; part Bracket bolt; broken")]
    [InlineData("four bolts out, top left one missing", "undone; bolt; x4; note top left one missing + wanted; x1; part Bolt")]
    // A seal that looks so is not put back.
    [InlineData("cover o-ring squashed flat, bin", "note; note cover o-ring squashed flat, bin + wanted; part cover o-ring")]
    [InlineData("lid off, o-ring is flat", "off; part lid; note o-ring is flat + wanted; part o-ring")]
    [InlineData("o-ring of the cover squashed flat", "wanted; part o-ring; of cover")]
    [InlineData("gasket squashed, for the bin", "note; note gasket squashed, for the bin + wanted; part gasket")]
    [InlineData("shaft seal dug out, bin", "off; part shaft seal; note bin + wanted; part shaft seal")]
    [InlineData("old seal out, scrap", "off; part seal; note scrap + wanted; part seal")]
    [InlineData("oil seal out, brittle, bin", "off; part oil seal; note brittle, bin + wanted; part oil seal")]
    [InlineData("oil seal bad", "wanted; part oil seal")]
    [InlineData("light bad", "note; note light bad")]
    [InlineData("pawl worn round, needs a new one", "note; note pawl worn round, needs a new one + wanted; part pawl")]
    // One of the set broke, and the others are whole.
    [InlineData("four 13 mil bolts out of the input cover, one broke off flush", "undone; bolt; x4; 13mm; part input cover; note one broke off flush + wanted; x1; part Input cover bolt; broken")]
    [InlineData("four cross head screws out of the pump cover, one head chewed", "undone; screw; x4; cross; part pump cover; note one head chewed + wanted; x1; part Pump cover screw; broken")]
    [InlineData("wants new hose, return hose is split", "note; hose; name return hose; broken + wanted; part return hose")]
    [InlineData("return hose split, needs a new one", "note; hose; name return hose; broken; note needs a new one + wanted; part return hose")]
    [InlineData("old o-ring is flat, needs a new one", "note; note old o-ring is flat, needs a new one + wanted; part o-ring")]
    [InlineData("old o ring flat, renew, 110x4 mm", "note; note old o ring flat, renew, 110x4 mm + wanted; part o ring 110x4 mm")]
    [InlineData("new o-ring needed, 110x4", "note; note new o-ring needed, 110x4 + wanted; part o-ring 110x4")]
    [InlineData("case drain nipple cracked o ring, new one wanted", "note; part case drain nipple o ring; broken; note new one wanted + wanted; part o ring; of case drain nipple")]
    [InlineData("filter element out, bin it", "off; part filter element; note bin it + wanted; part filter element")]
    [InlineData("one of six bolts snapped, stub still in", "undone; bolt; x6; note stub still in + wanted; x1; part Bolt; broken")]
    [InlineData("two of four cover bolts sheared off", "undone; bolt; x4; part cover + wanted; x2; part Cover bolts; broken")]
    [InlineData("seal knackered", "wanted; part seal")]
    [InlineData("seal hard to get out", "note; note seal hard to get out")]
    [InlineData("seal flat against the housing", "note; note seal flat against the housing")]
    [InlineData("gasket not flat", "note; note gasket not flat")]
    [InlineData("flat washer in tray 2", "off; part flat washer; tray 2")]
    [InlineData("lid off, six bolts, bin", "off; part lid + undone; bolt; x6; part lid; note bin")]
    [InlineData("face flat", "note; note face flat")]
    [InlineData("oil pump shot", "wanted; part oil pump")]
    [InlineData("need one new cover bolt M8 by 25", "wanted; x1; part cover bolt")]
    [InlineData("need two new O-rings", "wanted; x2; part O-rings")]
    [InlineData("seal out, lip is torn, scrap", "off; part seal; broken; note lip is torn, scrap")]
    [InlineData("pump off, gasket in bits", "off; part pump; note gasket in bits + wanted; part gasket")]
    [InlineData("copper washers binned", "wanted; part copper washers")]
    [InlineData("new pump and new gasket go in", "note; note new pump and new gasket go in + wanted; part pump + wanted; part gasket")]
    [InlineData("pump and gasket to be renewed", "note; note pump and gasket to be renewed + wanted; part pump + wanted; part gasket")]
    [InlineData("fan hub, pump pulley and belt need renewing", "note; note fan hub, pump pulley and belt need renewing + wanted; part fan hub + wanted; part pump pulley + wanted; part belt")]
    [InlineData("two bolts and a washer missing", "undone; bolt; x2; note a washer missing + wanted; part washer")]
    [InlineData("oil seal prised out, scored, new one please", "off; part oil seal; note scored, new one please + wanted; part oil seal")]
    [InlineData("oil seal out, scored, get a new one", "off; part oil seal; note scored, get a new one + wanted; x1; part oil seal")]
    [InlineData("oil seal out, scored, new one", "off; part oil seal; note scored, new one + wanted; part oil seal")]
    [InlineData("shear bolts out, two, one broken, needs new", "undone; bolt; x2; name shear bolts; note one broken, needs new + wanted; x1; part Shear bolt; broken")]
    [InlineData("two shear bolts out, one broken, needs a new one", "undone; bolt; x2; name shear bolts; note one broken, needs a new one + wanted; x1; part Shear bolt; broken")]
    [InlineData("pump off, six 10 mil bolts, two snapped", "off; part pump + undone; bolt; x6; 10mm; part pump; note two snapped + wanted; x2; part Pump bolts; broken")]
    [InlineData("two shear bolts out, broken", "undone; bolt; x2; name shear bolts; broken")]
    [InlineData("oil seal out, new one arrived", "off; part oil seal; note new one arrived + here; x1; part oil seal")]
    [InlineData("four bolts out, renew on refit", "undone; bolt; x4; one-time")]
    // Beside what was told before, of which it says nothing.
    [InlineData("motor off, 4 allen bolts in tray 2, o-ring is flat", "off; part motor + undone; bolt; x4; inner_hex; part motor; tray 2; note o-ring is flat + wanted; part o-ring")]
    [InlineData("motor off, 4 allen bolts in tray 2, o-ring torn", "off; part motor + undone; bolt; x4; inner_hex; part motor; tray 2; note o-ring torn + wanted; part o-ring")]
    [InlineData("motor off, o-ring is hard, 4 allen bolts", "off; part motor; note o-ring is hard + undone; bolt; x4; inner_hex; part motor + wanted; part o-ring")]
    // What is to be ordered, and all that a list of it names.
    [InlineData("have to order a new M12 bolt and a copper washer", "note; note have to order a new M12 bolt and a copper washer + wanted; part M12 bolt + wanted; part copper washer")]
    [InlineData("order a new bolt and a washer", "note; note order a new bolt and a washer + wanted; part bolt + wanted; part washer")]
    [InlineData("need to order 2 hose clamps", "wanted; x2; part hose clamps")]
    [InlineData("order two M8 bolts, a nut and washers", "note; note order two M8 bolts, a nut and washers + wanted; x2; part M8 bolts + wanted; part nut + wanted; part washers")]
    [InlineData("need a new gasket and two bolts", "note; note need a new gasket and two bolts + wanted; part gasket + wanted; x2; part bolts")]
    [InlineData("need a new gasket, two bolts off the lid", "undone; bolt; x2; part lid + wanted; part gasket")]
    [InlineData("order a new bolt, four nuts off the lid", "undone; nut; x4; part lid + wanted; part bolt")]
    [InlineData("nine 8 mil bolts out, one missing", "undone; bolt; x9; 8mm; note one missing + wanted; x1; part Bolt")]
    [InlineData("firing order 1342", "note; note firing order 1342")]
    // What broke stands open by itself, what was let out is filled, and what is only supposed is nothing.
    [InlineData("top hose perished", "undone; hose; name top hose; broken")]
    [InlineData("valve plate off, gasket torn, four bolts cracked", "off; part valve plate; broken; note gasket torn + undone; bolt; x4; part valve plate; broken + wanted; part gasket")]
    [InlineData("ram hose off, 3 litres lost", "undone; hose; name ram hose + drained; volume 3L")]
    [InlineData("no washer missing", "note; note no washer missing")]
    [InlineData("if the gasket is shot", "note; note if the gasket is shot")]
    [InlineData("gasket not torn", "note; note gasket not torn")]
    [InlineData("nothing missing", "note; note nothing missing")]
    [InlineData("needs a new one", "note; note needs a new one")]
    [InlineData("got the pump off", "off; part pump")]
    public void What_the_job_needs_is_read_beside_what_was_done(string line, string read) => Assert.Equal(read, ReadingText.Write(LineReader.Read(line, "en").Readings));

    [Theory]
    [InlineData("Dichtung ist hin", "wanted; part Dichtung")]
    [InlineData("Scheibe fehlt", "wanted; part Scheibe")]
    [InlineData("braucht neuen O-Ring", "wanted; part O-Ring")]
    [InlineData("neuer O-Ring nötig", "wanted; part O-Ring")]
    [InlineData("Dichtung am Deckel ist hin", "wanted; part Dichtung; of Deckel")]
    [InlineData("Deckel ab, Dichtung gerissen", "off; part Deckel; note Dichtung gerissen + wanted; part Dichtung")]
    [InlineData("Scheibe gefunden", "note; note Scheibe gefunden + here; part Scheibe")]
    [InlineData("neue Dichtung da", "note; note neue Dichtung da + here; part Dichtung")]
    [InlineData("Simmerring raus, bitte neu", "off; part Simmerring; note bitte neu + wanted; part Simmerring")]
    [InlineData("nichts fehlt", "note; note nichts fehlt")]
    [InlineData("zwei Schlauchschellen bestellen", "wanted; x2; part Schlauchschellen")]
    [InlineData("muss eine neue Schraube M12 und einen Kupferring bestellen", "note; note muss eine neue Schraube M12 und einen Kupferring bestellen + wanted; part Schraube + wanted; part Kupferring")]
    [InlineData("muss zwei Schlauchschellen und einen Kupferring bestellen", "note; note muss zwei Schlauchschellen und einen Kupferring bestellen + wanted; x2; part Schlauchschellen + wanted; part Kupferring")]
    [InlineData("brauche eine neue Schraube M12", "wanted; part Schraube")]
    [InlineData("Hebel hin und her bewegt", "note; note Hebel hin und her bewegt")]
    [InlineData("Deckel-O-Ring plattgedrückt, Müll", "note; note Deckel-O-Ring plattgedrückt, Müll + wanted; part Deckel-O-Ring")]
    [InlineData("O-Ring platt", "wanted; part O-Ring")]
    [InlineData("eine von sechs Schrauben abgerissen", "undone; bolt; x6; name Schrauben + wanted; x1; part Schraube; broken")]
    [InlineData("Simmerring schlecht", "wanted; part Simmerring")]
    [InlineData("vier 13er Schrauben vom Deckel raus, eine bündig abgerissen", "undone; bolt; x4; 13mm; name Schrauben; part Deckel; note eine bündig abgerissen + wanted; x1; part Deckel Schraube; broken")]
    [InlineData("vier Schrauben raus, eine abgerissen", "undone; bolt; x4; name Schrauben; note eine abgerissen + wanted; x1; part Schraube; broken")]
    [InlineData("Pumpe ab, vier 13er Schrauben am Halter, oben links eine abgerissen", "off; part Pumpe + undone; bolt; x4; 13mm; name Schrauben; part Halter; note oben links eine abgerissen + wanted; x1; part Halter Schraube; broken")]
    [InlineData("gasket is shot", "wanted; part gasket")]
    public void In_German_too(string line, string read) => Assert.Equal(read, ReadingText.Write(LineReader.Read(line, "de").Readings));

    [Fact]
    public void It_stands_open_on_the_list_and_before_its_part_goes_home_until_it_is_in()
    {
        var bay = new Recorder().Say("valve cover off, eight 10 mil bolts").Say("gasket is shot").Say("rocker arm off");
        Assert.Equal("“Gasket” is not in yet.", Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Renewal).Sentence);
        var plan = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Contains(Needed.Of(bay.Job.Standing, plan), item => item is { Name: "Gasket", State: ItemState.Missing });
        var back = plan.Back.Select(step => (step.Kind, step.Name)).ToList();
        Assert.InRange(back.IndexOf((StepKind.Renew, "Gasket")), back.IndexOf((StepKind.Fit, "Rocker arm")) + 1, back.IndexOf((StepKind.Fit, "Valve cover")) - 1);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:rocker-arm")));
        // As with a map, it holds up the part that closes over it.
        Assert.Contains("“Gasket” is not in yet", bay.Do(new Moved(Move.PartFitted, "part:valve-cover"))!.Sentence);
        Assert.Null(bay.Do(new RenewalFitted(bay.Job.Net.Map.Renewals.Single().Id)));
        Assert.True(bay.GoesHome());
        Assert.DoesNotContain(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Renewal);
    }

    [Theory]
    [InlineData("got the new gasket")]
    [InlineData("gasket renewed")]
    [InlineData("new gasket arrived")]
    public void A_line_says_that_it_is_there(string line)
    {
        var bay = new Recorder().Say("valve cover off").Say("gasket is shot").Say(line);
        Assert.Contains(bay.Job.Net.Map.Renewals.Single().Id, bay.Job.Standing.Renewed);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:valve-cover")));
    }

    [Fact]
    public void It_belongs_to_what_is_named_to_what_came_off_last_or_to_what_comes_next()
    {
        var bay = new Recorder().Say("needs a new O-ring").Say("pump off").Say("lid off").Say("washer missing").Say("seal on the pump is shot").Say("four bolts off the sump guard, one missing");
        Assert.Equal(
            [("O-ring", "Pump"), ("Washer", "Lid"), ("Seal", "Pump"), ("Sump guard bolt", "Sump guard bolts")],
            bay.Job.Net.Map.Renewals.Select(renewal => (renewal.Name, bay.Job.Net.Parts.TryGetValue(renewal.For, out var part) ? part.Name : bay.Job.Net.Joints[renewal.For].Name)));
    }

    [Theory]
    // The thing it was told with, was said of, or is called by; a seal and a fastener lie at what came off last.
    [InlineData("Drive belt", "drive belt off", "shaft seal out", "renew the belt")]
    [InlineData("Drive belt", "shaft seal out", "drive belt off, needs a new tensioner")]
    [InlineData("Shaft seal", "drive belt off", "shaft seal out", "washer missing")]
    [InlineData("Cover", "shaft seal out", "need new O-ring for the cover", "cover off")]
    [InlineData(null, "drive belt off", "shaft seal out", "thermostat to be renewed")]
    [InlineData(null, "renew the thermostat", "shaft seal out")]
    public void It_hangs_on_what_it_has_to_do_with_or_on_nothing(string? part, params string[] lines)
    {
        var bay = lines.Aggregate(new Recorder(), (bay, line) => bay.Say(line));
        var renewal = Assert.Single(bay.Job.Net.Map.Renewals);
        Assert.Equal(part, renewal.For.Length == 0 ? null : bay.Job.Net.Parts[renewal.For].Name);
        var plan = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Equal(part is null ? "it was said to be needed, and not what for" : $"{part} was disturbed, so this must be new", Assert.Single(plan.Back, step => step.Kind == StepKind.Renew).Why);
        Assert.Contains(Needed.Of(bay.Job.Standing, plan), item => item.Name == renewal.Name);
        Assert.True(bay.GoesHome());
        Assert.DoesNotContain(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Renewal);
    }

    [Fact]
    public void Said_twice_it_is_wanted_once_and_torn_again_it_is_wanted_again()
    {
        var bay = new Recorder().Say("lid off").Say("gasket is shot").Say("gasket is torn");
        Assert.Single(bay.Job.Net.Map.Renewals);
        bay.Say("got the new gasket").Say("gasket torn");
        Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Renewal);
    }

    [Theory]
    [InlineData("output shaft seal torn, new one needed", "shaft seal pulled out", true)]
    [InlineData("shaft seal torn", "output shaft seal pulled out", true)]
    // Any seal may be another.
    [InlineData("seal torn", "shaft seal pulled out", false)]
    public void The_new_one_goes_in_for_the_part_of_its_name(string wanted, string off, bool isTheSame)
    {
        var bay = new Recorder().Say("cover off").Say(wanted).Say(off);
        var plan = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        var renewal = Assert.Single(bay.Job.Net.Map.Renewals);
        Assert.Equal(isTheSame, renewal.Kind == Lastoff.Core.Maps.RenewalKind.Part && bay.Job.Net.Parts[renewal.For].Name.EndsWith("seal", StringComparison.Ordinal));
        Assert.Single(plan.Back, step => step.Kind == StepKind.Renew);
        Assert.Null(bay.Do(new RenewalFitted(renewal.Id)));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void What_is_to_be_had_is_on_the_list_while_the_job_is_told()
    {
        var bay = new Recorder().Say("drain plug out, washer flattened, needs a new one");
        Assert.Contains(Needed.Of(bay.Job.Standing, plan: null), item => item is { Name: "Washer", State: ItemState.Missing });
    }

    [Fact]
    public void A_line_on_record_from_before_means_what_it_meant()
    {
        var bay = new Recorder().Say("lid off");
        Assert.Null(bay.Do(new LineRecorded("gasket is shot", [new Reading { Note = "gasket is shot" }])));
        Assert.Empty(bay.Job.Net.Map.Renewals);
    }
}
