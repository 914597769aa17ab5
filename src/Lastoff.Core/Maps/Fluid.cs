using Lastoff.Core.Fluids;

namespace Lastoff.Core.Maps;

/// <summary>What goes into a fluid supply, as the machine's maker asks for it.</summary>
/// <param name="Glycol">What keeps a coolant from freezing; null when the map does not say.</param>
/// <param name="TargetPercent">Glycol by volume, once it is filled.</param>
/// <param name="Label">What must stand on the label of what is poured.</param>
/// <param name="Cap">What is printed on the pressure cap.</param>
/// <param name="Stays_L">What stays in when it is drained as the map says.</param>
public sealed record Fluid(Glycol? Glycol, double? TargetPercent, string? Label, Pressure? Cap, double? Stays_L);

/// <summary>What a vacuum or pressure hold is judged by.</summary>
/// <param name="Volume_L">What holds the gas.</param>
/// <param name="Allowed">The leak that matters.</param>
/// <param name="Resolution">What the dial can be read to.</param>
public sealed record HoldNeeds(double? Volume_L, LeakRate? Allowed, Pressure? Resolution);
