namespace Lastoff.Core.Filling;

/// <summary>How what came out stands to what the map says comes out.</summary>
public enum Outflow
{
    /// <summary>As much as comes out as a rule, or nobody measured.</summary>
    AsUsual,
    /// <summary>More than it holds: something else had got in.</summary>
    TooMuch,
    /// <summary>Some is still in it, or was lost before.</summary>
    TooLittle,
}

/// <summary>What goes into what was drained, by the map, and what to make of what came out.</summary>
/// <param name="Litres">All it holds but what stays in.</param>
public sealed record WhatToPour(double Litres, Outflow Outflow)
{
    // A can and a jug are not read more closely. Set down, no source.
    private const double Close = 0.05;

    /// <param name="cameOutLitres">Null when nobody measured.</param>
    public static WhatToPour Of(double holdsLitres, double staysLitres, double? cameOutLitres)
    {
        var goesIn = holdsLitres - staysLitres;
        return new WhatToPour(goesIn, cameOutLitres > holdsLitres * (1 + Close) ? Outflow.TooMuch : cameOutLitres < goesIn * (1 - Close) ? Outflow.TooLittle : Outflow.AsUsual);
    }
}
