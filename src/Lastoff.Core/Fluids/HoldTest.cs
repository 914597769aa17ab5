using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>What a hold has shown.</summary>
public enum HoldVerdict
{
    /// <summary>A leak as large as the one that matters is ruled out.</summary>
    Tight,

    /// <summary>No leak at all is ruled out.</summary>
    Leaking,

    /// <summary>Neither is ruled out.</summary>
    CannotTellYet,
}

/// <summary>What the hold is judged with.</summary>
/// <param name="VolumeLitres">The volume that holds the gas.</param>
/// <param name="Ambient">The air's absolute pressure on the spot.</param>
/// <param name="Resolution">What the dial can be read to; nothing to take the last digit written.</param>
/// <param name="AccuracyClassPercent">The dial's accuracy class: its error in percent of the full scale; nothing if unknown.</param>
/// <param name="Allowed">The leak that matters; nothing for the trade's five minutes.</param>
public sealed record HoldSettings(
    double VolumeLitres, Pressure Ambient, Pressure? Resolution = null, double? AccuracyClassPercent = null, LeakRate? Allowed = null);

/// <summary>A leak rate from a hold, with what it means.</summary>
public sealed record HoldTest
{
    /// <summary>The interval that is shown.</summary>
    public const double ShownConfidence = 0.95;

    // The verdict uses a wider one: half of one percent on each side keeps false alarms under one in a hundred.
    private const double VerdictConfidence = 0.99;

    // With no leak named, the one the trade would see: a needle that moves 2 kPa in five minutes (common practice, no source).
    private const double SeenByTradePascalsPerSecond = 2000.0 / 300;

    // To be right nine times in ten, the leak must be this much wider than the half-width of the interval.
    private const double WidthsForPower = 1.5;

    private HoldTest(HoldReadings hold, HoldSettings settings)
    {
        var readings = hold.Readings;
        Kind = hold.Kind;
        WatchedSeconds = readings[^1].Seconds - readings[0].Seconds;
        var kelvins = readings.All(reading => reading.Temperature is not null) ? readings.Select(reading => reading.Temperature!.Value.Kelvins).ToArray() : null;
        MeanTemperature = kelvins is null ? Assumed : Temperature.FromKelvins(kelvins.Average());

        // Pressure as it would be at the mean temperature: what is left of its trend is gas that came or went.
        double[] seconds = [.. readings.Select(reading => reading.Seconds)];
        double[] scale = kelvins is null ? [.. seconds.Select(_ => 1.0)] : [.. kelvins.Select(kelvin => MeanTemperature.Kelvins / kelvin)];
        double[] pascals = [.. readings.Select((reading, i) => reading.Absolute.Pascals * scale[i])];
        Division = settings.Resolution?.Pascals ?? hold.WrittenStep;
        var line = new RoundedLine(seconds, pascals, [.. scale.Select(factor => factor * Division)]);
        MeanAbsolute = Pressure.FromPascals(readings.Average(reading => reading.Absolute.Pascals));
        AtMeanTemperature = [.. seconds.Zip(pascals, (second, pascal) => new HoldReading(second, Pressure.FromPascals(pascal), MeanTemperature))];

        // Gas goes in under vacuum and out under pressure: that is a leak above zero.
        var side = Kind == HoldKind.Vacuum ? 1 : -1;
        var volume = settings.VolumeLitres / 1000;
        PascalsPerThroughput = side / volume;
        var drift = volume * MeanAbsolute.Pascals * hold.TemperatureUncertain / (MeanTemperature.Kelvins * WatchedSeconds);
        Throughput = side * volume * line.Slope;

        // Within its class a dial may be low at one end of the scale and high at the other: a slope off by up to twice the class.
        var gain = Math.Abs(Throughput) * 2 * (settings.AccuracyClassPercent ?? 0) / 100;
        var systematic = Math.Sqrt((drift * drift) + (gain * gain));
        SlopeInterval Leak(double confidence)
        {
            var slopes = line.Interval(confidence);
            return (side > 0 ? new SlopeInterval(volume * slopes.Low, volume * slopes.High) : new SlopeInterval(-volume * slopes.High, -volume * slopes.Low))
                .With(systematic, Throughput);
        }

        Interval = Leak(ShownConfidence);
        var judged = Leak(VerdictConfidence);
        AllowedThroughput = settings.Allowed?.ThroughputAt(MeanTemperature) ?? (volume * SeenByTradePascalsPerSecond);
        Verdict = judged.High < AllowedThroughput ? HoldVerdict.Tight : judged.Low > 0 ? HoldVerdict.Leaking : HoldVerdict.CannotTellYet;
        WatchLongerSeconds = Verdict == HoldVerdict.CannotTellYet ? Longer(judged, drift, volume) : 0;
        Notes = [.. hold.Notes, .. Remarks(settings, judged)];
        Loss = CoolantLoss.Of(Throughput, Higher(settings.Ambient), Lower(settings.Ambient));
        LossStillPossible = CoolantLoss.Of(Interval.High, Higher(settings.Ambient), Lower(settings.Ambient));
    }

