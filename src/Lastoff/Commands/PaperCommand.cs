using System.CommandLine;
using System.Text;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using Lastoff.Papers;
using Lastoff.Storing;

namespace Lastoff.Commands;

/// <summary><c>lastoff paper KIND MAP LEDGER</c>, or for a job without a map <c>lastoff paper KIND LEDGER</c>: a paper of a job as a file.</summary>
internal static class PaperCommand
{
    private static readonly Argument<string> Kind = new("KIND") { Description = $"Which paper: {PaperKinds.All}." };
    private static readonly Argument<string> Map = new("MAP") { Description = "The map the job was opened with; left out for a job without one." };
    private static readonly Argument<string?> Ledger = new("LEDGER") { Description = "The job's ledger, JSON Lines.", Arity = ArgumentArity.ZeroOrOne };
    private static readonly Option<string?> Pdf = new("--pdf") { Description = "Write it as PDF to this file." };
    private static readonly Option<string?> Html = new("--html") { Description = "Write it as a page that needs nothing else to this file." };
    private static readonly Option<string?> Sheet = new("--sheet") { Description = "The PDF's sheets: a4 (as a rule) or letter." };
    private static readonly Option<string?> Tongue = new("--language") { Description = $"What the PDF or the page says it in: {Tongues.All}; data is the same in all." };
    private static readonly Option<string?> Origin = new("--origin") { Description = "Where phones reach the server, as https://bay.example:5210; labels then bear codes." };
    private static readonly Option<string?> Terms = new("--terms") { Description = "A JSON file with the owner's terms: the workshop's name and address, for an estimate or an invoice." };
    private static readonly Option<string?> PhotoFolder = new("--photos") { Description = "The folder “photos” of an export, for the record's small pictures." };

    public static Command Build()
    {
        var command = new Command("paper", "Write a paper of a job: labels for its trays, where it stands, its record, the handover, an estimate, an invoice.") { Kind, Map, Ledger, Pdf, Html, Output.Json, Sheet, Tongue, Origin, Terms, PhotoFolder };
        command.SetAction(Write);
        return command;
    }

    private static int Write(ParseResult parsed)
    {
        var word = parsed.GetValue(Kind)!;
        if (!PaperKinds.TryRead(word, out var kind))
        {
            throw new Failure($"There is no paper “{word}”; there are {PaperKinds.All}.");
        }

        var size = SheetSize.Named(parsed.GetValue(Sheet)) ?? throw new Failure($"--sheet {parsed.GetValue(Sheet)}: the sheet is a4 or letter.");
        var tongue = Tongues.Of(parsed.GetValue(Tongue)) ?? throw new Failure($"--language {parsed.GetValue(Tongue)}: there are {Tongues.All}.");
        var (pdf, html, json) = (parsed.GetValue(Pdf), parsed.GetValue(Html), parsed.GetValue(Output.Json));
        if (pdf is null && html is null && !json)
        {
            throw new Failure("Say how to write the paper: --pdf FILE, --html FILE or --json.");
        }

        var paper = Source(parsed, JobOf(parsed)).Make(kind);
        if (pdf is not null)
        {
            Keep(pdf, PaperPdf.Write(paper.In(tongue), size).Or(sentence => throw new Failure(sentence)));
        }

        if (html is not null)
        {
            Keep(html, Encoding.UTF8.GetBytes(PaperHtml.Write(paper.In(tongue))));
        }

        if (json)
        {
            Console.WriteLine(PaperJson.Write(paper));
        }

        return 0;
    }

    private static Job JobOf(ParseResult parsed)
    {
        var path = parsed.GetValue(Map)!;
        if (parsed.GetValue(Ledger) is { } ledger)
        {
            var net = InputFile.Map(path);
            return Job.From(net, InputFile.Ledger(ledger, path, net.Map));
        }

        var entries = InputFile.Entries(path);
        return JobOpened.In(entries) is { HasMap: true } opened
            ? throw new Failure($"{path}: this job was opened with the map “{opened.Map}”; name the map's file before the ledger.")
            : Job.Recorded(entries);
    }

    private static PaperSource Source(ParseResult parsed, Job job)
    {
        var origin = parsed.GetValue(Origin);
        if (origin is not null && !(Uri.TryCreate(origin, UriKind.Absolute, out var address) && address.Scheme is "http" or "https"))
        {
            throw new Failure($"--origin {origin}: give the server's address as https://NAME or https://NAME:PORT.");
        }

        return new PaperSource(job)
        {
            Plan = Planner.Make(job.Standing, GoalLeft.Of(job.Standing), PlanLimits.Quick).Plan,
            Origin = origin,
            Modules = QrModules.Of,
            Terms = parsed.GetValue(Terms) is { } terms ? TermsJson.Read(InputFile.Prices(terms)).Or(sentence => throw new Failure($"{terms}: {sentence}")) : null,
            Photo = parsed.GetValue(PhotoFolder) is { } folder ? hash => Read(Path.Combine(folder, Path.GetFileName(Bundle.PhotoPath(hash)))) : _ => null,
        };
    }

    private static byte[]? Read(string path) => File.Exists(path) ? File.ReadAllBytes(path) : null;

    private static void Keep(string path, byte[] bytes)
    {
        try
        {
            File.WriteAllBytes(path, bytes);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new Failure($"{path}: the paper cannot be written there ({e.Message.TrimEnd('.')}); name a file in a folder that you may write to.");
        }
    }
}
