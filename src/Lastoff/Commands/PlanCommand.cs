using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Estimating;
using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Commands;

/// <summary><c>lastoff plan MAP --off PART</c>: the way out and the way back.</summary>
internal static class PlanCommand
{
    public static Command Build()
    {
        var map = new Argument<string>("MAP") { Description = "A map file, NAME.map.yaml." };
        var off = new Option<string[]>("--off") { Description = "A part to take off and renew; may be given several times." };
        var undo = new Option<string[]>("--undo") { Description = "A joint to get at; may be given several times." };
        var from = new Option<string?>("--from") { Description = "A ledger: plan on from where that job stands." };
        var why = new Option<bool>("--why") { Description = "Say at each step what it is needed for, and what going another way would cost." };
        var hands = new Option<string>("--hands") { Description = "How many people work on it, 1 or 2; 1 when left out.", DefaultValueFactory = _ => "1" };
        var times = new Option<string[]>("--times") { Description = "A ledger of an earlier job on this map, or of a recording: say what the plan takes by the times of these too; may be given several times." };
        var by = new Option<string?>("--by") { Description = "With --times: who is to do it, by the name in the ledgers." };
        var seconds = new Option<string?>("--seconds") { Description = "Go on looking for a better plan, or for the proof that there is none, for so long; otherwise a few seconds." };
        var command = new Command("plan", "Work out what comes off, in which order, and the way back.") { map, off, undo, from, why, hands, seconds, times, by, Output.Json };
        command.SetAction((parsed, stop) => Task.FromResult(Show(
            parsed.GetValue(map)!, parsed.GetValue(off) ?? [], parsed.GetValue(undo) ?? [], parsed.GetValue(from),
            parsed.GetValue(why), parsed.GetValue(hands)!, parsed.GetValue(seconds), parsed.GetValue(times) ?? [], parsed.GetValue(by), parsed.GetValue(Output.Json), stop)));
        return command;
    }

    private static int Show(string mapPath, string[] off, string[] undo, string? ledgerPath, bool why, string hands, string? seconds, string[] times, string? by, bool json, CancellationToken stop)
    {
        if (hands is not ("1" or "2"))
        {
            throw new Failure($"--hands {hands}: plans are made for one person or for two; write 1 or 2.");
        }

        if (hands == "2" && why)
        {
            throw new Failure("--why with --hands 2: what another way would cost is worked out for one person only; leave out one of the two.");
        }

        if (hands == "2" && seconds is not null)
        {
            throw new Failure("--seconds with --hands 2: the search for two people ends by itself; leave out one of the two.");
        }

        if (hands == "2" && times.Length > 0)
        {
            throw new Failure("--hands 2 with --times: what two people take together is not learned yet; leave out one of the two.");
        }

        var net = WithTrouble(InputFile.Map(mapPath), times);
        var entries = ledgerPath is null ? [] : InputFile.Ledger(ledgerPath, mapPath, net.Map);
        var standing = Fold.Of(net, entries);
        var left = GoalLeft.Of(standing);
        var goal = new Goal([.. off.Union(left.Off)], [.. undo.Union(left.Undo)]);
        if (ledgerPath is not null && goal.Off.Count + goal.Undo.Count + standing.Done.Count == 0)
        {
            throw new Failure($"{ledgerPath}: nothing is left to take off or to put back; `lastoff standing` says what is still open.");
        }

        if (hands == "2")
        {
            var two = HandsPlanner.Make(standing, goal, PlanLimits.Usual, stop);
            PlanForTwo.Show(net.Map, two.Found ? two.Value : throw new Failure($"{ledgerPath ?? mapPath}: {two.Sentence}"), json);
            return 0;
        }

        using var enough = new CancellationTokenSource();
        var result = Planner.Make(standing, goal, seconds is null ? PlanLimits.Usual : For(Seconds(seconds), enough), stop);
        var plan = result.Plan ?? throw new Failure($"{ledgerPath ?? mapPath}: {result.Refusal}");
        var change = PlanChange.Last(net, entries, PlanLimits.Quick, stop);
        var alternatives = why ? Alternatives.Of(standing, goal, plan, PlanLimits.Quick, stop) : null;
        var own = times.Length == 0 ? null : OwnTimes(net, mapPath, plan, times, by);
        if (json)
        {
            Output.Write(ToJson(plan, change, alternatives, own));
        }
        else
        {
            Print(net, plan, change, alternatives, own);
        }

        return 0;
    }

    /// <summary>What gave trouble at earlier jobs on this map may do so again.</summary>
    private static OperationNet WithTrouble(OperationNet net, string[] ledgers) =>
        TroubleMet.At(ledgers.Select(InputFile.Entries).Where(entries => JobOpened.In(entries)?.Map == net.Map.Name)) is { Count: > 0 } met ? OperationNet.From(TroubleMet.On(net.Map, met)) : net;

