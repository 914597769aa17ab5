using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Papers;

namespace Lastoff.App.Words;

/// <summary>How a photo is said on the screen.</summary>
public static class PhotoWords
{
    /// <summary>What it is of: "Bracket bolts".</summary>
    public static string About(OperationNet net, PhotoTaken taken) => taken.About is { } about ? NamesOf.Thing(net, about) : "The job";

    /// <summary>For who cannot see it: what it is of, when it was taken and by whom.</summary>
    public static string Of(OperationNet net, Photo photo) =>
        $"Photo: {About(net, photo.Taken)}, {Figures.Time(photo.Entry.At)}, {photo.Entry.By}";
}
