using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;
using Lastoff.Core.Proving;

namespace Lastoff.Commands;

/// <summary><c>lastoff warmup</c>: whether an engine warms up, opens its thermostat and stays in its band.</summary>
internal static class WarmupCommand
{
    private const int PictureColumns = 72;
    private const int PictureRows = 14;

    private static readonly Option<string> Log = new("--log") { Description = "The log: CSV with a header such as t_s,engine_C,heater_C,fan.", Required = true };
    private static readonly Option<string?> Limit = Given.Option("--limit", "Where the maker's gauge goes red, such as 115degC.");
    private static readonly Option<string[]> Codes = new("--code") { Description = "A trouble code the engine has stored, such as P0128; may be given again." };

    public static Command Build()
    {
        var command = new Command("warmup", "Judge a warm-up log: thermostat, band, overheating, trapped air, fan.") { Log, Limit, Codes, Output.Json };
        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var log = WarmupLog.From(InputFile.Readings(parsed.GetValue(Log)!)).OrFail();
        var proof = WarmupProof.Of(log, parsed.GetValue(Limit) is { } limit ? Given.Temperature("--limit", limit).Celsius : null);
        IReadOnlyList<TroubleCode> codes = [.. log.Codes.Union(TroubleCode.ReadAll(string.Join(' ', parsed.GetValue(Codes) ?? [])).Or(sentence => throw new Failure($"--code {sentence}")))];
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["verdict"] = Word(proof.Verdict),
                ["opening_s"] = FluidOutput.Figure(proof.Opening?.Seconds),
                ["opening_s_low"] = FluidOutput.Figure(proof.Opening?.SecondsLow),
                ["opening_s_high"] = FluidOutput.Figure(proof.Opening?.SecondsHigh),
                ["opening_C"] = FluidOutput.Figure(proof.Opening?.Celsius),
                ["opening_C_low"] = FluidOutput.Figure(proof.Opening?.CelsiusLow),
                ["opening_C_high"] = FluidOutput.Figure(proof.Opening?.CelsiusHigh),
                ["band_C_low"] = FluidOutput.Figure(proof.Band?.LowCelsius),
                ["band_C_mean"] = FluidOutput.Figure(proof.Band?.MeanCelsius),
                ["band_C_high"] = FluidOutput.Figure(proof.Band?.HighCelsius),
                ["trend_K_per_min"] = FluidOutput.Figure(proof.Trend?.KelvinsPerMinute),
                ["trend_K_per_min_low"] = FluidOutput.Figure(proof.Trend?.Low),
                ["trend_K_per_min_high"] = FluidOutput.Figure(proof.Trend?.High),
                ["hottest_C"] = FluidOutput.Figure(proof.HottestCelsius),
                ["heater_cold_s"] = FluidOutput.Figure(proof.HeaterColdSeconds),
                ["fan_on_C"] = FluidOutput.Figure(proof.FanOnCelsius),
                ["fan_off_C"] = FluidOutput.Figure(proof.FanOffCelsius),
                ["findings"] = FluidOutput.Sentences(proof.Findings()),
                ["codes"] = Output.List(codes, code => new JsonObject
                {
                    ["code"] = code.Code,
                    ["system"] = code.System,
                    ["defined_by"] = code.Definer,
                    ["group"] = code.Group,
                    ["meaning"] = code.Meaning ?? code.Sentence,
                }),
                ["cautions"] = FluidOutput.Sentences(FluidCautions.WarmUp),
            });
            return 0;
        }

        foreach (var sentence in proof.Findings())
        {
            Console.WriteLine(sentence);
        }

        foreach (var code in codes)
        {
            Console.WriteLine(code.Sentence);
        }

        if (codes.Count > 0)
        {
            Console.WriteLine(WarmupFinding.AboutCodes);
        }

        Draw(proof);
        FluidOutput.Cautions(FluidCautions.WarmUp);
        return 0;
    }

    private static string Word(WarmupVerdict verdict) => verdict switch
    {
        WarmupVerdict.Overheating => "overheating",
        WarmupVerdict.AirLockSuspected => "air lock suspected",
        WarmupVerdict.NoFlowToRadiator => "no flow to radiator",
        WarmupVerdict.RunsCold => "runs cold",
        WarmupVerdict.NotWarmYet => "not warm yet",
        _ => "regulating",
    };

    // Engine as *, heater as o, the thermostat's opening as a bar.
    private static void Draw(WarmupProof proof)
    {
        var readings = proof.Log.Readings;
        double first = readings[0].Seconds, span = readings[^1].Seconds - first;
        var low = Math.Floor(readings.Min(reading => Math.Min(reading.EngineCelsius, reading.HeaterCelsius ?? reading.EngineCelsius)) / 10) * 10;
        var high = Math.Ceiling((proof.HottestCelsius + 0.1) / 10) * 10;
        var picture = Enumerable.Range(0, PictureRows).Select(_ => Enumerable.Repeat(' ', PictureColumns).ToArray()).ToArray();
        int Column(double seconds) => (int)((seconds - first) / span * (PictureColumns - 1));
        int Row(double celsius) => PictureRows - 1 - (int)Math.Clamp((celsius - low) / (high - low) * (PictureRows - 1), 0, PictureRows - 1);
        if (proof.Opening is { } opening)
        {
            foreach (var line in picture)
            {
                line[Column(opening.Seconds)] = '|';
            }
        }

        foreach (var reading in readings)
        {
            if (reading.HeaterCelsius is { } heater)
            {
                picture[Row(heater)][Column(reading.Seconds)] = 'o';
            }

            picture[Row(reading.EngineCelsius)][Column(reading.Seconds)] = '*';
        }

        Console.WriteLine();
        for (var row = 0; row < PictureRows; row++)
        {
            FluidOutput.Line($"{(row == 0 ? high : row == PictureRows - 1 ? low : null),4:0} {new string(picture[row]).TrimEnd()}");
        }

        FluidOutput.Line($"  °C over {span / 60:0.0} min: * engine{(readings.Any(reading => reading.HeaterCelsius is not null) ? ", o heater" : "")}{(proof.Opening is null ? "" : ", | thermostat opens")}");
    }
}