    private static PlanTimes OwnTimes(OperationNet net, string mapPath, Plan plan, string[] ledgers, string? by)
    {
        List<TimedWork> timed = [.. ledgers.SelectMany(path => JobOpened.In(InputFile.Entries(path)) is { HasMap: false }
            ? TimedJob.OfRecording(InputFile.Entries(path))
            : TimedJob.Of(net, InputFile.Ledger(path, mapPath, net.Map)))];
        return PlanTimes.Of(net, plan, timed, by)
            ?? throw new Failure($"--times: these ledgers time {HastyJobs.Of(timed).Kept.Count} pieces of work, and from fewer than {PlanTimes.Fewest} there is next to nothing to learn; give more, or leave it out.");
    }

    private static double Seconds(string text) => Given.Number("--seconds", text) is > 0 and <= 3600 and var seconds
        ? seconds
        : throw new Failure($"--seconds {text}: give how long to look, more than 0 and at most 3600 seconds.");

    private static PlanLimits For(double seconds, CancellationTokenSource enough)
    {
        enough.CancelAfter(TimeSpan.FromSeconds(seconds));
        return PlanLimits.Far with { Enough = enough.Token };
    }

    private static void Print(OperationNet net, Plan plan, PlanChange? change, IReadOnlyList<Alternative>? alternatives, PlanTimes? own)
    {
        Heading(net.Map);
        if (change is not null)
        {
            Console.WriteLine(change.Sentence);
        }

        Print(net, "Out", plan.Out, alternatives);
        Print(net, "Back", plan.Back, null);
        Console.WriteLine();
        Console.WriteLine($"Time: {MinuteWords.Of(plan.MinutesP50)} as a rule, {MinuteWords.Of(plan.MinutesP90)} nine times in ten. "
            + (plan.ProvenOptimal ? "No plan is quicker." : $"No plan takes less than {MinuteWords.Of(plan.LowerBoundMinutes)}. {plan.Unproven}"));
        if (own is not null)
        {
            Console.WriteLine($"By the times of {(own.Jobs == 1 ? "1 earlier job" : $"{own.Jobs} earlier jobs")} ({own.Pieces} pieces of work): "
                + $"{MinuteWords.Of(own.Minutes.P50)} as a rule, {MinuteWords.Of(own.Minutes.P90)} nine times in ten. {own.HastyWords}".TrimEnd());
        }

        Dues(net.Map, plan);
    }

    internal static void Heading(Map map) => Console.WriteLine(map.Title + (map.Invented ? " (invented, and so are its figures)" : ""));

    /// <summary>What has to be there and be seen to, whoever does the steps.</summary>
    internal static void Dues(Map map, Plan plan)
    {
        List("New on the way back", plan.Renewals.Select(r => Count(r) + r.Name));
        List("Last looks", plan.LastLooks.GroupBy(l => l.HiddenBy).Select(hidden =>
            $"before {map.Parts.First(p => p.Id == hidden.Key).Name}: {string.Join("; ", hidden.Select(l => map.Joints.First(j => j.Id == l.Joint).Name))}"));
        List("Tools", plan.Tools.Select(t => t.ToString()));
        Console.WriteLine();
        Console.WriteLine("The maker's specification, local law and licensed practice come first.");
    }

    private static void Print(OperationNet net, string way, IReadOnlyList<PlanStep> steps, IReadOnlyList<Alternative>? alternatives)
    {
        Console.WriteLine();
        Console.WriteLine($"{way}, {steps.Count} steps");
        for (var i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            if (step.WaitFor is { } waitFor)
            {
                Console.WriteLine($"      wait       {MinuteWords.Of(step.WaitMinutes)}: {waitFor}");
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1,4}  {Line(step)}"));
            foreach (var note in net.NotesOf(step.Target))
            {
                Console.WriteLine($"                 * {note}");
            }

            if (alternatives is not null)
            {
                Console.WriteLine($"                 {char.ToUpperInvariant(step.Why[0])}{step.Why[1..]}.");
            }

            if (alternatives?.FirstOrDefault(a => a.Step == step) is { } alternative)
            {
                Console.WriteLine($"                 {alternative.Sentence}");
            }
        }
    }

    internal static string Line(PlanStep step) =>
        $"{Word(step.Kind),-10} {step.Name}"
        + (step.Minutes > 0 ? $"  [{step.At.ToString().ToLowerInvariant()}, {step.Tool}; {MinuteWords.Of(step.Minutes)}]" : "")
        + (step.Runs is { } runs ? $"\n                 ~ {runs} {MinuteWords.Of(step.RunsMinutes)} by itself; go on meanwhile" : "")
        + (step.Found is { } found ? $"\n                 ? {found}" : "")
        + (step.Risk is { Chance: > 0 } risk ? $"\n                 ? {risk.Odds} that {risk.What}, {MinuteWords.Of(risk.Minutes)} more" : "")
        + (step.Caution is { } caution ? $"\n                 ! {caution}" : "");

