using Lastoff.App.Device;

namespace Lastoff.App.Floor.Fluids;

/// <summary>One of the figures read each time.</summary>
/// <param name="Field">Where a half-typed one is kept.</param>
/// <param name="Name">How the table calls it, with its unit: "p_inHg_vacuum".</param>
/// <param name="IsNeeded">A reading without it says nothing.</param>
/// <param name="IsSwitch">It is on or off.</param>
/// <param name="IsAllOrNone">It is read every time or never: the first reading decides.</param>
public sealed record ReadingColumn(string Field, string Label, string Name, Quantity Quantity, bool IsNeeded, bool IsSwitch = false, bool IsAllOrNone = false);
