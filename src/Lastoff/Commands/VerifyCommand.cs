using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff verify LEDGER | --data DIR | --postgres CONN</c>: names the first entry that is cut, changed, reordered or forked.</summary>
internal static class VerifyCommand
{
    private static readonly Argument<string?> Ledger = new("LEDGER") { Description = "A ledger file; without it the records of a workshop are verified.", Arity = ArgumentArity.ZeroOrOne };

    public static Command Build()
    {
        var command = new Command("verify", "Prove that a ledger, or a whole workshop's records, are as they were written.") { Ledger, Output.Json };
        StoreOptions.AddTo(command);
        command.SetAction((parsed, _) => StoreOptions.RunAsync("The records cannot be verified", () => VerifyAsync(parsed)));
        return command;
    }

    private static async Task<int> VerifyAsync(ParseResult parsed)
    {
        Verification result;
        MapVerification? texts = null;
        PhotoVerification? photos = null;
        if (parsed.GetValue(Ledger) is { } file)
        {
            result = Verification.Of(InputFile.LedgerText(file), file);
        }
        else
        {
            var folder = StoreOptions.Folder(parsed, mustExist: true);
            await using var workshop = StoreOptions.Open(parsed, folder);
            using var records = new Snapshot(workshop);
            result = Verification.Of(records);
            texts = result.Fault is null ? MapVerification.Of(records) : null;
            photos = result.Fault is null ? PhotoVerification.Of(records, workshop.Photos) : null;
        }

        if ((result.Fault ?? texts?.Fault ?? photos?.Fault) is { } fault)
        {
            throw new Failure(fault);
        }

        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["whole"] = true,
                ["jobs"] = result.Jobs,
                ["entries"] = result.Entries,
                ["map_texts"] = texts?.Here,
                ["map_texts_away"] = texts?.Away,
                ["photo_files"] = photos?.Here.Count,
                ["photo_files_away"] = photos?.Away,
                ["last_entries"] = Output.List(result.Ends, end => new JsonObject
                {
                    ["job"] = end.Job.ToString(),
                    ["device"] = end.Last.Device,
                    ["seq"] = end.Last.Seq,
                    ["id"] = end.Last.Id.ToString(),
                    ["sha256"] = end.Last.Hash,
                }),
            });
            return 0;
        }

        Console.WriteLine($"Whole: {result.Entries} entries in {result.Jobs} {(result.Jobs == 1 ? "job" : "jobs")}, none cut, changed, reordered or forked.");
        if (texts is { Here: var kept, Away: var missing } && kept + missing > 0)
        {
            Console.WriteLine($"Texts of maps as they were saved: {kept}.{(missing > 0 ? $" Jobs stand on {missing} more that are not here; look for them on the devices that opened those jobs." : "")}");
        }

        if (photos is { Here.Count: var here, Away: var away } && here + away > 0)
        {
            Console.WriteLine($"Photo files as they were taken: {here}.{(away > 0 ? $" Not here: {away}; look for them on the phones that took them." : "")}");
        }

        Console.WriteLine("What is cut from the very end leaves no trace; compare with the devices that this is where they end:");
        foreach (var (job, last) in result.Ends)
        {
            Console.WriteLine($"  job {job}, device {last.Device}: entry {last.Seq} ({last.Id})");
        }

        return 0;
    }
}
