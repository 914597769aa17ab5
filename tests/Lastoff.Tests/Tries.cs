namespace Lastoff.Tests;

/// <summary>How many random cases a costly property is tried on: few in <c>./test</c>, LASTOFF_TRIES times as many in <c>bench -- properties</c>.</summary>
internal static class Tries
{
    private static readonly int s_times = int.TryParse(Environment.GetEnvironmentVariable("LASTOFF_TRIES"), out var times) ? times : 1;

    public static int Of(int cases) => cases * s_times;
}
