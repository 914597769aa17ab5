using System.Globalization;

namespace Lastoff.Core.Joints;

public enum PassKind { Snug, Share, Angle, OnceRound }

/// <summary>One time over all bolts.</summary>
/// <param name="Share">Of the full torque; null for a snug or an angle pass.</param>
/// <param name="Angle_deg">The turn from where the bolt stands; null but for an angle pass.</param>
public sealed record Pass(PassKind Kind, double? Share, double? Angle_deg, IReadOnlyList<int> Order)
{
    /// <summary>What each bolt is set to; null for a pass without a torque, or where the full one is not known.</summary>
    public Torque? At(Torque? full) => Share is { } share && full is { } torque ? Torque.FromNewtonMetres(share * torque.NewtonMetres) : null;

    /// <summary>The pass in a word or two: snug, 50 %, 90°, once round.</summary>
    public string Short => Kind switch
    {
        PassKind.Snug => "snug",
        PassKind.Angle => string.Create(CultureInfo.InvariantCulture, $"{Angle_deg:0.#}°"),
        PassKind.OnceRound => "once round",
        _ => string.Create(CultureInfo.InvariantCulture, $"{100 * Share:0.#} %"),
    };

    public string Sentence => Kind switch
    {
        PassKind.Snug => "Start every fastener by hand, then snug all.",
        PassKind.Angle => string.Create(CultureInfo.InvariantCulture, $"Turn each by {Angle_deg:0.#}°."),
        PassKind.OnceRound => "Once round at the full torque, until none moves any more.",
        _ => string.Create(CultureInfo.InvariantCulture, $"Tighten each to {100 * Share:0.#} %."),
    };
}

/// <summary>The passes that bring a joint up evenly.</summary>
/// <remarks>
/// 30, 60 and 100 % crosswise and then round until no nut moves: ASME PCC-1 practice, read in three public guides to it; one of them uses 20, 40, 80 and
/// 100 % from 12 bolts on. Snug by hand first: common practice, no source.
/// </remarks>
public static class TighteningPasses
{
    public static IReadOnlyList<double> UsualShares { get; } = [0.3, 0.6, 1];

    /// <param name="shares">Of the full torque, rising to 1.</param>
    /// <param name="angles_deg">Turns after the full torque, of a maker's torque-and-angle stages; then no torque can be checked once round.</param>
    public static Answer<IReadOnlyList<Pass>> For(HolePattern pattern, IReadOnlyList<double> shares, IReadOnlyList<double> angles_deg)
    {
        if (shares.Count == 0 || shares[^1] != 1 || shares.Any(s => !(s > 0)) || shares.Zip(shares.Skip(1)).Any(p => p.First >= p.Second))
        {
            return Answer.None<IReadOnlyList<Pass>>("The shares of the passes rise to 100 %, as 30,60,100.");
        }

        if (angles_deg.Any(a => !(a is > 0 and <= 360)))
        {
            return Answer.None<IReadOnlyList<Pass>>(string.Create(CultureInfo.InvariantCulture, $"An angle stage of {angles_deg.First(a => !(a is > 0 and <= 360))}° is not a turn between 0° and 360°; look at the maker's stages."));
        }

        var order = TighteningOrder.Of(pattern);
        return Answer.Of<IReadOnlyList<Pass>>(
        [
            new Pass(PassKind.Snug, null, null, order),
            .. shares.Select(share => new Pass(PassKind.Share, share, null, order)),
            .. angles_deg.Select(angle => new Pass(PassKind.Angle, null, angle, order)),
            .. angles_deg.Count == 0 ? (Pass[])[new Pass(PassKind.OnceRound, 1, null, TighteningOrder.Round(pattern))] : [],
        ]);
    }
}
