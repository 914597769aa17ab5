using System.Globalization;

namespace Lastoff.Tests.Pricing;

/// <summary>The tables under data/pricing: lines with a # are remarks, the first other line is the heading.</summary>
public static class PricingData
{
    public static IEnumerable<string> Lines(string name) =>
        File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", "pricing", name)).Where(line => line.Length > 0 && line[0] != '#').Skip(1);

    public static string[] Cells(string line) => line.Split('|', StringSplitOptions.TrimEntries);

    public static decimal[] Numbers(string cell) => cell == "-" ? [] : [.. cell.Split(' ').Select(number => decimal.Parse(number, CultureInfo.InvariantCulture))];
}
