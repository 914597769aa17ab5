using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary><c>lastoff order simulate</c>: what earlier bolts lose while later ones are tightened, pass by pass.</summary>
internal static class OrderSimulate
{
    private static readonly HoleOptions Holes = new();
    private static readonly Option<string> Interaction = new("--interaction") { Description = "What a tight bolt loses of each rise of its neighbour, the one after it, and so on: 0.2,0.05.", Required = true };
    private static readonly Option<string?> Order = new("--order") { Description = "Bolts by name, as 1,3,2,4; or advised for the order lastoff order gives. The order of the holes when left out." };
    private static readonly Option<string?> Passes = new("--passes") { Description = "Percent of the full preload in each pass, as 30,60,100,100; full passes until all are within the band when left out." };
    private static readonly Option<double> Band = new("--band") { Description = "How far from the target a bolt may stay, in percent.", DefaultValueFactory = _ => 2 };

    public static Command Build()
    {
        var command = new Command("simulate", "The preload of every bolt after each pass, from given interaction.");
        Holes.AddTo(command);
        foreach (var option in (Option[])[Interaction, Order, Passes, Band, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var pattern = Holes.Pattern(parsed);
        var model = ElasticInteraction.Of(pattern, OptionText.Numbers(Interaction.Name, parsed.GetValue(Interaction)!, "0.2,0.05")).OrFail("--interaction");
        var order = OrderOf(pattern, parsed.GetValue(Order));
        var band = parsed.GetValue(Band) is > 0 and < 100 and var percent ? percent / 100 : throw new Failure("--band: the band is above 0 and below 100 percent; write it like 2.");
        var needed = model.PassesTo(order, band);
        var shares = parsed.GetValue(Passes) is { } text
            ? [.. OptionText.Numbers(Passes.Name, text, "30,60,100").Select(share => share is > 0 and <= 100 ? share / 100 : throw new Failure($"--passes {text}: each pass is above 0 and at most 100 percent."))]
            : Enumerable.Repeat(1.0, needed.OrFail("--interaction")).ToArray();
        var after = model.After(order, shares);
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["bolts"] = Names(pattern, Enumerable.Range(0, model.Bolts)),
                ["order"] = Names(pattern, order),
                ["passes"] = Output.List(after.Index(), pass => new JsonObject
                {
                    ["share"] = shares[pass.Index],
                    ["preload_share"] = Output.List(pass.Item, value => JsonValue.Create(value)),
                }),
                ["band_share"] = band,
                ["full_passes_to_band"] = needed.TryGet(out var passes, out _) ? passes : null,
                ["guidance"] = JointCommand.Guidance,
            });
            return 0;
        }

        Console.WriteLine($"Order {string.Join(" ", order.Select(hole => pattern.Holes[hole].Name))}; preload in percent of the target.");
        Console.WriteLine($"pass      {string.Join(" ", pattern.Holes.Select(hole => $"{hole.Name,6}"))}");
        foreach (var (i, preload) in after.Index())
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1,2} ({100 * shares[i],3:0} %) ") + string.Join(" ", preload.Select(value => string.Create(CultureInfo.InvariantCulture, $"{100 * value,6:0.0}"))));
        }

        Console.WriteLine(needed.TryGet(out var count, out var sentence)
            ? string.Create(CultureInfo.InvariantCulture, $"{count} full passes bring all within {100 * band:0.##} % of the target.")
            : sentence);
        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }

    private static IReadOnlyList<int> OrderOf(HolePattern pattern, string? text)
    {
        if (text is null)
        {
            return [.. Enumerable.Range(0, pattern.Holes.Count)];
        }

        if (text.Trim() == "advised")
        {
            return TighteningOrder.Of(pattern);
        }

        var names = pattern.Holes.Select(hole => hole.Name).ToList();
        var order = text.Split(',', StringSplitOptions.TrimEntries).Select(name => names.IndexOf(name)).ToArray();
        return order.Length == names.Count && order.Distinct().Count() == names.Count && !order.Contains(-1)
            ? order
            : throw new Failure($"--order {text}: name every bolt once; they are {string.Join(",", names)}.");
    }

    private static JsonArray Names(HolePattern pattern, IEnumerable<int> holes) => Output.List(holes, hole => OptionText.Bolt(pattern.Holes[hole].Name));
}
