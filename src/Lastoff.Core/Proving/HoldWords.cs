using System.Globalization;
using Lastoff.Core.Fluids;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Proving;

/// <summary>A hold in sentences, the same on the screen, in the record and on the command line.</summary>
public static class HoldWords
{
    // What is watched for less says next to nothing of how long it takes.
    private const double ShortestWatch = 120;
    // Smaller ones have more noughts than anybody counts.
    private const double LeastWrittenOut = 0.01;

    /// <summary>In a word or three.</summary>
    public static string Verdict(HoldTest test) => test.Verdict switch
    {
        HoldVerdict.Tight => "Tight",
        HoldVerdict.Leaking => "Leaking",
        _ => "Cannot tell yet",
    };

    /// <summary>What that means, as the end of a sentence.</summary>
    public static string Meaning(HoldTest test) => test.Verdict switch
    {
        HoldVerdict.Tight => $"a leak of {Leak(test.AllowedThroughput)} is ruled out",
        HoldVerdict.Leaking => $"{(test.Kind == HoldKind.Vacuum ? "gas comes in" : "gas goes out")}, and that it holds is ruled out",
        _ when test.WatchedSeconds < ShortestWatch => "go on reading, every half minute or so; after two minutes this can say how much longer",
        _ => $"watch {Minutes(test.WatchLongerSeconds)} longer, reading as often, to tell a leak of {Leak(test.AllowedThroughput)} from none",
    };

    public static string Figure(HoldTest test) =>
        $"Leak {Leak(test.Throughput)} at {test.MeanTemperature}, with 95 % confidence between {Leak(test.Interval.Low)} and {Leak(test.Interval.High)}.";

    public static string InDrops(HoldTest test) =>
        $"As hot coolant under a 100 kPa cap: {test.Loss}; not ruled out: {test.LossStillPossible}. An order of magnitude only.";

    public static string Leak(double throughput) => throughput == 0 ? "none"
        : Math.Abs(throughput) >= LeastWrittenOut ? string.Create(CultureInfo.InvariantCulture, $"{throughput:0.000} Pa·m3/s")
        : string.Create(CultureInfo.InvariantCulture, $"{throughput:0.0e0} Pa·m3/s");

    public static string Minutes(double seconds) => MinuteWords.Of(Math.Ceiling(seconds / 6) / 10);
}
