namespace Lastoff.Core.Fluids;

/// <summary>Where a gauge's zero is, and which way it counts.</summary>
internal enum GaugeZero
{
    /// <summary>At a perfect vacuum: absolute pressure.</summary>
    Nothing,

    /// <summary>At the weather's pressure, upwards.</summary>
    Weather,

    /// <summary>At the weather's pressure, downwards: a vacuum gauge.</summary>
    WeatherDown,
}

/// <summary>The column of gauge readings: <c>p_kPa_abs</c>, <c>p_psi_gauge</c>, <c>p_inHg_vacuum</c>.</summary>
internal sealed record GaugeColumn(string Name, int Index, string Unit, double PascalsPerUnit, GaugeZero From)
{
    public double Absolute(double reading, Pressure ambient) => From switch
    {
        GaugeZero.Weather => ambient.Pascals + (reading * PascalsPerUnit),
        GaugeZero.WeatherDown => ambient.Pascals - (reading * PascalsPerUnit),
        _ => reading * PascalsPerUnit,
    };

    public static Answer<GaugeColumn> Find(ReadingTable table)
    {
        var index = table.Columns.ToList().FindIndex(name => name.StartsWith("p_", StringComparison.OrdinalIgnoreCase));
        if (index < 0)
        {
            return Answer.None<GaugeColumn>($"{table.Source}: there is no column of gauge readings; name it p_kPa_abs, p_kPa_gauge, p_inHg_vacuum or alike.");
        }

        var name = table.Columns[index];
        var parts = name.Split('_');
        GaugeZero? from = parts.Length != 3 ? null : parts[2].ToLowerInvariant() switch
        {
            "abs" => GaugeZero.Nothing,
            "gauge" => GaugeZero.Weather,
            "vacuum" => GaugeZero.WeatherDown,
            _ => null,
        };
        return from is { } zero && Pressure.PascalsIn(parts[1]) is { } pascals
            ? new GaugeColumn(name, index, parts[1], pascals, zero)
            : Answer.None<GaugeColumn>(
                $"{table.Source}: the column {name} does not say which pressure it is; write p_UNIT_abs, p_UNIT_gauge or p_UNIT_vacuum, with one of {string.Join(", ", Pressure.Units)}.");
    }
}

/// <summary>A column of temperatures: <c>T_C</c>, <c>heater_F</c>.</summary>
internal sealed record TemperatureColumn(string Name, int Index, char Unit)
{
    public double KelvinsPerUnit => Unit == 'F' ? 5.0 / 9 : 1;

    public static TemperatureColumn? Find(ReadingTable table, string quantity)
    {
        foreach (var unit in "CFK")
        {
            if (table.IndexOf($"{quantity}_{unit}") is >= 0 and var index)
            {
                return new TemperatureColumn(table.Columns[index], index, unit);
            }
        }

        return null;
    }

    /// <summary>Nothing when the cell is empty or below absolute zero.</summary>
    public Temperature? At(ReadingTable table, int row) => table.Rows[row].Cells[Index] switch
    {
        null => null,
        { } written when Unit == 'C' && written.Value >= -273.15 => Temperature.FromCelsius(written.Value),
        { } written when Unit == 'F' && written.Value >= -459.67 => Temperature.FromFahrenheit(written.Value),
        { } written when Unit == 'K' && written.Value >= 0 => Temperature.FromKelvins(written.Value),
        _ => null,
    };

    /// <summary>Whether a figure in a column of °C would be a bay's temperature in °F.</summary>
    public bool ReadsLikeFahrenheit(ReadingTable table, int row) => Unit == 'C' && table.Rows[row].Cells[Index] is { Value: < 120 };
}
