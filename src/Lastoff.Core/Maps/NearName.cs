namespace Lastoff.Core.Maps;

/// <summary>Finds the name somebody probably meant.</summary>
internal static class NearName
{
    /// <summary>The end of a sentence: "; did you mean 'pump'?", or the other one given when no candidate is close.</summary>
    public static string DidYouMean(string written, IEnumerable<string> candidates, string otherwise)
    {
        var most = written.Length <= 4 ? 1 : written.Length <= 8 ? 2 : 3;
        string? best = null;
        foreach (var candidate in candidates)
        {
            if (Math.Abs(candidate.Length - written.Length) <= most && Slips(written, candidate, most) is var slips && slips <= most)
            {
                (best, most) = (candidate, slips - 1);
            }
        }

        return best is null ? otherwise : $"; did you mean '{best}'?";
    }

    /// <summary>Letters wrong, missing, added, or swapped with their neighbour; more than <paramref name="most"/> is not told apart.</summary>
    private static int Slips(string a, string b, int most)
    {
        int[] before = [], last = [.. Enumerable.Range(0, b.Length + 1)];
        for (var i = 1; i <= a.Length; i++)
        {
            var row = new int[b.Length + 1];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                row[j] = Math.Min(Math.Min(row[j - 1], last[j]) + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
                }
            }

            if (row.Min() > most)
            {
                return most + 1;
            }

            (before, last) = (last, row);
        }

        return last[b.Length];
    }
}
