using System.Globalization;

namespace Lastoff.Core.Maps;

/// <summary>Reads a list of numbers out of a map's fields.</summary>
internal static class NumberList
{
    /// <summary>The numbers; null when the field is left out or, after a fault, no list of numbers.</summary>
    public static IReadOnlyList<double>? Read(YamlFields fields, string field, FaultList faults)
    {
        switch (fields.Take(field))
        {
            case null:
                return null;
            case YamlList list when list.Items.All(item => TryRead(item, out _)):
                return [.. list.Items.Select(item => TryRead(item, out var number) ? number : 0)];
            case YamlList:
                faults.Add(fields.At(field), $"{fields.What}: '{field}' holds something that is not a number.");
                return null;
            case var other:
                fields.Wrong(field, other, "a list of numbers");
                return null;
        }
    }

    public static bool TryRead(YamlNode node, out double number)
    {
        number = 0;
        return node is YamlScalar { IsPlain: true } scalar
            && double.TryParse(scalar.Text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number)
            && double.IsFinite(number);
    }
}
