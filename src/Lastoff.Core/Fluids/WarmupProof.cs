using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>What a warm-up has shown, the gravest first.</summary>
public enum WarmupVerdict
{
    /// <summary>Past the limit, or on its way there.</summary>
    Overheating,

    /// <summary>The heater stays cold while the engine is hot.</summary>
    AirLockSuspected,

    /// <summary>The hose to the radiator stays cold while the engine is hot.</summary>
    NoFlowToRadiator,

    /// <summary>It levels off too cold.</summary>
    RunsCold,

    /// <summary>The log ends before the temperature levels off.</summary>
    NotWarmYet,

    /// <summary>It warms, the thermostat opens, and the temperature stays in a band.</summary>
    Regulating,
}

/// <summary>When and at what temperature the thermostat opened, with 95 % intervals.</summary>
public sealed record ThermostatOpening(double Seconds, double SecondsLow, double SecondsHigh, double Celsius, double CelsiusLow, double CelsiusHigh);

/// <summary>The temperatures between which nine tenths of the readings lie once the thermostat has opened.</summary>
public sealed record RegulationBand(double LowCelsius, double MeanCelsius, double HighCelsius);

/// <summary>The temperature's trend once it should have levelled off, K/min, with a 95 % interval, and the rise it makes over that time.</summary>
public sealed record WarmupTrend(double KelvinsPerMinute, double Low, double High, double RiseKelvins);

/// <summary>What a warm-up log proves.</summary>
public sealed record WarmupProof
{
    // All of these are common practice, no source.
    private const double LimitCelsiusUnlessGiven = 115;
    private const double HotEngineCelsius = 80;
    private const double ColdHeaterCelsius = 50;
    private const double ColdHoseCelsius = 45;
    private const double StaysColdSeconds = 180;
    private const double RunsColdBelowCelsius = 75;
    private const double RiseThatCounts = 4;
    private const double BendThatCounts = 0.4;
    private const double BeginningThatCounts = 0.7;
    private const double PeakStandsSeconds = 90;
    private const double TrendTakesSeconds = 300;
    private const double RadiatorMustFlowCelsius = 100;

    private WarmupProof(WarmupLog log, double? limitCelsius)
    {
        Log = log;
        LimitCelsius = limitCelsius ?? LimitCelsiusUnlessGiven;
        var readings = log.Readings;
        Opening = FindOpening(readings);
        if (Opening is { } opening)
        {
            var after = readings.Where(reading => reading.Seconds >= opening.Seconds).ToList();
            var sorted = after.Select(reading => reading.EngineCelsius).Order().ToList();
            Band = new RegulationBand(Share(sorted, 0.05), sorted.Average(), Share(sorted, 0.95));
            Trend = FindTrend(readings, opening);
        }

        (FanOnCelsius, FanOffCelsius) = FanSwitching(readings);
        HottestCelsius = readings.Max(reading => reading.EngineCelsius);
        HeaterColdSeconds = ColdAtTheEnd(readings, reading => reading.HeaterCelsius, HotEngineCelsius, ColdHeaterCelsius);
        RadiatorColdSeconds = ColdAtTheEnd(readings, reading => reading.UpperHoseCelsius, RadiatorMustFlowCelsius, ColdHoseCelsius);
        Verdict = Judge();
    }

    public WarmupLog Log { get; }
    public double LimitCelsius { get; }
    public ThermostatOpening? Opening { get; }
    public RegulationBand? Band { get; }
    public WarmupTrend? Trend { get; }
    public double HottestCelsius { get; }

    /// <summary>The mean temperature at which the fan came on, if it was logged and did.</summary>
    public double? FanOnCelsius { get; }

    /// <inheritdoc cref="FanOnCelsius"/>
    public double? FanOffCelsius { get; }

    /// <summary>How long, up to the end of the log, the heater stayed cold while the engine was hot.</summary>
    public double HeaterColdSeconds { get; }

    /// <summary>The same for the hose to the radiator.</summary>
    public double RadiatorColdSeconds { get; }

    public WarmupVerdict Verdict { get; }

    /// <summary>The rise since opening is sure, and large enough to matter.</summary>
    public bool KeepsRising => Trend is { Low: > 0, RiseKelvins: > RiseThatCounts };

