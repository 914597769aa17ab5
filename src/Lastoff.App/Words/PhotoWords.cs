using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Papers;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How a photo is said on the screen.</summary>
public static class PhotoWords
{
    /// <summary>What it is of: "Bracket bolts".</summary>
    public static string About(OperationNet net, PhotoTaken taken) => taken.About switch
    {
        null => Say("The job"),
        MachineIdentified.AtArrival => StepWords.Capital(Called(MachineIdentified.AtArrival)),
        var about => NamesOf.Thing(net, about),
    };

    /// <summary>What a photo is of, where that is no thing of the map: what a person called it, or the machine as it came in.</summary>
    public static string Called(string about) => about == MachineIdentified.AtArrival ? Say("the machine at arrival") : about;

    /// <summary>For who cannot see it: what it is of, when it was taken and by whom.</summary>
    public static string Of(OperationNet net, Photo photo) =>
        Say($"Photo: {About(net, photo.Taken)}, {Figures.Time(photo.Entry.At)}, {photo.Entry.By}");
}
