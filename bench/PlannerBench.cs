using System.Diagnostics;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Bench;

/// <summary>The planner beside a general solver on the same generated maps, in the same run, one thread each.</summary>
public static class PlannerBench
{
    private const double Limit = 10;

    /// <summary>As far as <c>lastoff plan --seconds</c> goes.</summary>
    private static readonly int States = PlanLimits.Far.States;

    private static readonly int[] Sizes = [20, 40, 80, 150, 300];

    public static int Run(int seeds)
    {
        Within(Limit, Trip(40, 999));
        Console.WriteLine("One thread each; out and back together; set-up of the search included, start of the program not. CP-SAT starts from the planner's plan at 10 s.");
        Console.WriteLine("s.u.: the gap as a share of the set-ups alone. MB: the process at its largest so far, before CP-SAT is loaded for that size.");
        Console.WriteLine($"{"map",4} {"seed",4} {"plan",4} {"first ms",8} {"proof ms",8} {"gap 1 s",8} {"gap 10 s",8} {"s.u. 10 s",9} {"MB",5}   {"CP-SAT proof ms",15} {"gap 10 s",8}   {"level 2 proof ms",16} {"gap 10 s",8}");
        foreach (var size in Sizes)
        {
            for (var seed = 1; seed <= seeds; seed++)
            {
                Row(size, seed);
            }
        }

        Console.WriteLine();
        Console.WriteLine("Extra work while it is open: every other part, with a part half way down as the goal; the strip's own plan not included.");
        Console.WriteLine($"{"map",4} {"seed",4} {"candidates",10} {"adding work",11} {"ms",6}");
        foreach (var size in new[] { 80, 300 })
        {
            for (var seed = 1; seed <= seeds; seed++)
            {
                ExtrasRow(size, seed);
            }
        }

        return 0;
    }

    /// <summary>The planner alone on maps of one size, by processor seconds: those are told apart also while the machine has other work.</summary>
    /// <param name="numbers">The size, the first and the last seed, and for how many processor seconds; ten unless told.</param>
    public static int RunOwn(IReadOnlyList<int> numbers)
    {
        double limit = numbers.ElementAtOrDefault(3) is > 0 and var seconds ? seconds : Limit;
        WithinProcessor(limit, Trip(40, 999));
        Console.WriteLine($"{"map",4} {"seed",4} {"plan",4} {"first ms",8} {"seconds",8} {"cost",8} {"bound",8} {"gap",8} {"MB",5}");
        for (var seed = numbers[1]; seed <= numbers[2]; seed++)
        {
            var trip = Trip(numbers[0], seed);
            var began = Process.GetCurrentProcess().TotalProcessorTime;
            FirstTrip.Of(trip);
            var first = Process.GetCurrentProcess().TotalProcessorTime - began;
            var (last, took) = WithinProcessor(limit, trip);
            Console.WriteLine($"{numbers[0],4} {seed,4} {last.Out.Count,4} {first.TotalMilliseconds,8:0} {took,8:0.000} {last.Cost,8} {last.LowerBound,8} "
                + $"{(last.Unproven is null ? "proven" : Gap(last.Cost, last.LowerBound)),8} {Process.GetCurrentProcess().PeakWorkingSet64 / 1_000_000,5}");
        }

        return 0;
    }

    private static (Trip Trip, double Seconds) WithinProcessor(double seconds, RoundTrip trip)
    {
        using var enough = new CancellationTokenSource();
        var began = Process.GetCurrentProcess().TotalProcessorTime;
        using var watch = new Timer(_ =>
        {
            if (Taken() > seconds)
            {
                enough.Cancel();
            }
        }, null, 20, 20);
        var found = TripSearch.Solve(trip, States, enough.Token, CancellationToken.None)!;
        return (found, Taken());

        double Taken() => (Process.GetCurrentProcess().TotalProcessorTime - began).TotalSeconds;
    }

    private static void ExtrasRow(int size, int seed)
    {
        var net = OperationNet.From(MapGenerator.Make(size, seed));
        var goal = Goal.Renewing(net.Map.Parts[net.Map.Parts.Count * 2 / 3].Id);
        var once = new PlanLimits(1);
        Extras.Of(net, goal, net.Nothing, once);
        var watch = Stopwatch.StartNew();
        Planner.Make(net, goal, net.Nothing, once);
        var planned = watch.Elapsed;
        watch.Restart();
        var extras = Extras.Of(net, goal, net.Nothing, once).Extras!;
        Console.WriteLine($"{size,4} {seed,4} {extras.Count,10} {extras.Count(extra => extra.MinutesInStrip > 0),11} {(watch.Elapsed - planned).TotalMilliseconds,6:0}");
    }

    private static void Row(int size, int seed)
    {
        var trip = Trip(size, seed);
        var watch = Stopwatch.StartNew();
        FirstTrip.Of(trip);
        var first = watch.Elapsed;
        var early = Within(1, trip);
        watch.Restart();
        var last = Within(Limit, trip);
        var proof = watch.Elapsed;
        var memory = Process.GetCurrentProcess().PeakWorkingSet64 / 1_000_000;
        var setUps = last.Out.Concat(last.Back).Sum(step => step.SetUp);
        Console.Write($"{size,4} {seed,4} {last.Out.Count,4} {first.TotalMilliseconds,8:0} {(last.Unproven is null ? $"{proof.TotalMilliseconds:0}" : "-"),8} "
            + $"{Gap(early.Cost, early.LowerBound),8} {Gap(last.Cost, last.LowerBound),8} {100.0 * (last.Cost - last.LowerBound) / setUps,7:0.0} % {memory,5}   ");
        foreach (var (parameters, width) in new[] { ("", 15), ("linearization_level:2", 16) })
        {
            var (cost, bound, proven, seconds) = CircuitModel.Solve(trip, last, Limit, parameters);
            Console.Write($"{(proven ? $"{1000 * seconds:0}" : "-").PadLeft(width)} {(cost is { } found ? Gap(found, bound) : "no plan"),8}   ");
            if (proven && cost != last.Cost && last.Unproven is null)
            {
                Console.Write($"DIFFERS: {cost} and {last.Cost}");
            }
        }

        Console.WriteLine();
    }

    /// <summary>From scratch, told after so long that it is enough.</summary>
    private static Trip Within(double seconds, RoundTrip trip)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(seconds));
        return TripSearch.Solve(trip, States, enough.Token, CancellationToken.None)!;
    }

    private static RoundTrip Trip(int size, int seed)
    {
        var map = MapGenerator.Make(size, seed);
        var net = OperationNet.From(map);
        return MapTrip.Of(net, [net.Nothing.With(net.Find(OperationKind.Off, MapGenerator.Goal(map)))], net.Nothing);
    }

    private static string Gap(long cost, long bound) => $"{100.0 * (cost - bound) / cost:0.00} %";
}
