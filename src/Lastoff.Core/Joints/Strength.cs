namespace Lastoff.Core.Joints;

/// <summary>What a bolt of one property class or grade bears, as stresses on the stress area.</summary>
/// <param name="Name">8.8, grade 5.</param>
/// <param name="Proof_MPa">Borne without permanent set.</param>
/// <param name="Yield_MPa">The lower yield or 0.2 % proof stress, the least the standard allows.</param>
/// <param name="Tensile_MPa">The least tensile strength.</param>
public sealed record Strength(string Name, double Proof_MPa, double Yield_MPa, double Tensile_MPa)
{
    public double ProofLoad_N(ScrewThread thread) => thread.StressArea_mm2 * Proof_MPa;

    public double TensileLoad_N(ScrewThread thread) => thread.StressArea_mm2 * Tensile_MPa;
}
