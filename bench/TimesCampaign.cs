using Lastoff.Core.Estimating;

namespace Lastoff.Bench;

/// <summary>Simulated workshops: how often a job stays within what was said of it.</summary>
public static class TimesCampaign
{
    private const int JobLength = 60;

    /// <summary>One workshop that has done so many jobs, and one job more.</summary>
    /// <returns>Whether the new job stayed within P50, and within P90.</returns>
    public static (bool WithinP50, bool WithinP90) Once(int jobsBefore, int seed)
    {
        var random = new Random(seed);
        var common = 0.3 * HoldCampaign.Noise(random);
        var scatter = 0.35 + (0.2 * random.NextDouble());
        var offsets = new Dictionary<(Trait, string), double>();
        List<TimedWork> timed = [.. Enumerable.Range(1, jobsBefore).SelectMany(job => Job(job, timedShare: 0.7))];
        var next = Job(jobsBefore + 1, timedShare: 1).ToList();
        var said = new WorkTimes(timed).Of([.. next.Select(t => t.Work)]);
        var took = next.Sum(t => t.Minutes);
        return (took <= said.P50, took <= said.P90);

        IEnumerable<TimedWork> Job(int job, double timedShare)
        {
            var person = $"person {random.Next(3)}";
            for (var i = 0; i < JobLength; i++)
            {
                var work = new Work(0.3 + (4 * random.NextDouble() * random.NextDouble()), new Dictionary<Trait, string>
                {
                    [Trait.Kind] = $"kind {random.Next(8)}",
                    [Trait.Size] = $"size {random.Next(4)}",
                    [Trait.Reach] = $"reach {random.Next(3)}",
                    [Trait.Person] = person,
                    [Trait.Job] = $"job {job}",
                });
                var minutes = work.TradeMinutes * Math.Exp(common + work.Traits.Sum(trait => Offset(trait.Key, trait.Value)) + (scatter * HoldCampaign.Noise(random)));
                if (random.NextDouble() < timedShare)
                {
                    yield return new TimedWork(work, minutes);
                }
            }
        }

        double Offset(Trait trait, string name) =>
            offsets.TryGetValue((trait, name), out var known) ? known : offsets[(trait, name)] = (trait == Trait.Job ? 0.12 : 0.2) * HoldCampaign.Noise(random);
    }

    public static int Run(int workshops)
    {
        Console.WriteLine($"{workshops} simulated workshops for each figure; a job of {JobLength} pieces of work; percent of jobs within what was said");
        Console.WriteLine($"{"jobs before",11} {"P50",6} {"P90",6}");
        foreach (var before in new[] { 0, 1, 3, 10, 30 })
        {
            List<(bool P50, bool P90)> all = [.. Enumerable.Range(1, workshops).Select(seed => Once(before, seed))];
            Console.WriteLine($"{before,11} {100.0 * all.Count(x => x.P50) / workshops,6:0.0} {100.0 * all.Count(x => x.P90) / workshops,6:0.0}");
        }

        return 0;
    }
}
