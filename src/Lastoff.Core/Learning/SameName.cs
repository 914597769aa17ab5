using Lastoff.Core.Maps;

namespace Lastoff.Core.Learning;

/// <summary>Two names that may mean one thing. A person decides.</summary>
/// <param name="Alike">From 0 (nothing in common) to 1 (the same but for the order of words, capitals and hyphens).</param>
public sealed record SameName(string One, string Other, double Alike)
{
    /// <summary>Below this two names are not suggested. Set down by trying invented names, no source.</summary>
    private const double AlikeEnough = 0.7;

    /// <summary>Every two names of one sort that may be the same, the most alike first. Names that ever stand in one strip together are two things.</summary>
    public static IReadOnlyList<SameName> Suggest(IReadOnlyList<Strip> strips)
    {
        var seen = strips.SelectMany((strip, number) => strip.Removals.Select(removal => (Key: (removal.Sort, removal.Name), Strip: number)))
            .ToLookup(x => x.Key, x => x.Strip);
        List<(Sort Sort, string Name)> names = [.. seen.Select(name => name.Key)];
        return
        [
            .. from i in Enumerable.Range(0, names.Count)
               from j in Enumerable.Range(0, i)
               where names[i].Sort == names[j].Sort && !seen[names[i]].Intersect(seen[names[j]]).Any()
               let alike = Likeness(names[j].Name, names[i].Name)
               where alike >= AlikeEnough
               orderby alike descending
               select new SameName(names[j].Name, names[i].Name, alike),
        ];
    }

    /// <summary>The strips with one name in place of another, as the person decided.</summary>
    /// <param name="same">The name to give up, and the one to keep.</param>
    public static IReadOnlyList<Strip> Merge(IReadOnlyList<Strip> strips, IReadOnlyDictionary<string, string> same)
    {
        string Kept(string name) => same.GetValueOrDefault(name, name);
        return
        [
            .. strips.Select(strip => strip with
            {
                Renewals = [.. strip.Renewals.Select(renewal => renewal with { For = Kept(renewal.For), Name = renewal.Kind == RenewalKind.Part ? Kept(renewal.Name) : renewal.Name })],
                Openings = [.. strip.Openings.Select(opening => opening with { On = Kept(opening.On) })],
                Removals = [.. strip.Removals.Select(r => r with { Name = Kept(r.Name), LetsOut = r.LetsOut is { } fluid ? Kept(fluid) : null, TookAlong = [.. r.TookAlong.Select(Kept)] })],
            }),
        ];
    }

    /// <summary>Words are paired with their nearest word in the other name; each pair counts by its letters. A number or a side that differs is another thing.</summary>
    private static double Likeness(string one, string other)
    {
        var (a, b) = (Tokens(one), Tokens(other));
        if (a.Count == 0 || b.Count == 0 || !Telling(a).SetEquals(Telling(b)))
        {
            return 0;
        }

        return (Nearest(a, b) + Nearest(b, a)) / 2;
    }

    private static double Nearest(List<string> from, List<string> to) =>
        from.Sum(word => word.Length * to.Max(other => 1 - ((double)Edits(word, other) / Math.Max(word.Length, other.Length)))) / from.Sum(word => word.Length);

    private static List<string> Tokens(string name) =>
        [.. new string([.. name.ToLowerInvariant().Select(c => char.IsLetterOrDigit(c) ? c : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries)];

    private static HashSet<string> Telling(List<string> words) =>
        [.. words.Where(word => word.Any(char.IsDigit) || word is "left" or "right" or "upper" or "lower" or "front" or "rear" or "inner" or "outer" or "inlet" or "outlet")];

    /// <summary>Letters wrong, missing or added.</summary>
    private static int Edits(string a, string b)
    {
        int[] last = [.. Enumerable.Range(0, b.Length + 1)];
        for (var i = 0; i < a.Length; i++)
        {
            var row = new int[b.Length + 1];
            row[0] = i + 1;
            for (var j = 0; j < b.Length; j++)
            {
                row[j + 1] = Math.Min(Math.Min(row[j], last[j + 1]) + 1, last[j] + (a[i] == b[j] ? 0 : 1));
            }

            last = row;
        }

        return last[b.Length];
    }
}
