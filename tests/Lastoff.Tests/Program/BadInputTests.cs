using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Program;

/// <summary>What a user can get wrong: each one clear sentence on standard error, exit code 2, no stack trace, and the file left as it was.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lastoff-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("count: 3", "count: -3", "count")]
    [InlineData("holds: [upper-head]", "holds: [uper-head]", "upper-head")]
    [InlineData("name: orchard-sprayer-pump", "name: [orchard", "line 4")]
    [InlineData("", "", "empty")]
    public async Task A_faulty_map(string sound, string faulty, string names)
    {
        var text = await File.ReadAllTextAsync(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), TestContext.Current.CancellationToken);
        text = sound.Length == 0 ? "" : text.Replace(sound, faulty);
        var path = Write("faulty.map.yaml", text);
        var check = await LastoffProgram.Run("check", path);
        Assert.Equal(2, check.ExitCode);
        Assert.All(check.Error.TrimEnd().Split('\n'), fault => Assert.StartsWith(path + ", line ", fault));
        await IsRefused(path, names, "plan", path, "--off", "upper-diaphragm");
        Assert.Equal(text, await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_map_with_a_cycle_has_it_spelled_out()
    {
        var path = Write("cycle.map.yaml", """
            format: 1
            name: cycle
            title: Two covers, each under the other
            invented: true
            parts:
              - {id: upper, name: Upper cover, reach: [lower]}
              - {id: lower, name: Lower cover, reach: [upper]}
            joints:
              - {id: upper-screws, name: Upper screws, kind: screw, count: 2, holds: [upper]}
              - {id: lower-screws, name: Lower screws, kind: screw, count: 2, holds: [lower]}
            """);
        var ran = await IsRefused(path, "circle", "check", path);
        Assert.Contains("upper waits for lower (line 7)", ran.Error);
        Assert.Contains("lower waits for upper (line 6)", ran.Error);
    }

    [Fact]
    public async Task A_map_of_50_MB()
    {
        var path = Write("large.map.yaml", new string('#', 50 * 1024 * 1024));
        await IsRefused(path, "50 MB", "check", path);
    }

    [Fact]
    public async Task A_file_that_is_not_there_or_not_text()
    {
        await IsRefused("nowhere.map.yaml", "no such file", "check", "nowhere.map.yaml");
        var path = Path.Combine(_folder, "picture.map.yaml");
        await File.WriteAllBytesAsync(path, [0xff, 0xd8, 0xff, 0xe0, 0x00], TestContext.Current.CancellationToken);
        await IsRefused(path, "UTF-8", "check", path);
    }

    [Fact]
    public async Task A_part_that_is_not_on_the_map() =>
        await IsRefused("orchard-sprayer-pump", "upper-diafragm", "plan", LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), "--off", "upper-diafragm");

    [Fact]
    public async Task No_goal_at_all() =>
        await IsRefused("orchard-sprayer-pump", "goal", "plan", LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"));

    [Theory]
    [InlineData("nonsense")]
    [InlineData("check")]
    [InlineData("plan --off")]
    [InlineData("check ")]
    [InlineData("standing demo ")]
    [InlineData("serve --data ")]
    [InlineData("serve --urls http://localhost:1/path")]
    [InlineData("serve --urls ftp://localhost:5443")]
    public async Task A_command_that_is_not_one(string arguments)
    {
        var ran = await LastoffProgram.Run(arguments.Split(' '));
        Assert.Equal(2, ran.ExitCode);
        Assert.Single(ran.Error.TrimEnd().Split('\n'));
    }

    [Fact]
    public async Task A_ledger_with_its_last_line_cut()
    {
        var path = Write("cut.ledger.jsonl", Ledger()[..^30]);
        var ran = await IsRefused(path, "line 3", "standing", LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), path);
        Assert.Contains("2 entries before it are whole", ran.Error);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public async Task A_ledger_with_one_changed_byte(int line)
    {
        var lines = Ledger().Split('\n');
        lines[line] = lines[line].Replace("Tester", "Testar");
        var path = Write("changed.ledger.jsonl", string.Join('\n', lines));
        await IsRefused(path, $"line {line + 1}", "standing", LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), path);
    }

    [Fact]
    public async Task A_ledger_of_another_map()
    {
        var path = Write("other.ledger.jsonl", Ledger());
        await IsRefused(path, "light-van", "standing", LastoffProgram.Demo("light-van.map.yaml"), path);
    }

    private string Write(string name, string text)
    {
        var path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    private static async Task<Ran> IsRefused(string names, string alsoNames, params string[] arguments)
    {
        var ran = await LastoffProgram.Run(arguments);
        Assert.Equal(2, ran.ExitCode);
        Assert.Equal("", ran.Output);
        Assert.Contains(names, ran.Error);
        Assert.Contains(alsoNames, ran.Error);
        Assert.DoesNotContain("   at ", ran.Error);
        Assert.Single(ran.Error.TrimEnd().Split('\n'));
        return ran;
    }

    private static string Ledger()
    {
        var map = MapReader.Read(File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml")), "demo").Map!;
        var job = Job.From(OperationNet.From(map), []);
        Act[] acts = [new JobOpened(map.Name, "Invented", "It leaks", "A seal", ["upper-diaphragm"], []), new Noted("one"), new Noted("two")];
        for (var i = 0; i < acts.Length; i++)
        {
            job = job.With(job.Decide(acts[i], new Pen("bench", "Tester", DateTimeOffset.UnixEpoch.AddYears(56).AddMinutes(i), new byte[10])).Entry!);
        }

        return LedgerFile.Write(job.Entries);
    }
}
