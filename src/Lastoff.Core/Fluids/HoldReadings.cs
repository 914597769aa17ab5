using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>What is being held.</summary>
public enum HoldKind
{
    Vacuum,
    Pressure,
}

/// <summary>One reading of a hold, in absolute pressure.</summary>
public readonly record struct HoldReading(double Seconds, Pressure Absolute, Temperature? Temperature);

/// <summary>The readings of one hold, checked and in absolute pressure.</summary>
/// <param name="Kind">Vacuum or pressure.</param>
/// <param name="Readings">In the order taken, two or more.</param>
/// <param name="WrittenStep">The last digit the pressures were written with, in pascals.</param>
/// <param name="TemperatureUncertain">How far the gas may have warmed or cooled without it showing, in kelvins.</param>
/// <param name="Notes">What was noticed and assumed.</param>
public sealed record HoldReadings(
    HoldKind Kind, IReadOnlyList<HoldReading> Readings, double WrittenStep, double TemperatureUncertain, IReadOnlyList<string> Notes)
{
    // A hold is done on a cold system; hotter figures are a hot system or another unit.
    private const double WarmestCelsius = 45;

    // How far a bay and the machine in it may drift during a hold when nobody measured: common practice, no source.
    private const double UnmeasuredDriftKelvins = 1;

    // An absolute reading this near to the weather's pressure is hardly a vacuum.
    private const double ShallowShare = 0.6;

    /// <param name="ambient">The air's absolute pressure on the spot.</param>
    /// <param name="kind">What is held, or nothing to see it from the first reading.</param>
    public static Answer<HoldReadings> From(ReadingTable table, Pressure ambient, HoldKind? kind)
    {
        var seconds = table.Seconds();
        if (!seconds.Found)
        {
            return Answer.None<HoldReadings>(seconds.Sentence);
        }

        if (table.Rows.Count < 2)
        {
            return Answer.None<HoldReadings>($"{table.Source}: there is one reading and a hold needs two or more; write down the gauge again after a while.");
        }

        var gauge = GaugeColumn.Find(table);
        if (!gauge.Found)
        {
            return Answer.None<HoldReadings>(gauge.Sentence);
        }

        var column = gauge.Value;
        var degrees = TemperatureColumn.Find(table, "T");
        var readings = new List<HoldReading>();
        for (var i = 0; i < table.Rows.Count; i++)
        {
            if (table.Rows[i].Cells[column.Index] is not { } written)
            {
                return Refuse(table, i, $"the gauge reading is missing; write it in column {column.Name}.");
            }

            var pascals = column.Absolute(written.Value, ambient);
            if (Impossible(column, written.Value, pascals, ambient) is { } why)
            {
                return Refuse(table, i, why);
            }

            Temperature? temperature = null;
            if (degrees is not null)
            {
                if (degrees.At(table, i) is not { } read)
                {
                    return Refuse(table, i, $"the temperature is missing or impossible; write it in column {degrees.Name}, or leave the whole column out.");
                }

                if (read.Celsius > WarmestCelsius)
                {
                    return Refuse(table, i, degrees.ReadsLikeFahrenheit(table, i)
                        ? Text($"{table.Rows[i].Cells[degrees.Index]!.Value.Value:0.#} in column {degrees.Name} reads like Fahrenheit; name the column T_F if it is. If the system is that hot, let it cool: a hold is done cold.")
                        : Text($"{read} is a hot system; let it cool before a hold."));
                }

                temperature = read;
            }

            readings.Add(new HoldReading(seconds.Value[i], Pressure.FromPascals(pascals), temperature));
        }

        var first = readings[0].Absolute;
        var held = kind ?? (first < ambient ? HoldKind.Vacuum : HoldKind.Pressure);
        if (MixedUp(column, held, first, ambient) is { } mixed)
        {
            return Refuse(table, 0, mixed);
        }

        var notes = new List<string>();
        if (held == HoldKind.Vacuum && column.From == GaugeZero.Nothing && first.Pascals > ShallowShare * ambient.Pascals)
        {
            notes.Add(Text($"{first} absolute is hardly a vacuum; if that is what the vacuum gauge showed, name the column p_{column.Unit}_vacuum."));
        }

        if (degrees is null)
        {
            notes.Add($"No temperature was recorded: {UnmeasuredDriftKelvins} °C of unseen warming or cooling is taken into the uncertainty. A column T_C makes the test sharper.");
        }

        var uncertain = degrees is null ? UnmeasuredDriftKelvins : table.Rows.Max(row => row.Cells[degrees.Index]!.Value.Step) * degrees.KelvinsPerUnit / 2;
        return new HoldReadings(held, readings, table.Rows.Max(row => row.Cells[column.Index]!.Value.Step) * column.PascalsPerUnit, uncertain, notes);
    }

    private static string? Impossible(GaugeColumn column, double value, double pascals, Pressure ambient) => column.From switch
    {
        GaugeZero.WeatherDown when pascals < 0 => Text(
            $"{value:0.##} {column.Unit} of vacuum is more than the weather allows here ({ambient.Pascals / column.PascalsPerUnit:0.##} {column.Unit}); check the unit, the barometer, and that the reading is not absolute."),
        GaugeZero.Weather when pascals < 0 => Text(
            $"{value:0.##} {column.Unit} on the gauge is below a perfect vacuum ({-ambient.Pascals / column.PascalsPerUnit:0.##} {column.Unit} here); check the unit and the barometer."),
        GaugeZero.Nothing when pascals < 0 => Text(
            $"{value:0.##} {column.Unit} is below a perfect vacuum; an absolute pressure has no minus sign, so name the column p_{column.Unit}_gauge if a gauge showed it."),
        _ => null,
    };

    private static string? MixedUp(GaugeColumn column, HoldKind kind, Pressure first, Pressure ambient)
    {
        // 3 % is more than the weather moves away from an unmeasured barometer.
        if (kind == HoldKind.Vacuum && first.Pascals > 1.03 * ambient.Pascals)
        {
            return Text($"{first} absolute is above the weather's {ambient}, so it is no vacuum; if a vacuum gauge showed the figures, name the column p_{column.Unit}_vacuum.");
        }

        return kind == HoldKind.Pressure && first.Pascals < 0.97 * ambient.Pascals
            ? Text($"{first} absolute is below the weather's {ambient}, so nothing is held under pressure; if a pressure gauge showed the figures, name the column p_{column.Unit}_gauge.")
            : null;
    }

    private static Answer<HoldReadings> Refuse(ReadingTable table, int row, string sentence) => Answer.None<HoldReadings>(table.At(row, sentence));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
