using System.Diagnostics;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Bench;

/// <summary>Two people on generated maps: how soon they are through, how far that is proven, and what it takes to find out.</summary>
public static class HandsBench
{
    private static readonly int[] Sizes = [20, 40, 80];

    public static int Run(int seeds)
    {
        Console.WriteLine($"One thread. Minutes out and back together; the search keeps at most {PlanLimits.Usual.States} states, for one person and again for two.");
        Console.WriteLine($"{"map",4} {"seed",4} {"plan",4} {"one person",10} {"two people",10} {"saved",6} {"bound",8} {"gap",7} {"seconds",8} {"quick gap",9} {"seconds",8}");
        Solve(Problem(20, 999), PlanLimits.Usual.States);
        foreach (var size in Sizes)
        {
            for (var seed = 1; seed <= seeds; seed++)
            {
                var problem = Problem(size, seed);
                var (quick, quickSeconds) = Solve(problem, 1);
                var (plan, seconds) = Solve(problem, PlanLimits.Usual.States);
                Console.WriteLine($"{size,4} {seed,4} {plan.Out.Count,4} {Minutes(plan.OnePerson),10} {Minutes(plan.Makespan),10} {100.0 * (plan.OnePerson - plan.Makespan) / plan.OnePerson,4:0} % "
                    + $"{Minutes(plan.LowerBound),8} {Gap(plan),7} {seconds,8:0.00} {Gap(quick),9} {quickSeconds,8:0.00}");
            }
        }

        return 0;
    }

    private static (HandsSchedule Plan, double Seconds) Solve(HandsProblem problem, int states)
    {
        var watch = Stopwatch.StartNew();
        return (HandsSearch.Solve(problem, states)!, watch.Elapsed.TotalSeconds);
    }

    private static HandsProblem Problem(int size, int seed)
    {
        var map = MapGenerator.Make(size, seed);
        var net = OperationNet.From(map);
        return MapHands.Of(net, MapTrip.Of(net, [net.Nothing.With(net.Find(OperationKind.Off, MapGenerator.Goal(map)))], net.Nothing));
    }

    private static string Minutes(long ticks) => $"{ticks / MapTrip.TicksPerMinute:0.0}";

    private static string Gap(HandsSchedule plan) => plan.Unproven is null ? "proven" : $"{100.0 * (plan.Makespan - plan.LowerBound) / plan.Makespan:0.0} %";
}
