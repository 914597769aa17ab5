namespace Lastoff.Core.Ledger;

/// <summary>How evidence is said, on the screen and on paper.</summary>
public static class EvidenceWords
{
    public static string Of(EvidenceBy by) => by switch
    {
        EvidenceBy.Look => "looked at",
        EvidenceBy.Sound => "listened to",
        EvidenceBy.Dye => "dye",
        EvidenceBy.PressureHold => "pressure hold",
        EvidenceBy.CombustionGas => "combustion-gas test",
        EvidenceBy.FluidSample => "oil or coolant sample",
        EvidenceBy.Code => "trouble code",
        _ => "reading",
    };

    public static string Of(Speaks speaks) => speaks switch
    {
        Speaks.For => "speaks for it",
        Speaks.Against => "speaks against it",
        _ => "settles nothing",
    };
}
