using Lastoff.Core.Fluids;

namespace Lastoff.Core.Maps;

/// <summary>Reads what a map says about a fluid, and about the proofs of one.</summary>
internal static class FluidFields
{
    // A leak given in Pa·m3/s is that of gas at this temperature, as everywhere where none is measured.
    private static readonly Temperature LeakReference = Temperature.FromCelsius(20);

    public static Fluid? ReadFluid(YamlFields supply, FaultList faults)
    {
        if (supply.Fields("fluid", $"The fluid of {supply.WhatInside}") is not { } fields)
        {
            return null;
        }

        var fluid = new Fluid(
            fields.Choice<Glycol>("glycol"),
            ReadNumber(fields, "target_percent"),
            fields.Text("label"),
            ReadPressure(fields, "cap", "140 kPa", faults),
            ReadLitres(fields, "stays", faults));
        fields.Finish();
        return fluid;
    }

    public static Proof ReadNeeds(YamlFields fields, Proof proof, FaultList faults) => proof with
    {
        Hold = ReadHold(fields, faults),
        Limit = ReadLimit(fields, faults),
        WithinPercent = ReadNumber(fields, "within_percent"),
    };

    private static HoldNeeds? ReadHold(YamlFields proof, FaultList faults)
    {
        if (proof.Fields("hold", $"The hold of {proof.WhatInside}") is not { } fields)
        {
            return null;
        }

        var hold = new HoldNeeds(ReadLitres(fields, "volume", faults), ReadLeak(fields, faults), ReadPressure(fields, "resolution", "1 kPa", faults));
        fields.Finish();
        return hold;
    }

    private static double? ReadNumber(YamlFields fields, string field)
    {
        var stands = fields.Has(field);
        var number = fields.Number(field, 0);
        return stands ? number : null;
    }

    private static double? ReadLitres(YamlFields fields, string field, FaultList faults) => fields.Text(field) switch
    {
        null => null,
        { } text when Volume.TryParseLitres(text, out var litres) => litres,
        { } text => Unreadable<double>(fields, field, text, $"a number with one of {string.Join(", ", Volume.Units)}, such as '2.4 L'", faults),
    };

    private static Pressure? ReadPressure(YamlFields fields, string field, string example, FaultList faults) => fields.Text(field) switch
    {
        null => null,
        { } text when Pressure.TryParse(text, out var pressure) => pressure,
        { } text => Unreadable<Pressure>(fields, field, text, $"a number, zero or more, with one of {string.Join(", ", Pressure.Units)}, such as '{example}'", faults),
    };

    private static LeakRate? ReadLeak(YamlFields fields, FaultList faults) => fields.Text("allowed") switch
    {
        null => null,
        { } text when LeakRate.TryParse(text, LeakReference, out var leak) => leak,
        { } text => Unreadable<LeakRate>(fields, "allowed", text, "a number with Pa·m3/s, mbar·L/s, sccm or mol/s, such as '5e-3 Pa·m3/s'", faults),
    };

    private static Temperature? ReadLimit(YamlFields fields, FaultList faults) => fields.Text("limit") switch
    {
        null => null,
        { } text when Temperature.TryParse(text, out var temperature) => temperature,
        { } text => Unreadable<Temperature>(fields, "limit", text, "a number with °C, °F or K, such as '115 °C'", faults),
    };

    private static T? Unreadable<T>(YamlFields fields, string field, string text, string how, FaultList faults) where T : struct
    {
        faults.Add(fields.At(field), $"{fields.What}: '{field}' is '{text}', which cannot be read; write {how}.");
        return null;
    }
}