    private static Temperature Assumed { get; } = Temperature.FromCelsius(20);

    public HoldKind Kind { get; }
    public double WatchedSeconds { get; }
    public Temperature MeanTemperature { get; }
    public Pressure MeanAbsolute { get; }

    /// <summary>The readings as they would be had it kept one temperature: what is left of their trend is gas that came or went.</summary>
    public IReadOnlyList<HoldReading> AtMeanTemperature { get; }

    /// <summary>What the dial was read to, in pascals.</summary>
    public double Division { get; }

    /// <summary>The leak in Pa·m3/s at <see cref="MeanTemperature"/>: above zero in the direction a leak goes.</summary>
    public double Throughput { get; }

    /// <summary>The same with 95 % confidence.</summary>
    public SlopeInterval Interval { get; }

    /// <summary>The leak that matters, Pa·m3/s.</summary>
    public double AllowedThroughput { get; }

    /// <summary>How fast the pressure rises, in Pa/s, with a leak of one Pa·m3/s: below zero when it falls.</summary>
    public double PascalsPerThroughput { get; }

    public LeakRate Rate => LeakRate.FromThroughput(Throughput, MeanTemperature);
    public HoldVerdict Verdict { get; }

    /// <summary>How much longer to watch, reading as often as before, to tell the leak that matters from none.</summary>
    public double WatchLongerSeconds { get; }

    public CoolantLoss Loss { get; }

    /// <summary>The most that may still hide in the uncertainty.</summary>
    public CoolantLoss LossStillPossible { get; }

    public IReadOnlyList<string> Notes { get; }

    public static Answer<HoldTest> Of(HoldReadings hold, HoldSettings settings)
    {
        if (!(settings.VolumeLitres > 0 && double.IsFinite(settings.VolumeLitres)))
        {
            return Answer.None<HoldTest>("The volume is more than nothing: give what the drained system holds.");
        }

        if (settings.Resolution is { Pascals: 0 } || settings.AccuracyClassPercent is < 0 or > 10)
        {
            return Answer.None<HoldTest>("The dial's resolution is above zero, and its class between 0 and 10 %; read both off the dial.");
        }

        return settings.Allowed is { MolesPerSecond: 0 }
            ? Answer.None<HoldTest>("No test can tell a leak of nothing: give the smallest leak that matters.")
            : new HoldTest(hold, settings);
    }

    private Pressure Higher(Pressure ambient) => Kind == HoldKind.Vacuum ? ambient : MeanAbsolute;

    private Pressure Lower(Pressure ambient) => Kind == HoldKind.Vacuum ? MeanAbsolute : ambient;

    // The half-width falls with time to the power 3/2 where it comes from scatter (more readings, farther apart), and with time where it comes from the
    // dial or from drift. All of it is taken to fall with time only, and the needle has to move two divisions: on the safe side.
    private double Longer(SlopeInterval judged, double drift, double volume)
    {
        var half = (judged.High - judged.Low) / 2;
        var byWidth = WatchedSeconds * WidthsForPower * Math.Max(half, drift) / AllowedThroughput;
        var byDial = 2 * Division * volume / AllowedThroughput;
        return Math.Max(Math.Max(byWidth, byDial) - WatchedSeconds, WatchedSeconds / 4);
    }

    private IEnumerable<string> Remarks(HoldSettings settings, SlopeInterval judged)
    {
        if (settings.Resolution is null)
        {
            yield return Text($"The dial's resolution was not given; it is taken as the last digit written, {Division / 1000:0.###} kPa. If its marks are farther apart, give them.");
        }

        if (settings.Allowed is null)
        {
            yield return Text($"No leak that matters was given; it is taken as one that moves the needle 2 kPa in five minutes, {AllowedThroughput:0.00e0} Pa·m3/s here (common practice, no source).");
        }

        if (judged.High < 0)
        {
            yield return Kind == HoldKind.Vacuum
                ? "The pressure fell during the vacuum hold, which no leak does: the pump still pulled, the gas cooled, or a vacuum gauge's figures stand in a column of absolute pressure."
                : "The pressure rose during the pressure hold, which no leak does: the gas warmed, or the pump still pushed.";
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
