using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Identity;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary><c>lastoff vin VIN</c>: whether a vehicle identification number was read right.</summary>
internal static class VinCommand
{
    public static Command Build()
    {
        var vin = new Argument<string>("VIN") { Description = "The vehicle identification number, as it stands on the machine." };
        var command = new Command("vin", "Say whether a vehicle identification number has its check digit, and what else it tells.") { vin, Output.Json };
        command.SetAction(parsed => Show(Vin.Read(parsed.GetValue(vin)!).Or(sentence => throw new Failure(sentence)), parsed.GetValue(Output.Json)));
        return command;
    }

    private static int Show(Vin vin, bool json)
    {
        if (json)
        {
            Output.Write(new JsonObject
            {
                ["vin"] = vin.Text,
                ["valid"] = vin.IsValid,
                ["check_digit"] = vin.CheckDigit.ToString(),
                ["check_digit_fits"] = vin.HasItsCheckDigit,
                ["check_digit_required"] = vin.NeedsCheckDigit,
                ["region"] = vin.Region is { } region ? Words<WorldRegion>.Of(region) : null,
                ["model_years"] = Output.List(vin.ModelYears, year => JsonValue.Create(year)),
                ["likely_meant"] = Output.List(vin.LikelyMeant, text => JsonValue.Create(text)),
                ["sentence"] = Sentence(vin),
            });
            return 0;
        }

        Console.WriteLine(vin.Text);
        Console.WriteLine($"  {Sentence(vin)}");
        if (vin.Region is { } where)
        {
            Console.WriteLine($"  Given out for {Name(where)}, by its first sign.");
        }

        if (vin.ModelYears.Count > 0)
        {
            Console.WriteLine($"  Model year {string.Join(" or ", vin.ModelYears)}{(vin.NeedsCheckDigit ? "" : ", if its maker codes the year as North America does")}.");
        }

        return 0;
    }

    private static string Name(WorldRegion region) => region switch
    {
        WorldRegion.NorthAmerica => "North America",
        WorldRegion.SouthAmerica => "South America",
        _ => region.ToString(),
    };

    private static string Sentence(Vin vin) =>
        vin.HasItsCheckDigit ? $"Its check digit, {vin.CheckDigit} in the ninth place, fits."
        : !vin.NeedsCheckDigit ? $"Its ninth place is no check digit ({vin.CheckDigit} would be); outside North America none is required, so this says nothing against it."
        : $"Its check digit would be {vin.CheckDigit}, and the ninth place says {vin.Text[8]}: a sign was probably misread; look again{(vin.LikelyMeant.Count > 0 ? $", was it {string.Join(" or ", vin.LikelyMeant)}" : "")}.";
}
