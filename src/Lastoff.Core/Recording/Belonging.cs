using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Finds the part of a joint that another clause names.</summary>
internal static class Belonging
{
    /// <summary>A joint whose part is not said belongs to what the clause before speaks of.</summary>
    public static Reading Inherit(Reading reading, Heard heard, Told? last)
    {
        if (reading.Kind is JointKind.Clamp or JointKind.Clip && reading is { Name: null, Part: { } sort } && last?.Reading is { Kind: JointKind.Hose or JointKind.Pipe, Name: { } hose } && hose.EndsWith($" {sort}", StringComparison.OrdinalIgnoreCase))
        {
            // “Breather hose off, two hose clamps”.
            return reading with { Part = hose };
        }

        if (reading is { Part: null } && reading.IsTurned() && heard.Clause.Joined != Joined.Stop && last?.Reading is { Deed: Deed.Safe, Supply: SupplyKind.Battery, Name: { } lead })
        {
            // “Earth lead off the battery, 13 mil nut”.
            return reading with { Part = lead };
        }

        // “Pump off, plug lead off”: the lead is the engine's. “Fuel tap shut, feed pipe off”: nothing is off the tap.
        if (reading.Kind is not { } kind || reading.Part is not null || LineReader.IsOfSpark(reading) || heard.Clause.Joined == Joined.Stop || last is not { IsRemark: false, Reading.Deed: not Deed.Safe })
        {
            return reading;
        }

        var before = last.Reading;
        // “One 10 mil bolt, fuel pipe and two plugs”: the pipe is one of several, and the plugs are not the pipe's.
        var isListed = last is { SaysDeed: false, Reading.Part: not null };
        return kind is JointKind.Hose or JointKind.Pipe
            ? before.Kind is null || reading.Name is null || !heard.SaysDeed && (reading.Count is not null || isListed) ? reading with { Part = before.Part } : reading
            : reading with { Part = before.Kind is JointKind.Hose or JointKind.Pipe && !isListed ? before.Name ?? before.Part : before.Part };
    }

    /// <summary>“Two bolts and a nut off the bracket”: the bolts are the bracket's too.</summary>
    public static void GiveHost(Reading reading, Heard heard, Told? last)
    {
        if (!heard.SaysHost && !(heard.IsImplied && reading.Part is not null) || heard.Clause.Joined != Joined.And)
        {
            return;
        }

        if (last is { Reading: { Kind: not null, Part: null } before, SaysDeed: false } && (before.Kind is not (JointKind.Hose or JointKind.Pipe) || before.Name is null))
        {
            last.Reading = before with { Part = reading.Part };
            last.SaysDeed = heard.SaysDeed;
        }
    }

    /// <summary>“Drained the gearbox, 1.6 litres, old oil”: which it was, with how it looked for a note.</summary>
    public static bool GiveFluid(Heard heard, Told? last)
    {
        if (heard.Fluid is not { } fluid || last is not { IsRemark: false, Reading: { Deed: Deed.Drained, Fluid: null, Part: not null } before } || heard.Clause.IsStart)
        {
            return false;
        }

        last.Reading = before with { Fluid = fluid };
        last.Note(heard.Clause.Terms);
        return true;
    }

    /// <summary>“Let the oil out, old oil to waste”: where it went, and no second one.</summary>
    public static bool IsDrained(Heard heard, Told? last) => last is { IsRemark: false, Reading: { Deed: Deed.Drained, Fluid: { } fluid } } && !heard.Clause.IsStart
        && heard.Reading.Part?.Split(' ', 2) is [var old, var own] && LineReader.IsOld(old) && $" {fluid}".EndsWith($" {own}", StringComparison.OrdinalIgnoreCase);

    /// <summary>“Removed the fan, the cowl” are two, and so are “drained the oil, the coolant”; “drained the oil, black with swarf” tells how it looked.</summary>
    public static bool SharesDeed(Reading first, Clause next) => first.Deed != Deed.Drained || next.Has(WordKind.Fluids) && first is not { Fluid: null, Volume_L: not null } || first.Fluid is null && first.Volume_L is null && !next.Terms[0].Is(WordKind.JointModifiers);
}
