using Lastoff.Core.Joints;
using Lastoff.Core.Planning;

namespace Lastoff.App.Device;

/// <summary>An entry as the device keeps it.</summary>
/// <param name="Waiting">1 while the server does not have it; the field is missing once it does, so that the index holds only what waits.</param>
/// <param name="Refused">Why the server did not take it.</param>
public sealed record KeptEntry(string Id, string Job, string Device, long Seq, string Line, int? Waiting = null, string? Refused = null);

/// <summary>A job on this device.</summary>
/// <param name="UpTo">How far it has been read from the server, in the server's own count.</param>
/// <param name="Entries">How many entries the server had of it then.</param>
public sealed record KeptJob(string Id, string Map, long? UpTo = null, long? Entries = null);

/// <summary>A job for the list of jobs.</summary>
/// <param name="Count">How many entries of it are on this device.</param>
/// <param name="Line">Its line as it was last kept; null when none was.</param>
public sealed record ShownJob(KeptJob Job, int Count, string? Line);

/// <summary>A map on this device's shelf: which text is the newest under its name.</summary>
/// <param name="Hash">The SHA-256 of that text.</param>
public sealed record KeptMap(string Name, string Title, bool Invented, string Hash);

/// <summary>A map's text as the device keeps it, for good: under its SHA-256.</summary>
/// <param name="Name">The name of the map.</param>
/// <param name="By">Who saved it on this device; null when it came from the server.</param>
/// <param name="EditedFrom">The SHA-256 of the text it was edited from; null for a new map, and when it came from the server.</param>
/// <param name="Waiting">While the server does not have it: which saving on this device it was, from 1; 0 when the server had it and lost it.</param>
/// <param name="Refused">Why the server did not take it as the newest.</param>
/// <param name="Newest">The SHA-256 of the newest text there, when it is another one than this was edited from.</param>
public sealed record KeptText(
    string Hash, string Name, string Yaml, string? By = null, string? EditedFrom = null, long? Waiting = null, string? Refused = null, string? Newest = null);

/// <summary>A plan made earlier, so that it need not be worked out again at every start.</summary>
/// <param name="Map">The fingerprint of the map it was made from.</param>
/// <param name="IsFirst">Made at once on this device; the server has not been asked yet whether it finds a better one.</param>
public sealed record KeptPlan(string Map, Plan Plan, bool IsFirst = false);

/// <summary>An entry that the server would not take.</summary>
public sealed record RefusedEntry(string Id, string Why);

/// <summary>A torque wrench as the device keeps it.</summary>
/// <param name="Class">Type and class by ISO 6789.</param>
public sealed record KeptWrench(string Name, string Class, double Lowest_Nm, double Highest_Nm, double Step_Nm, double Lever_mm, DateOnly? CalibrationDue)
{
    public Wrench AsWrench() => new(
        Name, WrenchClass.Named(Class).Or(_ => WrenchClass.All[0]), Torque.FromNewtonMetres(Lowest_Nm), Torque.FromNewtonMetres(Highest_Nm), Step_Nm, Lever_mm, CalibrationDue);
}

/// <param name="Unit">The sign of the unit tightness is shown in.</param>
/// <param name="InHand">The name of the wrench last taken.</param>
public sealed record KeptToolbox(List<KeptWrench> Wrenches, string Unit, string? InHand, double Extension_mm, double Angle_deg)
{
    public static KeptToolbox Empty { get; } = new([], TorqueUnit.NewtonMetre.Sign(), null, 0, 0);
}
