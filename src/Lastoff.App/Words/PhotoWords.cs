using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.App.Words;

/// <summary>How a photo is said on the screen.</summary>
public static class PhotoWords
{
    /// <summary>What it is of: "Bracket bolts".</summary>
    public static string About(OperationNet net, PhotoTaken taken) => taken.About is not { } about ? "The job"
        : net.Parts.TryGetValue(about, out var part) ? StepWords.Capital(part.Name)
        : net.Joints.TryGetValue(about, out var joint) ? StepWords.Capital(joint.Name)
        : net.Supplies.TryGetValue(about, out var supply) ? StepWords.Capital(supply.Name)
        : net.Openings.TryGetValue(about, out var opening) ? StepWords.Capital(opening.Name)
        : net.Proofs.TryGetValue(about, out var proof) ? StepWords.Capital(proof.Name)
        : net.RenewalNamed(about) is { } renewal ? StepWords.Capital(renewal.Name)
        : "The job";

    /// <summary>For who cannot see it: what it is of, when it was taken and by whom.</summary>
    public static string Of(OperationNet net, Photo photo) =>
        $"Photo: {About(net, photo.Taken)}, {Figures.Time(photo.Entry.At)}, {photo.Entry.By}";
}
