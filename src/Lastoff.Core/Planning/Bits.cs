using System.Numerics;

namespace Lastoff.Core.Planning;

/// <summary>Set work on bare words, for the inner loops of the search.</summary>
internal static class Bits
{
    public static bool Has(ReadOnlySpan<ulong> set, int member) => (set[member >> 6] >> member & 1) != 0;

    public static void Add(Span<ulong> set, int member) => set[member >> 6] |= 1UL << member;

    public static void AddAll(Span<ulong> set, ReadOnlySpan<ulong> more)
    {
        for (var i = 0; i < set.Length; i++)
        {
            set[i] |= more[i];
        }
    }

    public static void KeepOnly(Span<ulong> set, ReadOnlySpan<ulong> kept)
    {
        for (var i = 0; i < set.Length; i++)
        {
            set[i] &= kept[i];
        }
    }

    public static void TakeAway(Span<ulong> set, ReadOnlySpan<ulong> gone)
    {
        for (var i = 0; i < set.Length; i++)
        {
            set[i] &= ~gone[i];
        }
    }

    public static bool IsSubset(ReadOnlySpan<ulong> set, ReadOnlySpan<ulong> of)
    {
        for (var i = 0; i < set.Length; i++)
        {
            if ((set[i] & ~of[i]) != 0)
            {
                return false;
            }
        }

        return true;
    }

    public static bool Overlap(ReadOnlySpan<ulong> a, ReadOnlySpan<ulong> b)
    {
        for (var i = 0; i < a.Length; i++)
        {
            if ((a[i] & b[i]) != 0)
            {
                return true;
            }
        }

        return false;
    }

    public static int Count(ReadOnlySpan<ulong> set)
    {
        var count = 0;
        foreach (var word in set)
        {
            count += BitOperations.PopCount(word);
        }

        return count;
    }

    /// <summary>The first member at or after <paramref name="from"/>, or -1.</summary>
    public static int Next(ReadOnlySpan<ulong> set, int from)
    {
        for (var i = from >> 6; i < set.Length; i++)
        {
            var word = i == from >> 6 ? set[i] & ulong.MaxValue << from : set[i];
            if (word != 0)
            {
                return (i << 6) + BitOperations.TrailingZeroCount(word);
            }
        }

        return -1;
    }

    public static ulong Hash(ReadOnlySpan<ulong> set)
    {
        var hash = 0xcbf29ce484222325UL;
        foreach (var word in set)
        {
            hash = (hash ^ word) * 0x9E3779B97F4A7C15UL;
            hash ^= hash >> 32;
        }

        return hash;
    }
}
