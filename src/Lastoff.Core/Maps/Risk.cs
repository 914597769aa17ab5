using System.Globalization;

namespace Lastoff.Core.Maps;

/// <summary>What may go wrong when something is undone, and what it then costs: a brittle clip that breaks, a rusted bolt that seizes.</summary>
/// <param name="Chance">How often it happens, from 0 (never) to 1 (always).</param>
/// <param name="Minutes">The typical minutes it then takes on top of the work.</param>
/// <param name="What">What happens, as the end of a sentence: "the clip breaks".</param>
public sealed record Risk(double Chance, double Minutes, string What)
{
    public const string Unnamed = "it gives trouble";

    /// <summary>The minutes it costs on average over many jobs.</summary>
    public double ExpectedMinutes => Chance * Minutes;

    /// <summary>The chance as people say it: "3 in 10", "1 in 50".</summary>
    public string Odds
    {
        get
        {
            var tenths = Math.Round(Chance * 10);
            var one = Math.Round(1 / Chance);
            return IsWhole(Chance * 10, tenths) ? Of(tenths, 10)
                : IsWhole(1 / Chance, one) ? Of(1, one)
                : Of(Math.Round(Chance * 100, 1), 100);
        }
    }

    private static bool IsWhole(double value, double whole) => whole > 0 && Math.Abs(value - whole) < 1e-9 * whole;

    private static string Of(double part, double whole) => string.Create(CultureInfo.InvariantCulture, $"{part:0.#} in {whole:0}");
}
