namespace Lastoff.Core.Planning;

/// <summary>Gives every set, together with a small tag, a number of its own.</summary>
internal sealed class SetIndex(int words)
{
    /// <summary>Each set with its tag behind it, so that both are read at once.</summary>
    private ulong[] _sets = new ulong[256 * (words + 1)];
    private int[] _slots = NewSlots(1024);

    public int Count { get; private set; }

    public ReadOnlySpan<ulong> this[int number] => _sets.AsSpan(number * (words + 1), words);

    public int TagOf(int number) => (int)_sets[number * (words + 1) + words];

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

        if ((Count + 1) * (words + 1) > _sets.Length)
        {
            Array.Resize(ref _sets, 2 * _sets.Length);
        }

        set.CopyTo(_sets.AsSpan(Count * (words + 1)));
        _sets[Count * (words + 1) + words] = (ulong)tag;
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
        while (_slots[slot] is >= 0 and var number && !IsAt(number, set, tag))
        {
            slot = slot + 1 & _slots.Length - 1;
        }

        return slot;
    }

    private bool IsAt(int number, ReadOnlySpan<ulong> set, int tag)
    {
        var own = _sets.AsSpan(number * (words + 1), words + 1);
        if (own[^1] != (ulong)tag)
        {
            return false;
        }

        for (var i = 0; i < set.Length; i++)
        {
            if (own[i] != set[i])
            {
                return false;
            }
        }

        return true;
    }

    private void Spread()
    {
        _slots = NewSlots(4 * _slots.Length);
        for (var number = 0; number < Count; number++)
        {
            _slots[SlotOf(this[number], TagOf(number))] = number;
        }
    }

    private static int[] NewSlots(int length)
    {
        var slots = new int[length];
        Array.Fill(slots, -1);
        return slots;
    }
}
