using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Commands;

/// <summary><c>lastoff standing MAP LEDGER</c>, or for a job without a map <c>lastoff standing LEDGER</c>: what is still open, and what stands between here and the handover.</summary>
internal static class StandingCommand
{
    public static Command Build()
    {
        var map = new Argument<string>("MAP") { Description = "The map the job was opened with; left out for a job without one." };
        var ledger = new Argument<string?>("LEDGER") { Description = "The job's ledger, JSON Lines.", Arity = ArgumentArity.ZeroOrOne };
        var command = new Command("standing", "Say what is still open, and what stands between here and the handover.") { map, ledger, Output.Json };
        command.SetAction(parsed => Show(parsed.GetValue(map)!, parsed.GetValue(ledger), parsed.GetValue(Output.Json)));
        return command;
    }

    private static int Show(string path, string? ledgerPath, bool json)
    {
        var (entries, standing) = ledgerPath is null ? Recorded(path) : OnMap(path, ledgerPath);
        var net = standing.Net;
        var open = OpenItems.Of(standing);
        var last = entries.GroupBy(e => e.Device).Select(device => device.MaxBy(e => e.Seq)!).ToList();
        if (json)
        {
            Output.Write(ToJson(standing, entries.Count, open, last));
            return 0;
        }

        if (standing.Opened is { } opened)
        {
            Console.WriteLine($"{opened.Machine}: {opened.Complaint}");
        }

        Console.WriteLine($"{entries.Count} entries. Covers put in {standing.CoversPutIn}, taken out {standing.CoversTakenOut}.");
        Console.WriteLine(open.Count == 0 ? "Nothing is open." : $"{open.Count} still open:");
        foreach (var item in open)
        {
            Console.WriteLine($"  {item.Sentence}");
        }

        foreach (var stuck in standing.Stuck)
        {
            Console.WriteLine($"  {Stuck.Words(net, stuck)}.");
        }

        foreach (var line in ProofLines.Of(standing).Concat(ProofLines.Filled(standing)))
        {
            Console.WriteLine($"  {line}");
        }

        foreach (var sentence in Passes(standing).Select(p => p.Sentence).OfType<string>().Concat(standing.ReLooked.OrderBy(look => look.Key, StringComparer.Ordinal).Select(look => look.Value.Sentence(net.Joints[look.Key].Name))))
        {
            Console.WriteLine($"  {sentence}");
        }

        foreach (var sentence in Prices(standing).Concat(standing.AgainstTheMap).Concat(standing.BeyondAgreed).Concat(standing.Unread))
        {
            Console.WriteLine($"  {sentence}");
        }

        foreach (var entry in last)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Device {entry.Device} ends with its entry {entry.Seq}, of {entry.At:yyyy-MM-dd HH:mm}, by {entry.By}."));
        }

