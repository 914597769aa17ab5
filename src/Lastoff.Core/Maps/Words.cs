using System.Text;

namespace Lastoff.Core.Maps;

/// <summary>The words a map file uses for the values of an enumeration: FuelPressure is written fuel_pressure.</summary>
public static class Words<T> where T : struct, Enum
{
    private static readonly Dictionary<string, T> ByWord = Enum.GetValues<T>().ToDictionary(Of);

    public static IReadOnlyList<string> All { get; } = [.. Enum.GetValues<T>().Select(Of)];

    public static bool TryRead(string word, out T value) => ByWord.TryGetValue(word, out value);

    public static string Of(T value)
    {
        var word = new StringBuilder();
        foreach (var letter in value.ToString())
        {
            if (char.IsAsciiLetterUpper(letter) && word.Length > 0)
            {
                word.Append('_');
            }

            word.Append(char.ToLowerInvariant(letter));
        }

        return word.ToString();
    }
}
