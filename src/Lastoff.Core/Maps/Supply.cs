using Lastoff.Core.Fluids;

namespace Lastoff.Core.Maps;

public enum SupplyKind { Battery, HighVoltage, FuelPressure, Coolant, Oil, Refrigerant, Vacuum, Hydraulic, Heat }

/// <summary>Energy or fluid that must be made safe before some joints are undone, and restored and proved after.</summary>
public sealed record Supply
{
    public required string Id { get; init; }
    public required string Name { get; init; }
    public required SupplyKind Kind { get; init; }
    public Position At { get; init; } = Position.Above;
    public Tool Tool { get; init; } = Tool.Hand;
    public double SafeMinutes { get; init; }
    /// <summary>How long it goes on by itself once it is made safe by hand (drains, cools, runs down) before what needs it may be undone.</summary>
    public double RunsMinutes { get; init; }
    public double RestoreMinutes { get; init; }
    /// <summary>How it is made safe, in the map author's words.</summary>
    public string? MakeSafe { get; init; }
    public string? Restore { get; init; }
    /// <summary>What the system holds, in litres; null for a supply that is not a fluid.</summary>
    public double? Amount_L { get; init; }
    public Fluid? Fluid { get; init; }
    public IReadOnlyList<string> Needs { get; init; } = [];
    public Reach Reach { get; init; } = Reach.Free;
    public string? Caution { get; init; }
    /// <summary>What there is to tell of it that is no caution, each a sentence or some.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
    public int Line { get; init; }
}

/// <summary>A port laid bare when the part or joint it is <paramref name="On"/> comes off: covered then, uncovered before it is closed.</summary>
public sealed record Opening(string Id, string Name, string On, string Cover, double CoverMinutes, int Line);

public enum RenewalKind { Seal, Fastener, Fluid, Filter, Sundry, Part }

/// <summary>What must be new on the way back once the part, joint or supply it is <paramref name="For"/> has been disturbed.</summary>
public sealed record Renewal(string Id, string Name, RenewalKind Kind, string For, double Count, string Unit, int Line)
{
    /// <summary>What stands in <see cref="For"/> of a thing that was told to be new while recording and nobody said what for: it is owed by the job, and holds no part up. No map file has it.</summary>
    public const string Alone = "";
}

public enum ProofKind { VacuumHold, PressureHold, WarmUp, Mix, TorquePasses, LeakLook, Function }

/// <summary>A reading, with its verdict, owed once the part, joint or supply it is <paramref name="For"/> has been disturbed and is back.</summary>
public sealed record Proof(string Id, string Name, ProofKind Kind, string For, double Minutes, string? Caution, int Line)
{
    public HoldNeeds? Hold { get; init; }
    /// <summary>For a warm-up, where the maker's gauge goes red.</summary>
    public Temperature? Limit { get; init; }
    /// <summary>It is taken when all is home and the machine can run, whatever its kind: where all is known from recordings nobody knows what holds a fluid in.</summary>
    public bool WhenItRuns { get; init; }
    /// <summary>For a mix, how many points it may lie off the target.</summary>
    public double? WithinPercent { get; init; }
}
