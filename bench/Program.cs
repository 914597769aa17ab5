using System.Diagnostics;
using System.Globalization;
using Lastoff.Bench;
using Lastoff.Core.Planning;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
return args switch
{
    ["sop", .. { Length: > 0 } files] => Sop(files),
    ["planner"] => PlannerBench.Run(seeds: 3),
    ["planner", var seeds] when int.TryParse(seeds, CultureInfo.InvariantCulture, out var count) && count > 0 => PlannerBench.Run(count),
    ["own", .. { Length: 3 or 4 } numbers] when numbers.All(number => int.TryParse(number, CultureInfo.InvariantCulture, out var value) && value > 0) =>
        PlannerBench.RunOwn([.. numbers.Select(number => int.Parse(number, CultureInfo.InvariantCulture))]),
    ["hands"] => HandsBench.Run(seeds: 3),
    ["hands", var seeds] when int.TryParse(seeds, CultureInfo.InvariantCulture, out var count) && count > 0 => HandsBench.Run(count),
    ["convergence", var histories] when int.TryParse(histories, CultureInfo.InvariantCulture, out var count) && count > 0 => ConvergenceBench.Run(count),
    ["crash", "sqlite", var kills] when int.TryParse(kills, CultureInfo.InvariantCulture, out var count) && count > 0 => await CrashBench.SqliteAsync(Built.Repository, count),
    ["crash", "postgres", var kills] when int.TryParse(kills, CultureInfo.InvariantCulture, out var count) && count > 0 => await CrashBench.PostgresAsync(Built.Repository, count),
    ["fuzz", var inputs] when int.TryParse(inputs, CultureInfo.InvariantCulture, out var count) && count > 4 => await FuzzBench.RunAsync(Built.Repository, count),
    ["fold"] => FoldBench.Run(Built.Repository),
    ["load"] => await LoadBench.RunAsync(Built.Repository),
    ["phones"] => await PhoneBench.RunAsync(Built.Repository),
    ["browser"] => await LongTests.InTheBrowserAsync(Built.Repository),
    ["properties"] => await LongTests.PropertiesAsync(Built.Repository),
    ["app"] => await AppBench.RunAsync(Built.Repository),
    ["hold"] => HoldCampaign.Run(runs: 1000),
    ["hold", var runs] when int.TryParse(runs, CultureInfo.InvariantCulture, out var count) && count > 0 => HoldCampaign.Run(count),
    ["learn"] => LearnBench.Run(seeds: 100),
    ["learn", var seeds] when int.TryParse(seeds, CultureInfo.InvariantCulture, out var count) && count > 0 => LearnBench.Run(count),
    ["times"] => TimesCampaign.Run(workshops: 1000),
    ["times", var workshops] when int.TryParse(workshops, CultureInfo.InvariantCulture, out var count) && count > 0 => TimesCampaign.Run(count),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("dotnet run --project bench -c Release -- sop FILE...   solves sequential ordering problems of TSPLIB95");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- planner [SEEDS]   plans generated maps beside a general solver; three seeds of each size unless told");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- own SIZE FIRST LAST [SECONDS]   plans the maps of one size by seeds FIRST to LAST, without the general solver, in processor seconds");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- hands [SEEDS]   plans generated maps for two people; three seeds of each size unless told");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- convergence HISTORIES   random jobs on several devices that must all end in one standing");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- crash sqlite|postgres KILLS   kills the server, fills its disk or stops its database under load, and counts");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- fold   entries a second from a ledger to its standing");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- load   entries a second into a store, against raw inserts");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- phones   300 phones on one server, and how soon a job of a large workshop opens");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- app   what the published app costs a phone: bytes, starts, taps, memory");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- browser   the browser tests that ./test runs a short version of: a whole job by thumb, and killed tabs");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- properties   the costly properties that ./test tries on few random cases, on ten times as many");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- fuzz INPUTS   broken maps, ledgers and requests; none may be answered with anything but a sentence");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- hold [RUNS]   judges simulated vacuum holds; a thousand of each kind unless told");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- learn [SEEDS]   learns maps from random strips of known ones and compares; a hundred seeds unless told");
    Console.Error.WriteLine("dotnet run --project bench -c Release -- times [WORKSHOPS]   learns times in simulated workshops and counts the jobs within P50 and P90; a thousand unless told");
    return 2;
}

static int Sop(IReadOnlyList<string> files)
{
    Console.WriteLine($"{"file",-14} {"best",10} {"bound",10} {"proven",7} {"seconds",9}");
    foreach (var file in files)
    {
        if (!File.Exists(file))
        {
            Console.Error.WriteLine($"There is no file {file}; give the path of a .sop file.");
            return 2;
        }

        var watch = Stopwatch.StartNew();
        var trip = TripSearch.Solve(SopFile.Read(file), SopFile.States)!;
        Console.WriteLine($"{Path.GetFileNameWithoutExtension(file),-14} {trip.Cost,10} {trip.LowerBound,10} {(trip.Unproven is null ? "yes" : "no"),7} {watch.Elapsed.TotalSeconds,9:0.000}");
    }

    return 0;
}
