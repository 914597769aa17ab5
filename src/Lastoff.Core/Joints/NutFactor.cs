using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>The short form T = K d F. One figure stands for pitch and all friction, so it screens and does not decide.</summary>
/// <remarks>Scatter of preload under torque control: ±25 to ±30 %, read in two fastening references; the wider is used.</remarks>
public sealed record NutFactor
{
    public const double Scatter = 0.30;
    public const string ScreeningOnly = "Screening only: the nut-factor form leaves ±30 % of preload open at the same torque.";

    // The published range of mean nut factors over lubricants, read in the abstract of a handbook chapter on nut factors.
    private const double Least = 0.086;
    private const double Most = 0.52;

    private NutFactor(double k) => K = k;

    public double K { get; }

    public static Answer<NutFactor> Of(double k) => k is >= Least and <= Most
        ? Answer.Of(new NutFactor(k))
        : Answer.None<NutFactor>(string.Create(CultureInfo.InvariantCulture, $"A nut factor of {k} is outside {Least} to {Most}, the range measured over lubricants, so nothing is computed from it."));

    /// <summary>The preload a torque gives on average, without its scatter.</summary>
    public double Preload_N(ScrewThread thread, Torque torque) => torque.NewtonMetres * 1000 / (K * thread.Diameter_mm);

    /// <summary>The preload a torque gives, with its scatter.</summary>
    public Interval PreloadScattered_N(ScrewThread thread, Torque torque)
    {
        var mean = Preload_N(thread, torque);
        return new Interval(mean * (1 - Scatter), mean * (1 + Scatter));
    }

    /// <summary>The torque that gives a preload on average.</summary>
    public Torque TorqueFor(ScrewThread thread, double preload_N) => Torque.FromNewtonMetres(K * thread.Diameter_mm * preload_N / 1000);
}