    /// <param name="limitCelsius">Where the maker's gauge goes red; nothing for 115 °C.</param>
    public static WarmupProof Of(WarmupLog log, double? limitCelsius = null) => new(log, limitCelsius);

    /// <summary>The verdict and what else was seen, a sentence each.</summary>
    public IEnumerable<string> Findings()
    {
        yield return Verdict switch
        {
            WarmupVerdict.Overheating when HottestCelsius >= LimitCelsius => Text($"Overheating: {HottestCelsius:0} °C reached, the limit is {LimitCelsius:0} °C. Stop the engine and let it cool before anything is opened."),
            WarmupVerdict.Overheating => Text($"Overheating: since the thermostat opened it rises by {Trend!.KelvinsPerMinute:0.0} K a minute and does not level off. Stop before {LimitCelsius:0} °C; look at fan, flow and trapped air."),
            WarmupVerdict.AirLockSuspected => Text($"Air lock suspected: the heater's outlet stayed below {ColdHeaterCelsius} °C for {HeaterColdSeconds / 60:0.#} min with the engine above {HotEngineCelsius} °C. Let it cool and bleed again; if the level is right, a blocked heater looks the same."),
            WarmupVerdict.NoFlowToRadiator => Text($"No flow to the radiator: its upper hose stayed below {ColdHoseCelsius} °C for {RadiatorColdSeconds / 60:0.#} min with the engine above {RadiatorMustFlowCelsius} °C. The thermostat stays shut, air is trapped, or the pump does not pump."),
            WarmupVerdict.RunsCold => Text($"Runs cold: it levels off at {Band!.MeanCelsius:0} °C. A thermostat that stays open, or a wrong one, does this."),
            WarmupVerdict.NotWarmYet => Text($"Not warm yet: the log ends at {Log.Readings[^1].EngineCelsius:0} °C and the temperature has not levelled off. Go on logging until the fan has run."),
            _ => "Regulating: the engine warms up, the thermostat opens and the temperature stays in its band.",
        };

        if (Opening is { } opening)
        {
            yield return Text($"The rise bends at {opening.Celsius:0.0} °C ({opening.CelsiusLow:0.0} to {opening.CelsiusHigh:0.0}), {opening.Seconds / 60:0.0} min into the log: ")
                + (Verdict == WarmupVerdict.RunsCold ? "heat and cooling balance there." : "the thermostat opens.");
        }

        if (Band is { } band)
        {
            yield return Text($"After that it stays between {band.LowCelsius:0.0} and {band.HighCelsius:0.0} °C, {band.MeanCelsius:0.0} °C on average.");
        }

        yield return (FanOnCelsius, FanOffCelsius, Log.Readings.Any(reading => reading.Fan is not null)) switch
        {
            ({ } on, { } off, _) => Text($"The fan comes on at {on:0.0} °C and goes off at {off:0.0} °C."),
            ({ } on, null, _) => Text($"The fan comes on at {on:0.0} °C and is not seen going off."),
            (_, _, true) => "The fan is not seen coming on: wait for it before the proof is whole.",
            _ => "The fan was not logged: add a column fan with 0 and 1, or see it come on and go off.",
        };

        if (Log.Readings.All(reading => reading.HeaterCelsius is null))
        {
            yield return "The heater was not logged, so trapped air may go unseen: feel its outlet or add a column heater_C.";
        }
    }

    private WarmupVerdict Judge() =>
        HottestCelsius >= LimitCelsius || KeepsRising ? WarmupVerdict.Overheating
        : HeaterColdSeconds >= StaysColdSeconds ? WarmupVerdict.AirLockSuspected
        : RadiatorColdSeconds >= StaysColdSeconds ? WarmupVerdict.NoFlowToRadiator
        : Band is null ? WarmupVerdict.NotWarmYet
        : Band.MeanCelsius < RunsColdBelowCelsius ? WarmupVerdict.RunsCold
        : WarmupVerdict.Regulating;

