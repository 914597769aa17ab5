namespace Lastoff.Tests.Maps;

/// <summary>A list of bytes read as choices, so that CsCheck can shrink whatever is built from it: once they run out every choice is the plainest, 0.</summary>
public sealed class Choices(IReadOnlyList<byte> bytes)
{
    private int _at;

    /// <summary>A number from 0 up to, not including, <paramref name="below"/>.</summary>
    public int Next(int below) => _at < bytes.Count ? bytes[_at++] % below : 0;

    public bool OneIn(int n) => Next(n) == n - 1;

    public T Of<T>(IReadOnlyList<T> items) => items[Next(items.Count)];
}
