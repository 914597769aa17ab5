using Lastoff.Core.Fluids;

namespace Lastoff.Bench;

/// <summary>What a hold leaked in truth.</summary>
public enum TrueLeak
{
    None,

    /// <summary>Drawn evenly, anew for each hold, from none up to twice the one that matters.</summary>
    Drawn,

    /// <summary>The one that matters.</summary>
    Matters,
}

/// <summary>How many holds ended how.</summary>
/// <param name="Leaking">Called leaking.</param>
/// <param name="Tight">Called tight.</param>
/// <param name="Covered">The 95 % interval of the first look held the truth.</param>
/// <param name="Minutes">Watched on average.</param>
public sealed record HoldCounts(int Runs, int Leaking, int Tight, int Covered, double Minutes);

/// <summary>
/// Simulated vacuum holds with a dial of 1 kPa, read every half minute: how often a tight system is called leaking, how often a leak is found, and whether
/// the interval covers the truth as often as it says. The needle starts anywhere within a division, each place as likely. Seeds are fixed, so a run repeats.
/// </summary>
public static class HoldCampaign
{
    private const double Litres = 8;
    private const double Division = 1000;
    private const double EverySeconds = 30;
    private const double FirstLookSeconds = 600;

    // It moves the needle 1.5 divisions in the first ten minutes.
    private const double Matters = Litres / 1000 * 1.5 * Division / FirstLookSeconds;

    /// <summary>Scatter of a reading before it is rounded, in divisions.</summary>
    public static IReadOnlyList<double> Scatters { get; } = [0.1, 0.2, 0.3, 0.5, 1];

    public static int Run(int runs)
    {
        Console.WriteLine($"{runs} holds for each figure, in percent. The leak that matters moves the needle 1.5 divisions in ten minutes; the drawn ones from none to 3.");
        Console.WriteLine($"{"",8} | {"none",-24} | {"drawn",6} | {"the one that matters",-30}");
        Console.WriteLine($"{"scatter",8} | {"leaking",7} {"tight",7} {"covers",8} | {"covers",6} | {"leaking",7} {"tight",7} {"covers",8} | minutes watched");
        foreach (var scatter in Scatters)
        {
            var none = Count(scatter, TrueLeak.None, runs);
            var drawn = Count(scatter, TrueLeak.Drawn, runs);
            var matters = Count(scatter, TrueLeak.Matters, runs);
            string Percent(int count) => $"{100.0 * count / runs:0.00}";
            Console.WriteLine($"{scatter,8} | {Percent(none.Leaking),7} {Percent(none.Tight),7} {Percent(none.Covered),8} | {Percent(drawn.Covered),6} | "
                + $"{Percent(matters.Leaking),7} {Percent(matters.Tight),7} {Percent(matters.Covered),8} | {none.Minutes:0} and {matters.Minutes:0}");
        }

        return 0;
    }

    public static HoldCounts Count(double scatter, TrueLeak leak, int runs)
    {
        var results = new (HoldVerdict Verdict, bool Covered, double Seconds)[runs];
        // Left alone, the pool starts ever more threads for such long runs, and the machine does nothing else any more.
        var threads = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount };
        Parallel.For(0, runs, threads, run => results[run] = Hold(new Random((run * 7919) + (int)(scatter * 100) + ((int)leak * 104_729)), scatter, leak));
        return new HoldCounts(
            runs,
            results.Count(result => result.Verdict == HoldVerdict.Leaking),
            results.Count(result => result.Verdict == HoldVerdict.Tight),
            results.Count(result => result.Covered),
            results.Average(result => result.Seconds) / 60);
    }

    /// <summary>A draw from the standard normal distribution (Box and Muller).</summary>
    public static double Noise(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    // A mechanic looks after ten minutes and, if told to, watches that much longer and looks again, once. Coverage is that of the first look: stopping when
    // sure is a choice that would bias it.
    private static (HoldVerdict Verdict, bool Covered, double Seconds) Hold(Random random, double scatter, TrueLeak leak)
    {
        var throughput = leak switch { TrueLeak.None => 0, TrueLeak.Drawn => 2 * Matters * random.NextDouble(), _ => Matters };
        var start = 16_500 + (Division * random.NextDouble());
        var readings = new List<HoldReading>();
        HoldTest Look(double until)
        {
            for (var second = readings.Count * EverySeconds; second <= until; second += EverySeconds)
            {
                var pascals = start + (throughput / (Litres / 1000) * second) + (scatter * Division * Noise(random));
                readings.Add(new HoldReading(second, Pressure.FromPascals(Math.Round(pascals / Division) * Division), Temperature.FromCelsius(20)));
            }

            return HoldTest.Of(
                new HoldReadings(HoldKind.Vacuum, readings, Division, TemperatureUncertain: 0.05, []),
                new HoldSettings(Litres, Atmosphere.SeaLevel, Pressure.FromPascals(Division), null, LeakRate.FromThroughput(Matters, Temperature.FromCelsius(20)))).Value!;
        }

        var first = Look(FirstLookSeconds);
        var covered = first.Interval.Low <= throughput && throughput <= first.Interval.High;
        if (first.Verdict != HoldVerdict.CannotTellYet)
        {
            return (first.Verdict, covered, first.WatchedSeconds);
        }

        var second = Look(first.WatchedSeconds + first.WatchLongerSeconds);
        return (second.Verdict, covered, second.WatchedSeconds);
    }
}