    // A warm-up slows down all the way, so only its upper half is taken for the first line. That the temperature levels off is seen on the whole of what
    // follows; where the thermostat begins to open, on the stretch up to the first peak, because what follows is the fan's doing. A thermostat opens over
    // several degrees: the interval runs from the one bend to the other.
    private static ThermostatOpening? FindOpening(IReadOnlyList<WarmupReading> readings)
    {
        var coldest = readings[0].EngineCelsius;
        var half = coldest + ((readings.Max(reading => reading.EngineCelsius) - coldest) / 2);
        var upper = readings.SkipWhile(reading => reading.EngineCelsius < half).ToList();
        if (Bend(upper, BendThatCounts) is not { } levels)
        {
            return null;
        }

        var begins = Bend(upper[..(FirstPeak(upper) + 1)], BeginningThatCounts) is { } first && first.Bend < levels.Bend ? first : levels;
        return new ThermostatOpening(
            begins.Bend, begins.BendLow, Math.Max(begins.BendHigh, levels.BendHigh),
            begins.Level, begins.LevelAt(begins.BendLow), Math.Max(begins.LevelAt(begins.BendHigh), levels.LevelAt(levels.BendHigh)));
    }

    private static BrokenLine? Bend(List<WarmupReading> readings, double counts) =>
        BrokenLine.Of([.. readings.Select(reading => reading.Seconds)], [.. readings.Select(reading => reading.EngineCelsius)]) is { SlopeBefore: > 0 } line
            && line.SlopeAfter <= counts * line.SlopeBefore ? line : null;

    // Neighbouring readings are alike and a fan makes them swing, so single readings are no witnesses; the means of five equal stretches are. They begin at
    // the first peak, after the overshoot, or where it levels off if it is still rising.
    private static WarmupTrend? FindTrend(IReadOnlyList<WarmupReading> readings, ThermostatOpening opening)
    {
        const int Stretches = 5;
        var after = readings.Where(reading => reading.Seconds >= opening.Seconds).ToList();
        var peak = FirstPeak(after);
        var from = peak < after.Count / 2 ? after[peak].Seconds : opening.SecondsHigh;
        var settled = after.Where(reading => reading.Seconds >= from).ToList();
        if (settled.Count < 2 * Stretches || settled[^1].Seconds - settled[0].Seconds < TrendTakesSeconds)
        {
            return null;
        }

        var stretches = settled.Chunk((settled.Count + Stretches - 1) / Stretches).ToList();
        var line = LineFit.Of(
            [.. stretches.Select(stretch => stretch.Average(reading => reading.Seconds) / 60)],
            [.. stretches.Select(stretch => stretch.Average(reading => reading.EngineCelsius))]);
        var reach = StudentT.Quantile(0.975, line.Count - 2) * line.SlopeDeviation;
        return new WarmupTrend(line.Slope, line.Slope - reach, line.Slope + reach, line.Slope * (settled[^1].Seconds - settled[0].Seconds) / 60);
    }

    // The first reading that no other exceeds for a while.
    private static int FirstPeak(List<WarmupReading> readings) => readings.FindIndex(reading => readings.All(later =>
        later.Seconds < reading.Seconds || later.Seconds > reading.Seconds + PeakStandsSeconds || later.EngineCelsius <= reading.EngineCelsius));

    private static (double? On, double? Off) FanSwitching(IReadOnlyList<WarmupReading> readings)
    {
        var on = new List<double>();
        var off = new List<double>();
        for (var i = 1; i < readings.Count; i++)
        {
            if (readings[i - 1].Fan is { } before && readings[i].Fan is { } now && before != now)
            {
                // It switches between two readings: at the hotter of them when it comes on, at the colder when it goes off.
                double one = readings[i - 1].EngineCelsius, other = readings[i].EngineCelsius;
                (now ? on : off).Add(now ? Math.Max(one, other) : Math.Min(one, other));
            }
        }

        return (on.Count > 0 ? on.Average() : null, off.Count > 0 ? off.Average() : null);
    }

    private static double ColdAtTheEnd(IReadOnlyList<WarmupReading> readings, Func<WarmupReading, double?> place, double hot, double cold)
    {
        var i = readings.Count - 1;
        while (i >= 0 && readings[i].EngineCelsius >= hot && place(readings[i]) < cold)
        {
            i--;
        }

        return i == readings.Count - 1 ? 0 : readings[^1].Seconds - readings[i + 1].Seconds;
    }

    private static double Share(List<double> sorted, double share)
    {
        var place = share * (sorted.Count - 1);
        var below = Math.Min((int)place, sorted.Count - 2);
        return sorted.Count == 1 ? sorted[0] : sorted[below] + ((place - below) * (sorted[below + 1] - sorted[below]));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
