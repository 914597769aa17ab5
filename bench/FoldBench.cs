using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>How quickly a ledger becomes a standing, and a line an entry.</summary>
public static class FoldBench
{
    public static int Run(string repository)
    {
        var net = OperationNet.From(MapReader.Read(File.ReadAllText(Path.Combine(repository, "demo", "orchard-sprayer-pump.map.yaml")), "map").Map!);
        var device = new SimulatedDevice("bench", new HttpClient(), new Random(5));
        var id = device.Open(net);
        for (var entry = 0; entry < 4000; entry++)
        {
            device.Write();
        }

        var entries = device.On(id).Entries;
        // By the processor's clock: who else the machine works for does not count. The first times are those of a program that has just started, and is still being compiled.
        const int Times = 100;
        var cold = Environment.CpuUsage.TotalTime;
        Fold.Of(net, entries);
        Console.WriteLine($"{entries.Count / (Environment.CpuUsage.TotalTime - cold).TotalSeconds:n0} entries a second of processor time the first time");
        for (var warm = 0; warm < 3 * Times; warm++)
        {
            Fold.Of(net, entries);
        }

        var start = Environment.CpuUsage.TotalTime;
        for (var time = 0; time < Times; time++)
        {
            Fold.Of(net, entries);
        }

        Console.WriteLine($"{Times * entries.Count / (Environment.CpuUsage.TotalTime - start).TotalSeconds:n0} entries a second of processor time, a ledger of {entries.Count} moves and notes over and over");
        start = Environment.CpuUsage.TotalTime;
        for (var time = 0; time < Times; time++)
        {
            foreach (var entry in entries)
            {
                SimulatedDevice.Read(entry.Line);
            }
        }

        Console.WriteLine($"{Times * entries.Count / (Environment.CpuUsage.TotalTime - start).TotalSeconds:n0} lines a second of processor time read, with their seals looked at");
        return 0;
    }
}
