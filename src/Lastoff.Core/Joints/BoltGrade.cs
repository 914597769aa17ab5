namespace Lastoff.Core.Joints;

/// <summary>The strength of metric property classes (ISO 898-1:2013, table 3) and of inch grades (SAE J429).</summary>
/// <remarks>ISO 898-1 read in a fastener dealer's reprint of EN ISO 898-1:2013; SAE J429 in a bolt maker's reprint. Both are for ambient temperature.</remarks>
public static class BoltGrade
{
    private const double Inch = Measure.MillimetresPerInch;

    private static readonly (string Name, double Above_mm, double UpTo_mm, double Proof, double Yield, double Tensile)[] Classes =
    [
        ("4.6", 0, 39, 225, 240, 400),
        ("4.8", 0, 39, 310, 340, 420),
        ("5.6", 0, 39, 280, 300, 500),
        ("5.8", 0, 39, 380, 420, 520),
        ("6.8", 0, 39, 440, 480, 600),
        ("8.8", 0, 16, 580, 640, 800),
        ("8.8", 16, 39, 600, 660, 830),
        ("9.8", 0, 16, 650, 720, 900),
        ("10.9", 0, 39, 830, 940, 1040),
        ("12.9", 0, 39, 970, 1100, 1220),
    ];

    // In ksi, for sizes from 1/4 in.
    private static readonly (string Name, double Above_mm, double UpTo_mm, double Proof, double Yield, double Tensile)[] Grades =
    [
        ("2", 0, 0.75 * Inch, 55, 57, 74),
        ("2", 0.75 * Inch, 1.5 * Inch, 33, 36, 60),
        ("5", 0, 1 * Inch, 85, 92, 120),
        ("5", 1 * Inch, 1.5 * Inch, 74, 81, 105),
        ("8", 0, 1.5 * Inch, 120, 130, 150),
    ];

    /// <summary>The strength a bolt of this thread has in the class (metric) or grade (inch) marked on its head.</summary>
    public static Answer<Strength> Of(string mark, ScrewThread thread)
    {
        var name = mark.Trim().ToLowerInvariant();
        foreach (var word in (string[])["sae", "j429", "class", "grade", "gr"])
        {
            name = name.Replace(word, "");
        }

        name = name.Trim(' ', '.');
        return thread.IsMetric ? Metric(mark.Trim(), name, thread) : Inches(mark.Trim(), name, thread);
    }

    private static Answer<Strength> Metric(string mark, string name, ScrewThread thread)
    {
        if (Find(Classes, name, thread) is { } row)
        {
            return Answer.Of(new Strength(name, row.Proof, row.Yield, row.Tensile));
        }

        return Answer.None<Strength>(
            name == "9.8" ? $"{thread}: class 9.8 is made up to M16 only; read the head again."
            : Array.Exists(Classes, c => c.Name == name) ? $"{thread}: ISO 898-1 gives strengths for M1.6 to M39 only, so nothing is computed."
            : $"“{mark}” is not a property class of ISO 898-1 for metric bolts; they are 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9 and 12.9.");
    }

    private static Answer<Strength> Inches(string mark, string name, ScrewThread thread)
    {
        if (thread.Diameter_mm >= 0.25 * Inch && Find(Grades, name, thread) is { } row)
        {
            const double Ksi = 1000 * Measure.MegapascalsPerPsi;
            return Answer.Of(new Strength($"grade {name}", row.Proof * Ksi, row.Yield * Ksi, row.Tensile * Ksi));
        }

        return Answer.None<Strength>(Array.Exists(Grades, g => g.Name == name)
            ? $"{thread}: SAE J429 gives strengths for 1/4 to 1 1/2 inch only, so nothing is computed."
            : $"“{mark}” is not one of the SAE J429 grades for inch bolts known here; they are grade 2, grade 5 and grade 8.");
    }

    private static (string Name, double Above_mm, double UpTo_mm, double Proof, double Yield, double Tensile)? Find(
        (string Name, double Above_mm, double UpTo_mm, double Proof, double Yield, double Tensile)[] rows, string name, ScrewThread thread)
    {
        var at = Array.FindIndex(rows, r => r.Name == name && thread.Diameter_mm > r.Above_mm && thread.Diameter_mm <= r.UpTo_mm);
        return at < 0 ? null : rows[at];
    }
}
