using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>What the papers of a job are made from.</summary>
public sealed record PaperSource(Job Job)
{
    public Standing Standing => Job.Standing;

    /// <summary>The plan on from where the job stands; null when there is none, and the papers do without.</summary>
    public Plan? Plan { get; init; }

    /// <summary>Where a phone reaches the server: "https://bay.example:5210"; null when that is not known, and labels bear no codes.</summary>
    public string? Origin { get; init; }

    /// <summary>Makes the modules of a QR code of a link, by row and column, true for dark, without the quiet zone; null when nothing here can.</summary>
    public Func<string, bool[,]>? Modules { get; init; }

    /// <summary>The JPEG file of this SHA-256; null when it is not here.</summary>
    public Func<string, byte[]?> Photo { get; init; } = _ => null;

    /// <summary>The workshop's name, address and way of being paid, as they stand on a price; null where they are not known.</summary>
    public PriceTerms? Terms { get; init; }

    /// <summary>The yes is asked for on the screen, with a <see cref="ConsentForm"/>, and no lines to sign on are wanted.</summary>
    public bool IsAskedOnScreen { get; init; }

    /// <summary>The job is known by the entry that opens it.</summary>
    internal Guid? JobId => Job.Entries.Where(entry => entry.Kind == ActKinds.JobOpened).Select(entry => (Guid?)entry.Id).Min();

    public Paper Make(PaperKind kind) => kind switch
    {
        PaperKind.Labels => TrayLabels.Of(this),
        PaperKind.Standing => StandingSheet.Of(this),
        PaperKind.Record => JobRecord.Of(this),
        PaperKind.Handover => HandoverSheet.Of(this),
        PaperKind.Estimate => Estimate.Of(this),
        PaperKind.Invoice => Invoice.Of(this),
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
