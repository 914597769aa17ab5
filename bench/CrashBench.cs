namespace Lastoff.Bench;

/// <summary>The long crash campaign: see <see cref="CrashCampaign"/>. Prints the table that stands in docs/methods/ledger.md.</summary>
public static class CrashBench
{
    private const int Seed = 20261126;
    private const int Takings = 20;

    public static async Task<int> SqliteAsync(string repository, int kills)
    {
        var folder = Directory.CreateTempSubdirectory("lastoff-crash-").FullName;
        Console.WriteLine(CrashResult.Heading);
        await using var killed = new ServerProcess(Built.Lastoff, "--data", Path.Combine(folder, "killed"));
        var isSound = Tell("SQLite, server killed", await Campaign(killed, repository).KillAsync(kills));

        using var disk = SmallDisk.Make();
        await using var full = disk.Serve(Built.Lastoff);
        isSound &= Tell("SQLite, disk full", await Campaign(full, repository).TakeAwayAsync(Takings, _ => disk.Fill(), disk.Free));
        await killed.KillAsync();
        Directory.Delete(folder, recursive: true);
        return isSound ? 0 : 1;
    }

    public static async Task<int> PostgresAsync(string repository, int kills)
    {
        using var cluster = PostgresCluster.Start(repository);
        Console.WriteLine(CrashResult.Heading);
        await using var killed = new ServerProcess(Built.Lastoff, "--postgres", cluster.Connection, "--workshop", "killed");
        var isSound = Tell("PostgreSQL, server killed", await Campaign(killed, repository).KillAsync(kills));
        await killed.KillAsync();

        await using var stopped = new ServerProcess(Built.Lastoff, "--postgres", cluster.Connection, "--workshop", "stopped");
        isSound &= Tell("PostgreSQL, database stopped", await Campaign(stopped, repository).TakeAwayAsync(Takings, time => cluster.Stop(atOnce: time % 2 == 0), cluster.StartAgain));
        return isSound ? 0 : 1;
    }

    private static CrashCampaign Campaign(ServerProcess server, string repository) =>
        new(server, File.ReadAllText(Path.Combine(repository, "demo", "orchard-sprayer-pump.map.yaml")), Seed);

    private static bool Tell(string blow, CrashResult result)
    {
        Console.WriteLine(result.Row(blow));
        foreach (var wrong in result.Wrong.Take(5))
        {
            Console.Error.WriteLine(wrong);
        }

        return result.IsSound;
    }
}
