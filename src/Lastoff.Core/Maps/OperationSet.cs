using System.Collections;
using System.Numerics;

namespace Lastoff.Core.Maps;

/// <summary>An immutable set of operation indexes, kept as bits so that a search can hold many of them.</summary>
public readonly struct OperationSet : IEquatable<OperationSet>, IEnumerable<int>
{
    private readonly ulong[] _words;

    private OperationSet(ulong[] words) => _words = words;

    /// <summary>The empty set over <paramref name="size"/> operations.</summary>
    public static OperationSet Empty(int size) => new(new ulong[(size + 63) / 64]);

    public static OperationSet Of(int size, IEnumerable<int> members)
    {
        var words = new ulong[(size + 63) / 64];
        foreach (var member in members)
        {
            words[member >> 6] |= 1UL << member;
        }

        return new OperationSet(words);
    }

    /// <summary>A view of words that the caller goes on changing; only for building a set up.</summary>
    internal static OperationSet Over(ulong[] words) => new(words);

    public int Count
    {
        get
        {
            var count = 0;
            foreach (var word in _words)
            {
                count += BitOperations.PopCount(word);
            }

            return count;
        }
    }

    internal void CopyTo(Span<ulong> words) => _words.CopyTo(words);

    public bool Contains(int member) => (_words[member >> 6] >> member & 1) != 0;

    public bool Overlaps(OperationSet other)
    {
        for (var i = 0; i < _words.Length; i++)
        {
            if ((_words[i] & other._words[i]) != 0)
            {
                return true;
            }
        }

        return false;
    }

    public bool IsSubsetOf(OperationSet other)
    {
        for (var i = 0; i < _words.Length; i++)
        {
            if ((_words[i] & ~other._words[i]) != 0)
            {
                return false;
            }
        }

        return true;
    }

    public OperationSet With(int member)
    {
        var words = (ulong[])_words.Clone();
        words[member >> 6] |= 1UL << member;
        return new OperationSet(words);
    }

    public OperationSet Without(int member)
    {
        var words = (ulong[])_words.Clone();
        words[member >> 6] &= ~(1UL << member);
        return new OperationSet(words);
    }

    public OperationSet Union(OperationSet other) => Combine(other, (a, b) => a | b);

    public OperationSet Intersect(OperationSet other) => Combine(other, (a, b) => a & b);

    public OperationSet Except(OperationSet other) => Combine(other, (a, b) => a & ~b);

    public bool Equals(OperationSet other) => _words.AsSpan().SequenceEqual(other._words);

    public override bool Equals(object? obj) => obj is OperationSet other && Equals(other);

    public override int GetHashCode()
    {
        var hash = 0xcbf29ce484222325UL;
        foreach (var word in _words)
        {
            hash = (hash ^ word) * 0x9E3779B97F4A7C15UL;
            hash ^= hash >> 29;
        }

        return (int)(hash ^ hash >> 32);
    }

    public IEnumerator<int> GetEnumerator()
    {
        for (var i = 0; i < _words.Length; i++)
        {
            for (var rest = _words[i]; rest != 0; rest &= rest - 1)
            {
                yield return (i << 6) + BitOperations.TrailingZeroCount(rest);
            }
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    public static bool operator ==(OperationSet left, OperationSet right) => left.Equals(right);

    public static bool operator !=(OperationSet left, OperationSet right) => !left.Equals(right);

    private OperationSet Combine(OperationSet other, Func<ulong, ulong, ulong> each)
    {
        var words = new ulong[_words.Length];
        for (var i = 0; i < words.Length; i++)
        {
            words[i] = each(_words[i], other._words[i]);
        }

        return new OperationSet(words);
    }
}
