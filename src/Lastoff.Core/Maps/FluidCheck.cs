using System.Globalization;
using Lastoff.Core.Fluids;

namespace Lastoff.Core.Maps;

/// <summary>What a map says about fluids can be, and stands where it means something.</summary>
internal static class FluidCheck
{
    // Caps hold between 30 and 250 kPa (common practice, no source).
    private static readonly Pressure HighestCap = Pressure.FromKilopascals(300);

    private static readonly SupplyKind[] Liquids = [SupplyKind.Coolant, SupplyKind.Oil, SupplyKind.Hydraulic];

    public static void Check(Map map, FaultList faults)
    {
        foreach (var (i, supply) in map.Supplies.Index().Where(item => item.Item.Fluid is not null))
        {
            OfSupply($"supplies[{i}].fluid", $"Supply '{supply.Id}'", supply, supply.Fluid!, faults);
        }

        foreach (var (i, proof) in map.Proofs.Index())
        {
            OfProof($"proofs[{i}]", $"Proof '{proof.Id}'", proof, faults);
        }
    }

    private static void OfSupply(string path, string what, Supply supply, Fluid fluid, FaultList faults)
    {
        if (!Liquids.Contains(supply.Kind))
        {
            faults.Add(path, $"{what} is a {Words<SupplyKind>.Of(supply.Kind)} and has no fluid to fill; a fluid stands with {string.Join(", ", Liquids.Select(Words<SupplyKind>.Of))}.");
            return;
        }

        if (supply.Kind != SupplyKind.Coolant && (fluid.Glycol, fluid.TargetPercent, fluid.Cap) != (null, null, null))
        {
            faults.Add(path, $"{what} is no coolant: 'glycol', 'target_percent' and 'cap' stand with a coolant only.");
        }

        if (fluid.TargetPercent is { } target)
        {
            if (fluid.Glycol is not { } glycol)
            {
                faults.Add($"{path}.target_percent", $"{what} has a target and does not say of which glycol; add 'glycol: ethylene' or 'glycol: propylene'.");
            }
            else if (Coolant.FromVolumePercent(glycol, target).Sentence is { } outside)
            {
                faults.Add($"{path}.target_percent", $"{what}: {outside}");
            }
        }

        if (fluid.Cap is { } cap && (cap > HighestCap || cap == Pressure.Zero))
        {
            faults.Add($"{path}.cap", $"{what}: a cap of {cap} must be a slip; caps hold between 30 and 250 kPa above the weather.");
        }

        if (fluid.Stays_L is { } stays && !(stays >= 0 && stays < (supply.Amount_L ?? 0)))
        {
            faults.Add($"{path}.stays", supply.Amount_L is null
                ? $"{what} says what stays in and not what it holds; add its 'amount'."
                : Text($"{what}: {stays} L cannot stay in of {supply.Amount_L} L; it is less than the amount, and not below nothing."));
        }
    }

    private static void OfProof(string path, string what, Proof proof, FaultList faults)
    {
        Only(proof.Hold is not null, "hold", proof.Kind is ProofKind.VacuumHold or ProofKind.PressureHold, "a vacuum_hold or a pressure_hold");
        Only(proof.Limit is not null, "limit", proof.Kind == ProofKind.WarmUp, "a warm_up");
        Only(proof.WithinPercent is not null, "within_percent", proof.Kind == ProofKind.Mix, "a mix");
        if (proof.Hold?.Volume_L is { } volume && !(volume > 0 && volume <= 100_000))
        {
            faults.Add($"{path}.hold.volume", Text($"{what}: a volume of {volume} L must be a slip; it is more than nothing."));
        }

        if (proof.Hold?.Resolution is { } resolution && resolution == Pressure.Zero)
        {
            faults.Add($"{path}.hold.resolution", $"{what}: no dial can be read to nothing; write the step between its marks.");
        }

        if (proof.Hold?.Allowed is { MolesPerSecond: 0 })
        {
            faults.Add($"{path}.hold.allowed", $"{what}: no test can tell a leak of nothing; write the smallest leak that matters.");
        }

        if (proof.Limit is { } limit && limit.Celsius is < 60 or > 140)
        {
            faults.Add($"{path}.limit", $"{what}: a limit of {limit} must be a slip; it is where the maker's gauge goes red, between 60 and 140 °C.");
        }

        if (proof.WithinPercent is { } within && !(within > 0 && within <= 20))
        {
            faults.Add($"{path}.within_percent", Text($"{what}: 'within_percent' is {within}; it is more than 0 and at most 20 points."));
        }

        void Only(bool stands, string field, bool fits, string with)
        {
            if (stands && !fits)
            {
                faults.Add($"{path}.{field}", $"{what} is a {Words<ProofKind>.Of(proof.Kind)}; '{field}' stands with {with} only.");
            }
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