    private static string Word(StepKind kind) => kind switch
    {
        StepKind.MakeSafe => "make safe",
        StepKind.LayAside => "lay aside",
        StepKind.TakeOff => "take off",
        StepKind.BringHome => "bring home",
        StepKind.LastLook => "last look",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private static string Count(Renewal renewal) =>
        renewal is { Count: 1, Unit: "" } ? "" : string.Create(CultureInfo.InvariantCulture, $"{renewal.Count:0.##} {renewal.Unit}").Trim() + " ";

    private static void List(string heading, IEnumerable<string> items)
    {
        Console.WriteLine();
        Console.WriteLine(heading);
        foreach (var item in items.DefaultIfEmpty("none"))
        {
            Console.WriteLine($"  {item}");
        }
    }

    private static JsonObject ToJson(Plan plan, PlanChange? change, IReadOnlyList<Alternative>? alternatives, PlanTimes? own)
    {
        var json = new JsonObject
        {
            ["minutes_p50"] = plan.MinutesP50,
            ["minutes_p90"] = plan.MinutesP90,
            ["lower_bound_minutes"] = plan.LowerBoundMinutes,
            ["proven_optimal"] = plan.ProvenOptimal,
            ["unproven"] = plan.Unproven,
            ["own_times"] = own is null ? null : new JsonObject
            {
                ["minutes_p50"] = own.Minutes.P50,
                ["minutes_p90"] = own.Minutes.P90,
                ["jobs"] = own.Jobs,
                ["pieces"] = own.Pieces,
                ["hasty_jobs"] = own.Hasty,
            },
            ["changes"] = change is null ? null : new JsonObject
            {
                ["why"] = change.Why,
                ["sentence"] = change.Sentence,
                ["minutes_before"] = change.MinutesBefore,
                ["minutes_after"] = change.MinutesAfter,
                ["dropped"] = Output.List(change.Dropped, ToShortJson),
                ["added"] = Output.List(change.Added, ToShortJson),
                ["other_way"] = Output.List(change.OtherWay, ToShortJson),
                ["reordered"] = change.IsReordered,
            },
            ["alternatives"] = alternatives is null ? null : Output.List(alternatives, alternative => new JsonObject
            {
                ["kind"] = Word(alternative.Step.Kind).Replace(' ', '_'),
                ["target"] = alternative.Step.Target,
                ["forced"] = alternative.Instead is null,
                ["minutes_more"] = alternative.MinutesMore,
                ["at_least_minutes_more"] = alternative.AtLeastMore,
                ["dropped"] = Output.List(alternative.Instead?.Dropped ?? [], ToShortJson),
                ["added"] = Output.List(alternative.Instead?.Added ?? [], ToShortJson),
                ["other_way"] = Output.List(alternative.Instead?.OtherWay ?? [], ToShortJson),
                ["sentence"] = alternative.Sentence,
            }),
            ["out"] = Output.List(plan.Out, ToJson),
            ["back"] = Output.List(plan.Back, ToJson),
        };
        AddDues(json, plan);
        return json;
    }

    internal static void AddDues(JsonObject json, Plan plan)
    {
        json["renewals"] = Output.List(plan.Renewals, renewal => new JsonObject
        {
            ["id"] = renewal.Id,
            ["name"] = renewal.Name,
            ["kind"] = renewal.Kind.ToString().ToLowerInvariant(),
            ["for"] = renewal.For,
            ["count"] = renewal.Count,
            ["unit"] = renewal.Unit,
        });
        json["last_looks"] = Output.List(plan.LastLooks, look => new JsonObject { ["joint"] = look.Joint, ["hidden_by"] = look.HiddenBy });
        json["tools"] = Output.List(plan.Tools, tool => JsonValue.Create(tool.ToString()));
        json["positions"] = Output.List(plan.Positions, position => JsonValue.Create(position.ToString().ToLowerInvariant()));
    }

    private static JsonObject ToShortJson(PlanStep step) => new()
    {
        ["kind"] = Word(step.Kind).Replace(' ', '_'),
        ["target"] = step.Target,
        ["tool"] = step.Tool.ToString(),
        ["at"] = step.At.ToString().ToLowerInvariant(),
    };

    internal static JsonObject ToJson(PlanStep step) => new()
    {
        ["kind"] = Word(step.Kind).Replace(' ', '_'),
        ["target"] = step.Target,
        ["name"] = step.Name,
        ["tool"] = step.Tool.ToString(),
        ["at"] = step.At.ToString().ToLowerInvariant(),
        ["minutes"] = step.Minutes,
        ["set_up_minutes"] = step.SetUpMinutes,
        ["found"] = step.Found,
        ["risk"] = step.Risk is not { } risk ? null : new JsonObject { ["chance"] = risk.Chance, ["minutes"] = risk.Minutes, ["what"] = risk.What },
        ["risk_minutes"] = step.RiskMinutes,
        ["wait_minutes"] = step.WaitMinutes,
        ["wait_for"] = step.WaitFor,
        ["runs"] = step.Runs,
        ["runs_minutes"] = step.RunsMinutes,
        ["caution"] = step.Caution,
        ["why"] = step.Why,
        ["chain"] = Output.List(step.Chain, id => JsonValue.Create(id)),
    };
}
