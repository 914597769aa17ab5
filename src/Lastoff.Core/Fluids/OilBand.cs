namespace Lastoff.Core.Fluids;

/// <summary>What an oil analysis figure for coolant suggests, as a band between published screening figures; never a limit.</summary>
/// <param name="Name">In a word or two.</param>
/// <param name="Sentence">What it says and what to do.</param>
public sealed record OilBand(string Name, string Sentence)
{
    /// <summary>
    /// Water in engine oil. Published figures disagree: action from 500 ppm (an oil maker's engineer in a trade magazine, 2020), allowable up to 0.1 %
    /// (a laboratory's public list), 0.2 % said to halve bearing life.
    /// </summary>
    public static OilBand OfWater(double ppm) => ppm switch
    {
        < 500 => new("low", "Below the figures at which laboratories begin to act (500 to 1000 ppm); look again after the next run."),
        <= 1000 => new("between", "Between published figures: some act from 500 ppm, others allow 1000 ppm; condensation from short trips reads like this too, so look again after a hot run."),
        < 2000 => new("raised", "Above every published allowance; look for the way in, change oil and filter and sample again."),
        _ => new("high", "At 2000 ppm (0.2 %) bearings are said to last half as long; do not run the engine until the way in is found."),
    };

    /// <summary>Glycol in engine oil. A laboratory's public list wants none found and calls 0.5 % very bad.</summary>
    public static OilBand OfGlycol(double ppm) => ppm switch
    {
        <= 0 => new("none found", "None was found, as it should be; water boils off in use and glycol does not, so this is the better sign of the two."),
        < 5000 => new("found", "Any glycol means coolant got in; find the way in, change oil and filter, and sample again after a short run."),
        _ => new("high", "From 0.5 % glycol is called very bad: it thickens oil and starves bearings; do not run the engine until oil and filter are changed and the way in is found."),
    };
}
