using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Learning;

namespace Lastoff.Commands;

/// <summary><c>lastoff learn LEDGER [LEDGER ..]</c>: a map from recorded strips.</summary>
internal static class LearnCommand
{
    private const string Arrow = ">";

    public static Command Build()
    {
        var ledgers = new Argument<string[]>("LEDGER") { Description = "Ledgers of the same job on the same sort of machine, JSON Lines.", Arity = ArgumentArity.OneOrMore };
        var name = new Option<string>("--name") { Description = "The map's name: lower-case letters, digits and hyphens.", DefaultValueFactory = _ => "learned" };
        var title = new Option<string>("--title") { Description = "Which machine the map is of.", DefaultValueFactory = _ => "Learned from recordings" };
        var same = new Option<string[]>("--same") { Description = "Two names of one thing, as “name to give up=name to keep”; may be given several times." };
        var inTheWay = new Option<string[]>("--in-the-way") { Description = "“first>then”: the first was in the way of the second, held it, or had to be safe for it." };
        var notInTheWay = new Option<string[]>("--not-in-the-way") { Description = "“first>then”: it was not." };
        var command = new Command("learn", "Make a map from recorded strips; it is written to standard output, and what a person should look at to standard error.")
        {
            ledgers, name, title, same, inTheWay, notInTheWay, Output.Json,
        };
        command.SetAction(parsed => Show(
            parsed.GetValue(ledgers)!, parsed.GetValue(name)!, parsed.GetValue(title)!, parsed.GetValue(same) ?? [],
            [.. (parsed.GetValue(inTheWay) ?? []).Select(text => SaidIn(text, "--in-the-way", true)), .. (parsed.GetValue(notInTheWay) ?? []).Select(text => SaidIn(text, "--not-in-the-way", false))],
            parsed.GetValue(Output.Json)));
        return command;
    }

    private static int Show(string[] ledgers, string name, string title, string[] same, IReadOnlyList<Said> said, bool json)
    {
        var recordings = new Recordings([.. ledgers.Select(path => RecordedStrip.Of(Path.GetFileName(path), InputFile.Entries(path)))]);
        var merged = same.Select(SameIn).Aggregate(recordings, (so, pair) => so.Merged(pair.GiveUp, pair.Keep) ?? throw new Failure($"--same {pair.GiveUp}={pair.Keep}: nothing is called “{pair.GiveUp}” in these recordings; say it as it was recorded."));
        var learned = merged.Learn(name, title, said).OrFail();
        var suggested = merged.SameNames;
        if (json)
        {
            Output.Write(new JsonObject
            {
                ["map"] = learned.Yaml,
                ["waits"] = Output.List(learned.Waits, wait => new JsonObject { ["first"] = wait.First, ["then"] = wait.Then, ["times"] = wait.Times, ["sure"] = wait.Sure, ["in_doubt"] = wait.IsInDoubt, ["asked"] = wait.IsAsked }),
                ["rates"] = Output.List(learned.Rates, rate => new JsonObject { ["name"] = rate.Name, ["kind"] = rate.Kind.ToString().ToLowerInvariant(), ["seen"] = rate.Seen, ["times"] = rate.Times, ["chance"] = rate.Chance, ["extra_minutes"] = rate.ExtraMinutes }),
                ["same_names"] = Output.List(suggested, pair => new JsonObject { ["one"] = pair.One, ["other"] = pair.Other, ["alike"] = pair.Alike }),
            });
            return 0;
        }

        Console.Out.Write(learned.Yaml);
        foreach (var pair in suggested)
        {
            Console.Error.WriteLine($"“{pair.One}” and “{pair.Other}” may be one thing, and then what waits for it is lost until you say so: add --same \"{pair.One}={pair.Other}\".");
        }

        foreach (var wait in learned.Asked)
        {
            Console.Error.WriteLine($"Must “{wait.First}” always come before “{wait.Then}”? Seen so {wait.Times} of {wait.Of} times; say --in-the-way \"{wait.First}>{wait.Then}\" or --not-in-the-way \"{wait.First}>{wait.Then}\".");
        }

        return 0;
    }

    private static (string GiveUp, string Keep) SameIn(string text) => text.Split('=') is [var giveUp, var keep] && giveUp.Trim().Length > 0 && keep.Trim().Length > 0
        ? (giveUp.Trim(), keep.Trim())
        : throw new Failure($"--same {text}: write two names with = between them, “name to give up=name to keep”.");

    private static Said SaidIn(string text, string option, bool inTheWay) => text.Split(Arrow) is [var first, var then] && first.Trim().Length > 0 && then.Trim().Length > 0
        ? new Said(first.Trim(), then.Trim(), inTheWay)
        : throw new Failure($"{option} {text}: write two names with {Arrow} between them, “first{Arrow}then”.");
}
