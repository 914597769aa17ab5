namespace Lastoff.Tests.Fluids;

/// <summary>Reads the data files beside the tests.</summary>
internal static class FluidData
{
    public static IEnumerable<string> Lines(string name) => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", "fluids", name))
        .Where(line => line.Length > 0 && line[0] != '#')
        .Skip(1);

    public static (double[] X, double[] Y) Norris()
    {
        var points = Lines("norris.csv").Select(line => line.Split(',').Select(cell => double.Parse(cell, System.Globalization.CultureInfo.InvariantCulture)).ToArray()).ToList();
        return ([.. points.Select(point => point[0])], [.. points.Select(point => point[1])]);
    }
}
