using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

public static class StageWords
{
    public static string Of(Stage stage) => stage switch
    {
        Stage.Agree => Say("Agree"),
        Stage.Strip => Say("Strip, on the way out"),
        Stage.Fit => Say("Fit, on the way back"),
        Stage.Fill => Say("Fill, and power back on"),
        Stage.Prove => Say("Before it goes home"),
        _ => Say("Hand over"),
    };
}
