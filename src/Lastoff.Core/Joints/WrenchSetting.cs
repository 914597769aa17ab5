using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>What to set on a torque wrench that carries a crow's foot or an extension lying in the plane of its lever.</summary>
/// <remarks>
/// Levers: the wrench senses the moment of the hand about its own square, and the fastener gets the moment about itself, longer by the part of the
/// extension that lies along the lever. At 90° nothing changes; turned back the fastener gets less. It holds for a hand at the grip pulling square to the lever.
/// A socket extension along the axis of the bolt changes nothing and is not meant here.
/// </remarks>
public static class WrenchSetting
{
    /// <param name="lever_mm">From the wrench's square to the middle of the grip.</param>
    /// <param name="extension_mm">From the wrench's square to the middle of the fastener.</param>
    /// <param name="angle_deg">Between the lever's line, carried on, and the extension: 0 in line, 90 square, 180 folded back.</param>
    public static Answer<Torque> For(Torque atFastener, double lever_mm, double extension_mm, double angle_deg) =>
        Ratio(lever_mm, extension_mm, angle_deg).TryGet(out var ratio, out var sentence)
            ? Answer.Of(Torque.FromNewtonMetres(atFastener.NewtonMetres / ratio))
            : Answer.None<Torque>(sentence);

    /// <summary>Torque at the fastener for each newton metre set.</summary>
    public static Answer<double> Ratio(double lever_mm, double extension_mm, double angle_deg)
    {
        if (!(lever_mm is > 0 and <= 5000))
        {
            return Answer.None<double>(string.Create(CultureInfo.InvariantCulture, $"A lever of {lever_mm:0.##} mm is not a wrench; measure from the square to the middle of the grip."));
        }

        if (!(extension_mm >= 0 && extension_mm < lever_mm))
        {
            return Answer.None<double>(string.Create(CultureInfo.InvariantCulture, $"An extension of {extension_mm:0.##} mm on a lever of {lever_mm:0.##} mm is outside what this holds for; it is shorter than the lever."));
        }

        return angle_deg is >= 0 and <= 180
            ? Answer.Of((lever_mm + extension_mm * Math.Cos(angle_deg * Math.PI / 180)) / lever_mm)
            : Answer.None<double>(string.Create(CultureInfo.InvariantCulture, $"An angle of {angle_deg:0.##}° is not between 0° (in line) and 180° (folded back)."));
    }
}
