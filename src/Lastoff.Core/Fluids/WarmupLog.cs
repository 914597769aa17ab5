using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>One reading of a warm-up, °C; what was not logged has nothing.</summary>
public readonly record struct WarmupReading(double Seconds, double EngineCelsius, double? HeaterCelsius, double? UpperHoseCelsius, double? LowerHoseCelsius, bool? Fan);

/// <summary>
/// A temperature log of an engine warming up. Columns: a time, and <c>engine_C</c> (or <c>T_C</c>); if there are, <c>heater_C</c> (the heater's outlet),
/// <c>upper_hose_C</c>, <c>lower_hose_C</c> and <c>fan</c> (0 or 1). Temperatures may end in _F or _K. <c>pid_05</c> is the raw byte of engine coolant
/// temperature of the diagnostics standard (SAE J1979 / ISO 15031-5, service 01): °C = byte - 40. A column <c>code</c> holds trouble codes, on whichever
/// line they were read.
/// </summary>
/// <param name="Codes">The trouble codes read along with it, each once.</param>
public sealed record WarmupLog(IReadOnlyList<WarmupReading> Readings, IReadOnlyList<TroubleCode> Codes)
{
    private const int FewestReadings = 8;

    // No coolant under a cap reaches this; a plausible °F figure passes it soon.
    private const double HottestCelsius = 140;

    // An engine that never got warmer than this in a column of °F was logged in °C: even the coldest thermostats open higher.
    private const double ColdestWarmFahrenheit = 125;
    private const double CelsiusThermostat = 60;

    public static Answer<WarmupLog> From(ReadingTable table)
    {
        var seconds = table.Seconds();
        if (!seconds.Found)
        {
            return Answer.None<WarmupLog>(seconds.Sentence);
        }

        if (table.Rows.Count < FewestReadings)
        {
            return Answer.None<WarmupLog>($"{table.Source}: there are {table.Rows.Count} readings and a warm-up needs {FewestReadings} or more; log from cold until the fan has run.");
        }

        var raw = table.IndexOf("pid_05");
        var engine = TemperatureColumn.Find(table, "engine") ?? TemperatureColumn.Find(table, "T");
        if (engine is null && raw < 0)
        {
            return Answer.None<WarmupLog>($"{table.Source}: the engine's temperature is missing; name its column engine_C, engine_F, T_C or pid_05.");
        }

        var heater = TemperatureColumn.Find(table, "heater");
        var upper = TemperatureColumn.Find(table, "upper_hose");
        var lower = TemperatureColumn.Find(table, "lower_hose");
        var fan = table.IndexOf("fan");
        var readings = new List<WarmupReading>();
        for (var i = 0; i < table.Rows.Count; i++)
        {
            var celsius = engine?.At(table, i)?.Celsius ?? (engine is null && table.Rows[i].Cells[raw] is { Value: >= 0 and <= 255 } read ? read.Value - 40 : null);
            if (celsius is not { } temperature)
            {
                return Answer.None<WarmupLog>(table.At(i, $"the engine's temperature is missing or impossible; write it in column {engine?.Name ?? "pid_05"}, or take the line out."));
            }

            readings.Add(new WarmupReading(
                seconds.Value[i], temperature, heater?.At(table, i)?.Celsius, upper?.At(table, i)?.Celsius, lower?.At(table, i)?.Celsius,
                fan < 0 || table.Rows[i].Cells[fan] is not { } on ? null : on.Value != 0));
        }

        foreach (var column in new[] { engine, heater, upper, lower }.OfType<TemperatureColumn>())
        {
            if (WrongUnit(table, column) is { } sentence)
            {
                return Answer.None<WarmupLog>(sentence);
            }
        }

        var codes = new List<TroubleCode>();
        for (var i = 0; i < table.Rows.Count; i++)
        {
            if (!TroubleCode.ReadAll(table.Rows[i].Code).TryGet(out var read, out var sentence))
            {
                return Answer.None<WarmupLog>(table.At(i, sentence));
            }

            codes.AddRange(read.Except(codes));
        }

        return new WarmupLog(readings, codes);
    }

    private static string? WrongUnit(ReadingTable table, TemperatureColumn column)
    {
        var figures = table.Rows.Select((row, i) => (Row: i, row.Cells[column.Index]?.Value)).Where(cell => cell.Value is not null).ToList();
        if (figures.Count == 0)
        {
            return null;
        }

        var hottest = figures.MaxBy(cell => cell.Value);
        if (column.Unit == 'C' && hottest.Value > HottestCelsius)
        {
            return table.At(hottest.Row, Text($"{hottest.Value:0.#} in column {column.Name} is hotter than any coolant and reads like Fahrenheit; name the column {column.Name[..^1]}F if it is."));
        }

        return column.Unit == 'F' && hottest.Value is > CelsiusThermostat and < ColdestWarmFahrenheit && figures[0].Value < CelsiusThermostat
            ? table.At(hottest.Row, Text($"the log in {column.Name} ends at {hottest.Value:0.#}, far too cold in Fahrenheit for a warm engine, and reads like Celsius; name the column {column.Name[..^1]}C if it is."))
            : null;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
