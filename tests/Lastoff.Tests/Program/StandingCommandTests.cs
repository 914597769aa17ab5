using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Program;

/// <summary><c>lastoff standing</c> for jobs without a map, and for one whose map's file was edited since.</summary>
public class StandingCommandTests
{
    [Fact]
    public async Task A_job_without_a_map_stands_on_its_ledger_alone()
    {
        var ran = await LastoffProgram.Run("standing", LastoffProgram.Demo("spray-pump-1.recording.jsonl"));
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("Nothing is open.", ran.Output);
        Assert.Contains("Handed over to An invented owner.", ran.Output);
    }

    [Fact]
    public async Task A_map_too_many_or_one_too_few_is_said_in_a_sentence()
    {
        var tooMany = await LastoffProgram.Run("standing", LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), LastoffProgram.Demo("spray-pump-1.recording.jsonl"));
        Assert.Equal(2, tooMany.ExitCode);
        Assert.Contains("opened without a map; leave the map out", tooMany.Error);
        var tooFew = await LastoffProgram.Run("standing", LastoffProgram.Demo("orchard-sprayer-pump.ledger.jsonl"));
        Assert.Equal(2, tooFew.ExitCode);
        Assert.Contains("name the map's file before the ledger", tooFew.Error);
    }

    [Fact]
    public async Task Another_text_of_the_map_than_the_job_stands_on_is_told_and_the_standing_given_all_the_same()
    {
        using var folder = new TemporaryFolder();
        var (map, ledger) = (folder.In("orchard-sprayer-pump.map.yaml"), folder.In("job.jsonl"));
        var yaml = await File.ReadAllTextAsync(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), TestContext.Current.CancellationToken);
        var opened = new JobOpened("orchard-sprayer-pump", "An invented sprayer", "It drips", "A seal", ["upper-diaphragm"], []) { MapSha256 = Entry.Sha256(yaml) };
        var entry = Job.From(OperationNet.From(MapReader.Read(yaml, map).Map!), []).Decide(opened, new Pen("one", "Somebody", DateTimeOffset.UnixEpoch, new byte[10])).Entry!;
        await File.WriteAllTextAsync(ledger, LedgerFile.Write([entry]), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(map, yaml, TestContext.Current.CancellationToken);
        Assert.Equal("", (await LastoffProgram.Run("standing", map, ledger)).Error);

        await File.WriteAllTextAsync(map, yaml + "# edited\n", TestContext.Current.CancellationToken);
        var ran = await LastoffProgram.Run("standing", map, ledger);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("another text of the map", Assert.Single(ran.Error.TrimEnd().Split('\n')));
        Assert.Contains("An invented sprayer", ran.Output);
    }
}
