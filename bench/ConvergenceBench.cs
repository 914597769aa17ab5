using System.Diagnostics;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>Many random histories, half of them on generated maps, half on the demo machines; prints what they came to.</summary>
public static class ConvergenceBench
{
    public static int Run(int histories)
    {
        var demos = Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "demo"), "*.map.yaml").Order(StringComparer.Ordinal)
            .Select(file => MapReader.Read(File.ReadAllText(file), file).Map!).ToList();
        var watch = Stopwatch.StartNew();
        var (disagreements, entries, questions, asked) = (0, 0L, 0L, 0);
        for (var seed = 1; seed <= histories; seed++)
        {
            var map = seed % 2 == 0 ? demos[seed / 2 % demos.Count] : MapGenerator.Make(8 + seed % 30, seed);
            var (fault, written, open) = Convergence.Run(map, seed);
            entries += written;
            questions += open;
            asked += open > 0 ? 1 : 0;
            if (fault is not null)
            {
                disagreements++;
                Console.WriteLine($"seed {seed}: {fault}");
            }
        }

        Console.WriteLine($"{histories} histories, {entries} entries, {asked} histories with questions ({questions} in all), {disagreements} disagreements, {watch.Elapsed.TotalSeconds:0} s");
        return disagreements == 0 ? 0 : 1;
    }
}
