using System.Globalization;

namespace Lastoff.Core.Maps;

/// <summary>Every figure is finite, not below what it can be, and not so large that it must be a slip.</summary>
internal static class FigureCheck
{
    // A week without a break: whatever takes longer is a slip of the decimal point, and sums of minutes stay exact.
    private const double MostMinutes = 10_000;
    private const double MostTimes = 100;
    private const int MostCount = 1_000;
    private const double MostAmount = 100_000;

    /// <summary>The units a renewal may be counted in.</summary>
    public static IReadOnlyList<string> RenewalUnits { get; } = ["", "L", "mL", "kg", "g", "m", "cm", "mm", "pair", "set", "tube", "can", "sheet", "roll"];

    public static void Check(Map map, FaultList faults)
    {
        Minutes("set_up_min.tool", "The set-up", map.SetUp.Tool, faults);
        Minutes("set_up_min.position", "The set-up", map.SetUp.Position, faults);
        Minutes("set_up_min.lift", "The set-up", map.SetUp.Lift, faults);
        foreach (var (i, supply) in map.Supplies.Index())
        {
            var (path, what) = ($"supplies[{i}]", $"Supply '{supply.Id}'");
            Minutes($"{path}.safe_min", what, supply.SafeMinutes, faults);
            Minutes($"{path}.runs_min", what, supply.RunsMinutes, faults);
            Minutes($"{path}.restore_min", what, supply.RestoreMinutes, faults);
            AboveZero($"{path}.amount", what, supply.Amount_L ?? 1, MostAmount, faults);
            Ways(path, what, supply.Reach, faults);
        }

        foreach (var (i, part) in map.Parts.Index())
        {
            var (path, what) = ($"parts[{i}]", $"Part '{part.Id}'");
            Minutes($"{path}.off_min", what, part.OffMinutes, faults);
            Minutes($"{path}.on_min", what, part.OnMinutes, faults);
            Minutes($"{path}.aside.aside_min", what, part.Aside?.AsideMinutes ?? 0, faults);
            Minutes($"{path}.aside.home_min", what, part.Aside?.HomeMinutes ?? 0, faults);
            Ways(path, what, part.Reach, faults);
        }

        foreach (var (i, joint) in map.Joints.Index())
        {
            var (path, what) = ($"joints[{i}]", $"Joint '{joint.Id}'");
            AboveZero($"{path}.count", what, joint.Count, MostCount, faults);
            Minutes($"{path}.undo_min", what, joint.UndoMinutes, faults);
            Minutes($"{path}.make_min", what, joint.MakeMinutes, faults);
            Minutes($"{path}.cures_min", what, joint.CuresMinutes, faults);
            Risk(path, what, joint.Risk, faults);
            Ways(path, what, joint.Reach, faults);
        }

        foreach (var (i, opening) in map.Openings.Index())
        {
            Minutes($"openings[{i}].cover_min", $"Opening '{opening.Id}'", opening.CoverMinutes, faults);
        }

        foreach (var (i, proof) in map.Proofs.Index())
        {
            Minutes($"proofs[{i}].minutes", $"Proof '{proof.Id}'", proof.Minutes, faults);
        }

        foreach (var (i, renewal) in map.Renewals.Index())
        {
            Renewal($"renewals[{i}]", renewal, faults);
        }
    }

    private static void Renewal(string path, Renewal renewal, FaultList faults)
    {
        var what = $"Renewal '{renewal.Id}'";
        AboveZero($"{path}.count", what, renewal.Count, MostAmount, faults);
        if (!RenewalUnits.Contains(renewal.Unit))
        {
            var known = RenewalUnits.Where(u => u.Length > 0);
            var sameLetters = known.FirstOrDefault(u => u.Equals(renewal.Unit, StringComparison.OrdinalIgnoreCase));
            faults.Add($"{path}.unit", $"{what}: the unit '{renewal.Unit}' is not known; {(sameLetters is null ? $"use one of {string.Join(", ", known)}, or none for pieces." : $"write it '{sameLetters}'.")}");
        }
        else if (renewal.Unit.Length == 0 && renewal.Count != Math.Truncate(renewal.Count))
        {
            faults.Add($"{path}.count", $"{what}: {Text(renewal.Count)} pieces cannot be had; write a whole number, or give a unit such as 'L'.");
        }
    }

    private static void Ways(string path, string what, Reach reach, FaultList faults)
    {
        foreach (var (i, way) in reach.Either.Index())
        {
            AboveZero($"{path}.reach.either[{i}].times", what, way.Times, MostTimes, faults);
            Risk($"{path}.reach.either[{i}]", what, way.Risk, faults);
        }
    }

    private static void Risk(string path, string what, Risk? risk, FaultList faults)
    {
        if (risk is null)
        {
            return;
        }

        Minutes($"{path}.risk.minutes", what, risk.Minutes, faults);
        if (!(risk.Chance >= 0 && risk.Chance <= 1))
        {
            faults.Add($"{path}.risk.chance", $"{what}: 'chance' is {Text(risk.Chance)}; a chance lies between 0 and 1, so 3 in 10 is 0.3.");
        }
    }

    private static void Minutes(string path, string what, double minutes, FaultList faults)
    {
        var field = path[(path.LastIndexOf('.') + 1)..];
        if (!double.IsFinite(minutes) || minutes < 0)
        {
            faults.Add(path, $"{what}: '{field}' is {Text(minutes)}; minutes cannot be less than zero or endless.");
        }
        else if (minutes > MostMinutes)
        {
            faults.Add(path, $"{what}: '{field}' is {Text(minutes)} minutes, more than a week; look for a slip.");
        }
    }

    private static void AboveZero(string path, string what, double figure, double most, FaultList faults)
    {
        var field = path[(path.LastIndexOf('.') + 1)..];
        if (!double.IsFinite(figure) || figure <= 0)
        {
            faults.Add(path, $"{what}: '{field}' is {Text(figure)}; it must be more than zero.");
        }
        else if (figure > most)
        {
            faults.Add(path, $"{what}: '{field}' is {Text(figure)}; more than {Text(most)} must be a slip.");
        }
    }

    private static string Text(double figure) => double.IsNaN(figure) ? "not a number" : figure.ToString("R", CultureInfo.InvariantCulture);
}
