namespace Lastoff.Tests.Program;

/// <summary>The examples of the README are run, and every line shown must come, in that order; "…" stands for lines left out.</summary>
public class ReadmeTests
{
    public static TheoryData<string, string> Examples()
    {
        var examples = new TheoryData<string, string>();
        var text = File.ReadAllText(Path.Combine(LastoffProgram.Repository, "README.md"));
        foreach (var block in text.Split("```console\n").Skip(1).Select(part => part[..part.IndexOf("```", StringComparison.Ordinal)]))
        {
            var end = block.IndexOf('\n');
            examples.Add(block[..end], block[(end + 1)..]);
        }

        return examples;
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public async Task An_example_gives_what_it_says(string command, string shown)
    {
        Assert.StartsWith("$ lastoff ", command);
        string[] arguments = [.. command["$ lastoff ".Length..].Split(' ').Select(a => a.StartsWith("demo/", StringComparison.Ordinal) ? LastoffProgram.Demo(a["demo/".Length..]) : a)];
        var ran = await LastoffProgram.Run(arguments);
        Assert.Equal(0, ran.ExitCode);
        var lines = new Queue<string>(ran.Output.Split('\n'));
        var mayLeaveOut = false;
        foreach (var line in shown.TrimEnd('\n').Split('\n'))
        {
            if (line == "…")
            {
                mayLeaveOut = true;
                continue;
            }

            var found = lines.Dequeue();
            while (mayLeaveOut && found != line && lines.Count > 0)
            {
                found = lines.Dequeue();
            }

            Assert.Equal(line, found);
            mayLeaveOut = false;
        }
    }
}
