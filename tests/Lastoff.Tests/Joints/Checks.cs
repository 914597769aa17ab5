using System.Globalization;
using System.Text.Json;

namespace Lastoff.Tests.Joints;

/// <summary>Published or independently computed values, one row each with its source, read from data/joints.</summary>
internal static class Checks
{
    private static readonly JsonSerializerOptions Options = new() { PropertyNameCaseInsensitive = true };

    public static IReadOnlyList<T> Read<T>(string file)
    {
        var rows = JsonSerializer.Deserialize<T[]>(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "joints", file)), Options)!;
        Assert.NotEmpty(rows);
        return rows;
    }

    /// <summary>Every row agrees within its tolerance; a row marked wrong must be told from the right value by more than that.</summary>
    public static void Walk<T>(string file, Func<T, double> compute) where T : Check => Assert.Multiple([.. Read<T>(file).Select(row => (Action)(() =>
    {
        var actual = compute(row);
        var allowed = row.Tolerance.EndsWith(" %", StringComparison.Ordinal)
            ? double.Parse(row.Tolerance[..^2], CultureInfo.InvariantCulture) / 100 * row.Value
            : double.Parse(row.Tolerance, CultureInfo.InvariantCulture);
        var agrees = Math.Abs(actual - row.Value) <= allowed;
        Assert.True(agrees != row.Wrong, string.Create(CultureInfo.InvariantCulture, $"{row}: computed {actual}"));
    }))]);
}

/// <summary>What every row has; inputs are added by each file's own row.</summary>
internal abstract record Check
{
    public required double Value { get; init; }
    public required string Unit { get; init; }
    public required string Tolerance { get; init; }
    public required string Why { get; init; }
    public required string Source { get; init; }
    /// <summary>A figure that circulates and is wrong, or of another edition.</summary>
    public bool Wrong { get; init; }
}
