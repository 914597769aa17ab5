using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>Reads the passes of a joint as a map or a mechanic writes them: snug, 50 %, 100 %, 90 deg, round.</summary>
public static class PassReader
{
    /// <param name="order">Every bolt, by place, in the order to tighten.</param>
    /// <param name="round">The same bolts in the order of the last round.</param>
    public static Answer<IReadOnlyList<Pass>> Read(IReadOnlyList<string> words, IReadOnlyList<int> order, IReadOnlyList<int> round)
    {
        var passes = new List<Pass>();
        foreach (var word in words)
        {
            if (Of(word, order, round) is not { } pass)
            {
                return Answer.None<IReadOnlyList<Pass>>($"“{word}” is not a pass; write snug, a share of the torque as 50 %, a turn as 90 deg, or round.");
            }

            passes.Add(pass);
        }

        return Fault(passes) is { } fault ? Answer.None<IReadOnlyList<Pass>>(fault) : Answer.Of<IReadOnlyList<Pass>>(passes);
    }

    private static Pass? Of(string word, IReadOnlyList<int> order, IReadOnlyList<int> round) => word.Trim() switch
    {
        "snug" => new Pass(PassKind.Snug, null, null, order),
        "round" => new Pass(PassKind.OnceRound, 1, null, round),
        _ when NumberWithUnit.TrySplit(word, out var number, out var unit) => unit switch
        {
            "%" => new Pass(PassKind.Share, number / 100, null, order),
            "deg" or "°" => new Pass(PassKind.Angle, null, number, order),
            _ => null,
        },
        _ => null,
    };

    private static string? Fault(List<Pass> passes)
    {
        var shares = passes.Where(p => p.Kind == PassKind.Share).Select(p => p.Share!.Value).ToList();
        return passes.Count == 0 ? "The list of passes is empty; name at least one, or take it out."
            : !passes.Zip(passes.Skip(1)).All(pair => pair.First.Kind <= pair.Second.Kind) || passes.Count(p => p.Kind == PassKind.Snug) > 1 || passes.Count(p => p.Kind == PassKind.OnceRound) > 1
                ? "The passes come in this order: snug, shares of the torque, turns, and round once at the end."
            : shares.Count > 0 && (shares[^1] != 1 || shares[0] <= 0 || shares.Zip(shares.Skip(1)).Any(pair => pair.First >= pair.Second)) ? "The shares of the passes rise to 100 %, as 50 %, 100 %."
            : passes.FirstOrDefault(p => p.Kind == PassKind.Angle && !(p.Angle_deg is > 0 and <= 360)) is { } turn
                ? string.Create(CultureInfo.InvariantCulture, $"A turn of {turn.Angle_deg}° is not between 0° and 360°; look at the maker's stages.")
            : passes[^1].Kind == PassKind.OnceRound && (shares.Count == 0 || passes.Exists(p => p.Kind == PassKind.Angle)) ? "A last round is made at the full torque: it needs a pass of 100 %, and after a turn no torque can be checked."
            : shares.Count == 0 && !passes.Exists(p => p.Kind == PassKind.Angle) ? "The passes never reach the full torque; end them with 100 % or with a turn."
            : null;
    }
}
