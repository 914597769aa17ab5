namespace Lastoff.Core.Planning;

/// <summary>Pending uses to place before a use of a tool, and what is done after it; made once and used again and again.</summary>
internal sealed class StayChoices(int words)
{
    private readonly List<UInt128> _tried = [];
    private readonly List<UInt128> _placed = [];
    private ulong[] _after = new ulong[4 * words];

    public int Count => _placed.Count;

    public void Clear()
    {
        _tried.Clear();
        _placed.Clear();
    }

    /// <summary>Whether these uses have not been tried yet; they have now.</summary>
    public bool IsFirst(UInt128 uses)
    {
        if (_tried.Contains(uses))
        {
            return false;
        }

        _tried.Add(uses);
        return true;
    }

    public void Add(UInt128 placed, ReadOnlySpan<ulong> after)
    {
        if ((Count + 1) * words > _after.Length)
        {
            Array.Resize(ref _after, 2 * _after.Length);
        }

        after.CopyTo(_after.AsSpan(Count * words));
        _placed.Add(placed);
    }

    public UInt128 Placed(int choice) => _placed[choice];

    public ReadOnlySpan<ulong> After(int choice) => _after.AsSpan(choice * words, words);
}
