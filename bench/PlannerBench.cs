using System.Diagnostics;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Bench;

/// <summary>The planner beside a general solver on the same generated maps, in the same run, one thread each.</summary>
public static class PlannerBench
{
    private const double Limit = 10;

    /// <summary>Each from scratch, so that what is found within a second includes all that was spent on the way; the last is told when it is enough.</summary>
    private static readonly int[] States = [4000, 30_000, 250_000, 2_500_000];

    private static readonly int[] Sizes = [20, 40, 80, 150, 300];

    public static int Run(int seeds)
    {
        Measure(Trip(40, 999), []);
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
        var runs = new List<(double Seconds, Trip Trip)>();
        var first = Measure(trip, runs);
        var memory = Process.GetCurrentProcess().PeakWorkingSet64 / 1_000_000;
        var last = runs[^1].Trip;
        var early = runs.LastOrDefault(run => run.Seconds <= 1);
        var setUps = last.Out.Concat(last.Back).Sum(step => step.SetUp);
        Console.Write($"{size,4} {seed,4} {last.Out.Count,4} {1000 * first,8:0} {(last.Unproven is null ? $"{1000 * runs[^1].Seconds:0}" : "-"),8} "
            + $"{(early.Trip is null ? "none" : Gap(early.Trip.Cost, early.Trip.LowerBound)),8} {Gap(last.Cost, last.LowerBound),8} {100.0 * (last.Cost - last.LowerBound) / setUps,7:0.0} % {memory,5}   ");
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

    /// <summary>A first trip, and then runs with growing limits until a proof or the end of the time; returns the seconds to the first.</summary>
    private static double Measure(RoundTrip trip, List<(double Seconds, Trip Trip)> runs)
    {
        var watch = Stopwatch.StartNew();
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(Limit));
        runs.Add((0, FirstTrip.Of(trip)!));
        runs[0] = runs[0] with { Seconds = watch.Elapsed.TotalSeconds };
        foreach (var states in States)
        {
            if (runs[^1].Trip.Unproven is not null && !enough.IsCancellationRequested)
            {
                var found = TripSearch.Solve(trip, states, enough.Token, CancellationToken.None)!;
                var best = found.Cost <= runs[^1].Trip.Cost ? found : runs[^1].Trip;
                var bound = Math.Max(found.LowerBound, runs[^1].Trip.LowerBound);
                runs.Add((watch.Elapsed.TotalSeconds, best with { LowerBound = bound, Unproven = bound == best.Cost ? null : best.Unproven ?? found.Unproven }));
            }
        }

        return runs[0].Seconds;
    }

    private static RoundTrip Trip(int size, int seed)
    {
        var map = MapGenerator.Make(size, seed);
        var net = OperationNet.From(map);
        return MapTrip.Of(net, [net.Nothing.With(net.Find(OperationKind.Off, MapGenerator.Goal(map)))], net.Nothing);
    }

    private static string Gap(long cost, long bound) => $"{100.0 * (cost - bound) / cost:0.00} %";
}
