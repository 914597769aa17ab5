namespace Lastoff.Core.Planning;

/// <summary>Gives every set, together with a small tag, a number of its own.</summary>
internal sealed class SetIndex(int words)
{
    private ulong[] _sets = new ulong[256 * words];
    private int[] _tags = new int[256];
    private int[] _slots = NewSlots(1024);

    public int Count { get; private set; }

    public ReadOnlySpan<ulong> this[int number] => _sets.AsSpan(number * words, words);

    public int TagOf(int number) => _tags[number];

    /// <summary>The number of the set, or -1 when it has none yet.</summary>
    public int Find(ReadOnlySpan<ulong> set, int tag) => _slots[SlotOf(set, tag)];

    /// <summary>The number of the set, given now when it had none.</summary>
    public int Add(ReadOnlySpan<ulong> set, int tag)
    {
        var slot = SlotOf(set, tag);
        if (_slots[slot] >= 0)
        {
            return _slots[slot];
        }

        if (Count == _tags.Length)
        {
            Array.Resize(ref _tags, 2 * Count);
            Array.Resize(ref _sets, 2 * Count * words);
        }

        set.CopyTo(_sets.AsSpan(Count * words));
        _tags[Count] = tag;
        _slots[slot] = Count++;
        if (4 * Count > _slots.Length)
        {
            Spread();
        }

        return Count - 1;
    }

    public void Clear()
    {
        Count = 0;
        Array.Fill(_slots, -1);
    }

    private int SlotOf(ReadOnlySpan<ulong> set, int tag)
    {
        var slot = (int)((Bits.Hash(set) + (ulong)tag * 0x9E3779B97F4A7C15) >> 20) & (_slots.Length - 1);
        while (_slots[slot] is >= 0 and var number && (_tags[number] != tag || !this[number].SequenceEqual(set)))
        {
            slot = slot + 1 & _slots.Length - 1;
        }

        return slot;
    }

    private void Spread()
    {
        _slots = NewSlots(4 * _slots.Length);
        for (var number = 0; number < Count; number++)
        {
            _slots[SlotOf(this[number], _tags[number])] = number;
        }
    }

    private static int[] NewSlots(int length)
    {
        var slots = new int[length];
        Array.Fill(slots, -1);
        return slots;
    }
}