        Console.WriteLine(standing.HandedOver is not { } handed ? "Not handed over."
            : handed.Override is { } answer ? $"Handed over to {handed.To}; {answer.By} answers for what is open: {answer.Reason}"
            : $"Handed over to {handed.To}.");
        return 0;
    }

    private static (IReadOnlyList<Entry> Entries, Standing Standing) OnMap(string mapPath, string ledgerPath)
    {
        var net = InputFile.Map(mapPath);
        var entries = InputFile.Ledger(ledgerPath, mapPath, net.Map);
        return (entries, Fold.Of(net, entries));
    }

    private static (IReadOnlyList<Entry> Entries, Standing Standing) Recorded(string ledgerPath)
    {
        var entries = InputFile.Entries(ledgerPath);
        return JobOpened.In(entries) is { HasMap: true } opened
            ? throw new Failure($"{ledgerPath}: this job was opened with the map “{opened.Map}”; name the map's file before the ledger.")
            : (entries, Job.Recorded(entries).Standing);
    }

    /// <summary>The joints of this job that are tightened in passes, with what each still lacks; a sentence where one lacks something.</summary>
    private static IEnumerable<(Joint Joint, bool IsMade, IReadOnlyList<PassAtHand> Missing, string? Sentence)> Passes(Standing standing)
    {
        foreach (var joint in standing.Net.Map.Joints.Where(joint => joint.Passes.Count > 0 && standing.WasDisturbed(OperationKind.Undo, joint.Id)))
        {
            var missing = PassesMade.Missing(standing, joint.Id).ToList();
            var isMade = !standing.IsDone(OperationKind.Undo, joint.Id);
            var lacks = string.Join(", ", missing.Select(pass => $"{pass.Number} ({pass.Pass.Short})"));
            yield return (joint, isMade, missing, missing.Count == 0 ? null
                : $"“{joint.Name}”{(isMade ? " was made without" : " still lacks")} {(missing.Count == 1 ? "pass" : "passes")} {lacks} of {joint.Passes.Count}.");
        }
    }

    private static JsonObject ToJson(Standing standing, int entries, IReadOnlyList<OpenItem> open, IReadOnlyList<Entry> last) => new()
    {
        ["entries"] = entries,
        ["open"] = Output.List(open, item => new JsonObject
        {
            ["kind"] = item.Kind.ToString().ToLowerInvariant(),
            ["target"] = item.Target,
            ["sentence"] = item.Sentence,
        }),
        ["covers_put_in"] = standing.CoversPutIn,
        ["covers_taken_out"] = standing.CoversTakenOut,
        ["stuck"] = Output.List(standing.Stuck, stuck => new JsonObject
        {
            ["joint"] = stuck.Joint,
            ["closed"] = stuck.IsClosed,
            ["extra_minutes"] = stuck.ExtraMinutes,
            ["sentence"] = $"{Stuck.Words(standing.Net, stuck)}.",
        }),
        ["proofs"] = Output.List(standing.Readings.Values.OrderBy(proof => proof.Proof, StringComparer.Ordinal), ToJson),
        ["filled"] = Output.List(standing.Filled.OrderBy(filled => filled.Target, StringComparer.Ordinal), ToJson),
        ["passes"] = Output.List(Passes(standing), p => new JsonObject
        {
            ["joint"] = p.Joint.Id,
            ["passes"] = p.Joint.Passes.Count,
            ["passes_in"] = p.Joint.Passes.Count - p.Missing.Count,
            ["is_made"] = p.IsMade,
            ["missing"] = Output.List(p.Missing, pass => new JsonObject
            {
                ["pass"] = pass.Number,
                ["kind"] = Words<PassKind>.Of(pass.Pass.Kind),
                ["torque_Nm"] = pass.Torque?.NewtonMetres,
                ["angle_deg"] = pass.Pass.Angle_deg,
                ["bolts_left"] = Output.List(pass.Left, bolt => OptionText.Bolt(bolt)),
            }),
            ["sentence"] = p.Sentence,
        }),
        ["re_looks"] = Output.List(standing.ReLooked.OrderBy(look => look.Key, StringComparer.Ordinal), look => new JsonObject
        {
            ["joint"] = look.Key,
            ["by"] = look.Value.By,
            ["tightened_by"] = Output.List(look.Value.TightenedBy, name => JsonValue.Create(name)),
            ["same_person"] = look.Value.IsBySamePerson,
            ["sentence"] = look.Value.Sentence(standing.Net.Joints[look.Key].Name),
        }),
        ["latest_price"] = standing.LatestPrice is { } latest ? ToJson(latest) : null,
        ["agreed_price"] = standing.AgreedPrice is { } yes ? ToJson(yes.Price!) : null,
        ["over_agreed"] = standing.OverAgreed,
        ["beyond_agreed"] = Output.List(standing.BeyondAgreed, sentence => JsonValue.Create(sentence)),
        ["paid"] = Output.List(standing.Payments, paid => paid.ToData()),
        ["against_the_map"] = Output.List(standing.AgainstTheMap, sentence => JsonValue.Create(sentence)),
        ["last_entries"] = Output.List(last, entry => new JsonObject { ["device"] = entry.Device, ["seq"] = entry.Seq, ["id"] = entry.Id.ToString() }),
        ["unread"] = Output.List(standing.Unread, sentence => JsonValue.Create(sentence)),
        ["handed_over"] = standing.HandedOver is not null,
        ["override"] = standing.HandedOver?.Override is not { } answer ? null : new JsonObject
        {
            ["by"] = answer.By,
            ["reason"] = answer.Reason,
        },
    };

    private static IEnumerable<string> Prices(Standing standing)
    {
        if (standing.AgreedPrice is { Price: { } agreed } yes)
        {
            yield return $"{yes.Agreed.Who} agreed to {agreed.Price.Total} ({yes.Agreed.Way}): {yes.Agreed.What.TrimEnd('.')}.";
        }
        else if (standing.LatestPrice is { } latest)
        {
            yield return $"The price is {latest.Price.Total}; nobody has agreed to it.";
        }

        foreach (var paid in standing.Payments)
        {
            yield return $"Paid{(paid.Amount.IsNegative ? " back" : "")} for {paid.For}: {(paid.Amount.IsNegative ? -paid.Amount : paid.Amount)}, {(paid.Way == PaidWay.Cash ? "in cash" : $"by {Words<PaidWay>.Of(paid.Way)}")}.";
        }
    }

    private static JsonObject ToJson(PriceOnRecord price) => new()
    {
        ["entry"] = price.Entry.ToString(),
        ["sha256"] = price.Priced.Sha256,
        ["reason"] = price.Priced.Reason,
        ["price"] = PriceJson.Write(price.Price),
    };

    private static JsonObject ToJson(ProofRecorded proof)
    {
        var json = proof.ToData();
        json["is_overruled"] = proof.IsOverruled;
        return json;
    }

    private static JsonObject ToJson(Moved filled) => filled.ToData();
}
