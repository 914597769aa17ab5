namespace Lastoff.Core.Fluids;

/// <summary>What to say at the step where a fluid can hurt someone.</summary>
public static class FluidCautions
{
    public const string HotSystem =
        "Never open a hot cooling system: it is under pressure and scalds. Let it cool until the upper hose is soft and no more than hand-warm, then turn the cap slowly with a rag over it, face away.";

    public const string Poisonous =
        "Coolant is poisonous and tastes sweet: keep it from children and animals, mop up every spill, cover every pan, and never keep it in a drinks bottle. If anyone or any animal swallows it, call a poison centre at once.";

    public const string Waste =
        "Old coolant and old oil are separate wastes: never mix them, never pour them in a drain or on the ground. Local rules on storage and disposal come first.";

    public const string HotOil =
        "Hot oil burns, and used oil harms the skin: wear gloves, keep it from children and animals, and wipe spills before someone slips.";

    public const string Vapour =
        "Hot coolant and its vapour irritate: wear eye protection and gloves and keep the bay aired. Never run an engine indoors without exhaust extraction.";

    public const string Vacuum =
        "Pull a vacuum only on a cold engine. Wear eye protection; hoses going flat is normal, a tank or a plastic neck that cracks is not: stop at any crack.";

    public const string TestPressure =
        "Never go above the pressure printed on the cap. Test cold, keep out of line with hoses and seams, and let the pressure off before taking the tester away.";

    public const string RunningEngine =
        "The fan can start by itself, engine off too: keep hands, hair and cloth away from fan and belts. Hot parts and hoses burn.";

    public const string MakerFirst =
        "Computed figures are guidance: the maker's specification for this machine, local law and licensed practice come first.";

    public const string OilScreening =
        "These are screening bands, not limits: no condemning limits are agreed on. The maker's and the laboratory's own limits come first, and a rising trend counts more than one figure.";

    public static IReadOnlyList<string> Filling { get; } = [HotSystem, Poisonous, Vapour, Waste, MakerFirst];
    public static IReadOnlyList<string> OilFilling { get; } = [HotOil, Waste, MakerFirst];
    public static IReadOnlyList<string> VacuumFilling { get; } = [HotSystem, Vacuum, Poisonous, Waste, MakerFirst];
    public static IReadOnlyList<string> VacuumHold { get; } = [Vacuum, Poisonous, MakerFirst];
    public static IReadOnlyList<string> PressureHold { get; } = [HotSystem, TestPressure, Poisonous, MakerFirst];
    public static IReadOnlyList<string> OilChange { get; } = [Poisonous, Waste, OilScreening, MakerFirst];
    public static IReadOnlyList<string> WarmUp { get; } = [RunningEngine, HotSystem, Vapour, MakerFirst];
}
