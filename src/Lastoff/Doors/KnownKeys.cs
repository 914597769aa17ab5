using System.Collections.Concurrent;
using Lastoff.Storing;

namespace Lastoff.Doors;

/// <summary>
/// Whose key it is, without a look at the records for each call: what they said counts on until this server hears that who may come in has changed. While it could not hear that, every call looks.
/// Only those who are in are kept, so that guessing keys fills nothing.
/// </summary>
internal sealed class KnownKeys(Workshop workshop, DeviceTable devices, TimeProvider clock)
{
    /// <summary>A change that nobody tells of, made in the database by hand or by a server of an earlier version, counts after this time.</summary>
    private static readonly TimeSpan Kept = TimeSpan.FromSeconds(10);

    private readonly ConcurrentDictionary<string, Look> _looks = [];

    /// <summary>Who shows this key; null when none has it, or its device or person is shut out.</summary>
    public async ValueTask<KeyHolder?> FindAsync(string key)
    {
        var name = DeviceTable.Hash(key);
        // What is told while the records are being looked at counts against what they said.
        var (doors, isHearing, now) = (workshop.News.Doors, workshop.News.IsHearing, clock.GetTimestamp());
        if (_looks.TryGetValue(name, out var look) && isHearing && look.Doors == doors && clock.GetElapsedTime(look.At, now) < Kept)
        {
            return look.Found;
        }

        var found = await devices.WithKeyAsync(key);
        if (found is not null && isHearing)
        {
            _looks[name] = new Look(found, doors, now);
        }
        else
        {
            _looks.TryRemove(name, out _);
        }

        return found;
    }

    private sealed record Look(KeyHolder Found, int Doors, long At);
}
