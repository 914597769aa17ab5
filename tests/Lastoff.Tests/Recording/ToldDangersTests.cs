using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>What a line warns of while it is told (common practice, no source).</summary>
public class ToldDangersTests
{
    private const string Ends = "Close both open ends, and count what closes them.";

    [Theory]
    [InlineData("hydraulic hose off at the feed motor", SupplyKind.Hydraulic)]
    [InlineData("hose off the hydraulic pump", SupplyKind.Hydraulic)]
    [InlineData("brake pipe slackened at the caliper", SupplyKind.Hydraulic)]
    [InlineData("fuel line off", SupplyKind.FuelPressure)]
    [InlineData("fuel hose off the heater", SupplyKind.FuelPressure)]
    [InlineData("coolant hose off the block", SupplyKind.Coolant)]
    [InlineData("top hose off the radiator", SupplyKind.Coolant)]
    [InlineData("refrigerant pipe off the condenser", SupplyKind.Refrigerant)]
    [InlineData("brake vacuum hose off", SupplyKind.Vacuum)]
    [InlineData("oil pipe off the turbo", SupplyKind.Oil)]
    [InlineData("Bremsleitung ab", SupplyKind.Hydraulic)]
    [InlineData("Kühlwasserschlauch ab", SupplyKind.Coolant)]
    public void A_hose_says_what_it_carries(string line, SupplyKind carried) =>
        Assert.Equal([Cautions.OfSupply(carried, restoring: false), Ends], Of(line));

    [Theory]
    [InlineData("locked out and tagged", SupplyKind.Heat)]
    [InlineData("auto start locked out", SupplyKind.Heat)]
    [InlineData("electrics locked out", SupplyKind.HighVoltage)]
    [InlineData("drained 2 litres", SupplyKind.Oil)]
    public void What_is_made_safe_is_no_oil_unless_it_ran_out(string line, SupplyKind kind) => Assert.Equal([Cautions.OfSupply(kind, restoring: false)], Of(line));

    [Theory]
    [InlineData("compressed air dumped")]
    [InlineData("air shut off")]
    [InlineData("air off at the wall")]
    [InlineData("steam valve closed")]
    public void What_is_let_off_or_shut_in_is_under_pressure(string line) => Assert.Equal([Cautions.OfPressure], Of(line));

    [Theory]
    [InlineData("fuel tap shut", SupplyKind.FuelPressure)]
    [InlineData("water off at the stopcock", SupplyKind.Heat)]
    [InlineData("gas off", SupplyKind.Refrigerant)]
    public void A_tap_that_is_shut_warns_by_what_comes_through_it(string line, SupplyKind kind) => Assert.Equal([Cautions.OfSupply(kind, restoring: false)], Of(line));

    [Theory]
    [InlineData("one was seized, got it with heat")]
    [InlineData("one bolt seized, heated it")]
    [InlineData("two nuts off the flange with the torch")]
    [InlineData("eine Schraube festgerostet, warm gemacht")]
    [InlineData("eine Schraube festgerostet, ging mit Hitze")]
    public void Heat_is_warned_of_at_once(string line) => Assert.Contains(Cautions.OfHeat, Of(line));

    [Theory]
    [InlineData("heat shield off, four bolts")]
    [InlineData("heat exchanger off, torch bracket off")]
    public void A_thing_that_is_only_named_after_it_is_not_heated(string line) => Assert.DoesNotContain(Cautions.OfHeat, Of(line));

    [Theory]
    [InlineData("air line off the brake chamber")]
    [InlineData("steam hose off")]
    [InlineData("Druckluftschlauch ab")]
    public void Air_and_steam_press(string line) => Assert.Equal([Cautions.OfPressure, Ends], Of(line));

    [Theory]
    [InlineData("breather hose off")]
    [InlineData("air filter hose off")]
    public void Of_another_only_the_ends_are_told(string line) => Assert.Equal([Ends], Of(line));

    [Fact]
    public void No_pressure_left_in_the_ram_is_hydraulics_made_safe() =>
        Assert.Equal([Cautions.OfSupply(SupplyKind.Hydraulic, restoring: false)], Of("worked the lever both ways till there was no pressure left in the ram"));

    [Theory]
    [InlineData("ram run right in, no pressure in it")]
    [InlineData("no pressure in the ram")]
    public void No_pressure_in_a_ram_is_that_of_hydraulics(string line) => Assert.Equal([Cautions.OfSupply(SupplyKind.Hydraulic, restoring: false)], Of(line));

    [Theory]
    [InlineData("let the air out of the tank")]
    [InlineData("blew the boiler down")]
    [InlineData("air tank drained, gauge at zero")]
    [InlineData("Kessel leer, Manometer auf null")]
    public void Air_and_steam_that_are_let_off_pressed(string line) => Assert.Equal([Cautions.OfPressure], Of(line));

    [Fact]
    public void What_is_closed_is_not_asked_for() =>
        Assert.Equal([Cautions.OfSupply(SupplyKind.Hydraulic, restoring: false)], Of("hydraulic hose off at the feed motor, plugged with a cap"));

    [Fact]
    public void Of_what_is_drained_only_the_rest_can_come() =>
        Assert.Equal([Cautions.OfOpening(SupplyKind.Coolant)!, Ends], ToldDangers.Of(LineReader.Read("coolant hose off", "en").Readings, kind => kind == SupplyKind.Coolant));

    [Theory]
    [InlineData("return spring unhooked, long hook to the top")]
    [InlineData("both brake springs off")]
    [InlineData("Rückholfeder ausgehängt")]
    public void A_spring_flies(string line) => Assert.Equal([Cautions.OfSpring], Of(line));

    [Theory]
    [InlineData("spring clip off")]
    [InlineData("four bolts off the spring bracket")]
    [InlineData("hydraulic pump off")]
    [InlineData("check the return spring")]
    [InlineData("look at the fuel hose later")]
    public void Nothing_else_does(string line) => Assert.Empty(Of(line));

    [Fact]
    public void What_is_drained_is_told_as_before() => Assert.Equal([Cautions.OfSupply(SupplyKind.Oil, restoring: false)], Of("gear oil drained, 2 litres"));

    private static IReadOnlyList<string> Of(string line) => ToldDangers.Of(LineReader.Read(line, line.Any(letter => letter > 127) || line.Contains("Kessel", StringComparison.Ordinal) || line.Contains(" ab", StringComparison.Ordinal) ? "de" : "en").Readings, _ => false);
}
