using System.Diagnostics;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>How far a map learned from strips is the one they were drawn from.</summary>
public static class LearnBench
{
    private static readonly int[] Strips = [1, 2, 4, 8, 16, 64];

    public static int Run(int seeds)
    {
        var van = MapReader.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo", "light-van.map.yaml")), "light-van.map.yaml").Map!;
        var vanNet = OperationNet.From(van);
        Table($"light van, transfer pipe, {seeds} seeds", seeds, _ => (vanNet, "transfer-pipe"));
        Table($"generated maps of 80 operations, {seeds} seeds", seeds, seed =>
        {
            var map = MapGenerator.Make(80, seed);
            return (OperationNet.From(map), MapGenerator.Goal(map));
        });
        return 0;
    }

    private static void Table(string title, int seeds, Func<int, (OperationNet Net, string Goal)> job)
    {
        Console.WriteLine(title);
        Console.WriteLine($"{"strips",6} {"recall",7} {"precis.",7} {"forbidden",9} {"allowed",8} {"legal",7} {"plan",6} {"or named",8} {"waits",6} {"doubt",6} {"sure true",9} {"doubted: said",13} {"true",6} {"s",5}");
        foreach (var strips in Strips)
        {
            var watch = Stopwatch.StartNew();
            List<LearnResult> results = [.. Enumerable.Range(1, seeds).Select(seed => job(seed) is var (net, goal) ? LearnCampaign.Once(net, goal, strips, seed) : null!)];
            List<(double Sure, bool IsTrue)> waits = [.. results.SelectMany(r => r.Waits)];
            List<(double Sure, bool IsTrue)> doubted = [.. waits.Where(w => w.Sure < Core.Learning.Wait.SureEnough)];
            List<(double Sure, bool IsTrue)> sure = [.. waits.Where(w => w.Sure >= Core.Learning.Wait.SureEnough)];
            Console.WriteLine(
                $"{strips,6} {Percent(results.Sum(r => r.Both), results.Sum(r => r.True)),7} {Percent(results.Sum(r => r.Both), results.Sum(r => r.Learned)),7} {results.Sum(r => r.Forbidden),9} "
                + $"{Percent(results.Sum(r => r.NewAllowed), results.Sum(r => r.Fresh)),8} {Percent(results.Sum(r => r.DrawnLegal), results.Sum(r => r.Fresh)),7} {Percent(results.Count(r => r.PlanLegal), seeds),6} "
                + $"{Percent(results.Count(r => r.PlanLegal || r.DoubtNamed), seeds),8} {(double)waits.Count / seeds,6:0.0} {(double)doubted.Count / seeds,6:0.0} {Percent(sure.Count(w => w.IsTrue), sure.Count),9} "
                + $"{(doubted.Count > 0 ? $"{100 * doubted.Average(w => w.Sure):0.0}" : "-"),13} {Percent(doubted.Count(w => w.IsTrue), doubted.Count),6} {watch.Elapsed.TotalSeconds / seeds,5:0.00}");
        }
    }

    private static string Percent(int part, int of) => of == 0 ? "-" : $"{100.0 * part / of:0.0}";
}
