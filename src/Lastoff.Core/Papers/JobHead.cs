using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>What every paper says of the job itself.</summary>
internal static class JobHead
{
    public const string Nameless = "A machine without a name";
    public const string MakersFirst = "The maker's specification for the machine, local law and licensed practice come before every figure on this paper.";

    public static Paper Paper(PaperSource source, PaperKind kind, string title, string reader, params IEnumerable<Section> sections) => new(
        kind,
        title,
        reader,
        source.Standing.Opened is { Machine: { Length: > 0 } machine } ? machine : Nameless,
        WrittenEntries.Basis(source.Job),
        source.Standing.Net.Map.Invented ? "Invented: the machine, and every figure on this paper."
            : kind is PaperKind.Estimate or PaperKind.Invoice && source.Standing.LatestPrice is { } latest && (source.Terms is { Invented: true } || latest.Price.Invented) ? "Invented: the rates and prices on this paper."
            : null,
        [.. sections.Where(section => section.Blocks.Any(HasSomething))]);

    public static Fact WhatWasWrong(Standing standing) => new("What was wrong", standing.Opened is not { } opened ? ""
        : opened.ComebackOf is { } before ? new Said($"{opened.Complaint}\nIt comes back from an earlier job.".TrimStart('\n'), Datum.Of("comeback_of", before.ToString()))
        : Said.Own(opened.Complaint));

    /// <summary>Nothing where nobody said it.</summary>
    public static IEnumerable<Fact> ComplaintNow(Standing standing) =>
        standing.HandedOver?.ComplaintNow is { } now ? [new("The complaint now", Said.Own(now))] : [];

    public static Fact Cause(Standing standing) => new("Cause", standing.Cause.Length == 0 ? "Not written down."
        : standing.File.Cause is { Correction.Length: > 0 } named ? $"{named.Cause}\nPut right by: {named.Correction}"
        : standing.Cause);

    public static Fact Agreed(Standing standing) => new("Agreed", standing.Yeses.Count == 0 ? "Nothing is agreed yet."
        : standing.Agreed is null ? $"{Words(standing.Yeses)}\nMore work was taken in since; nobody's yes to that is on record."
        : Words(standing.Yeses));

    /// <summary>A later yes takes back nothing that was said with an earlier one.</summary>
    private static string Words(IReadOnlyList<Yes> yeses)
    {
        var declined = yeses.SelectMany(yes => yes.Agreed.Declined).Distinct(StringComparer.Ordinal).ToList();
        return string.Join("\n", yeses.Select(yes => $"{yes.Agreed.What} ({yes.Agreed.Who}, {yes.Agreed.Way})"))
            + (yeses.LastOrDefault(yes => yes.Agreed.OldPartsBack is not null)?.Agreed.OldPartsBack is { } back ? $"\nOld parts: {(back ? "go back to the customer" : "are not wanted back")}." : "")
            + (declined.Count > 0 ? $"\nAdvised, and not wanted now: {string.Join("; ", declined)}." : "");
    }

    public static Fact Goal(Standing standing)
    {
        var renew = standing.GoalParts.Select(part => NamesOf.Thing(standing.Net, part)).Order(StringComparer.Ordinal).ToList();
        var reach = standing.GoalJoints.Select(joint => NamesOf.Thing(standing.Net, joint)).Order(StringComparer.Ordinal).ToList();
        return new(standing.HandedOver is null ? "To be done" : "The work", standing.IsUndecided ? "Not known yet: the cause is to be found."
            : renew.Count + reach.Count + standing.File.Works.Count == 0 ? "Recorded as it comes off; no parts were named beforehand."
            : string.Join("; ", new[] { Names("Renew", renew), Names("Get at", reach), Names("Also", [.. standing.File.Works.Select(work => work.What)]) }.Where(line => line.Length > 0)));
    }

    public static Fact WhereItStands(Standing standing) => new("Where it stands", standing.HandedOver is { } handed ? $"Handed over to {handed.To}." : "The machine is in the workshop.");

    /// <summary>Who answers for what was open at the handover; nothing when nobody had to.</summary>
    public static IEnumerable<Block> Override(Standing standing)
    {
        if (standing.HandedOver?.Override is { } answer)
        {
            yield return new Caution($"Handed over although something was open. {answer.By} answers for it, because: {answer.Reason}");
        }
    }

    private static string Names(string verb, List<string> names) => names.Count == 0 ? "" : $"{verb}: {string.Join(", ", names)}";

    private static bool HasSomething(Block block) => block switch
    {
        Facts facts => facts.Lines.Count > 0,
        Table table => table.Rows.Count > 0,
        Bullets bullets => bullets.Items.Count > 0,
        Labels labels => labels.Items.Count > 0,
        Pictures pictures => pictures.Items.Count > 0,
        Seal seal => seal.Ends.Count > 0,
        _ => true,
    };
}
