namespace Lastoff.Core.Joints;

/// <summary>A torque tool's type and class by ISO 6789, which say how far off it may be.</summary>
/// <remarks>
/// Type II class A (adjustable, with a scale) read in a reprint of ISO 6789 in a wrench's instructions; the other classes from memory of ISO 6789:2003
/// and ISO 6789-1:2017, which agree.
/// </remarks>
public sealed record WrenchClass(string Name, string Words)
{
    public static IReadOnlyList<WrenchClass> All { get; } =
    [
        new("I-A", "bending or torsion bar"),
        new("I-B", "rigid housing with dial or scale"),
        new("I-C", "rigid housing, electronic"),
        new("I-D", "screwdriver with scale"),
        new("I-E", "electronic screwdriver"),
        new("II-A", "clicks, adjustable, with scale"),
        new("II-B", "clicks, fixed"),
        new("II-C", "clicks, adjustable, without scale"),
        new("II-D", "screwdriver, adjustable, with scale"),
        new("II-E", "screwdriver, fixed"),
        new("II-F", "screwdriver, adjustable, without scale"),
        new("II-G", "bending bar, adjustable, with scale"),
    ];

    public static Answer<WrenchClass> Named(string name) => All.FirstOrDefault(c => c.Name.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase)) is { } found
        ? Answer.Of(found)
        : Answer.None<WrenchClass>($"“{name}” is not a type and class of ISO 6789; they are {string.Join(", ", All.Select(c => c.Name))}.");

    /// <summary>How far the tool may be off, as a share of the reading: 4 % for most classes above 10 N·m, else 6 %.</summary>
    public double Deviation(double toolMax_Nm) => Name is "I-B" or "I-C" or "I-E" or "II-A" or "II-B" or "II-C" && toolMax_Nm > 10 ? 0.04 : 0.06;
}
