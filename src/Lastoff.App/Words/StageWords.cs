using Lastoff.Core.Planning;

namespace Lastoff.App.Words;

public static class StageWords
{
    public static string Of(Stage stage) => stage switch
    {
        Stage.Agree => "Agree",
        Stage.Strip => "Strip, on the way out",
        Stage.Fit => "Fit, on the way back",
        Stage.Fill => "Fill, and power back on",
        Stage.Prove => "Before it goes home",
        _ => "Hand over",
    };
}
