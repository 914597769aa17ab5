using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Lastoff.Storing;

namespace Lastoff.Doors;

/// <summary>A browser that was let in: a phone in a bay, the screen at the desk.</summary>
/// <param name="Label">What its person calls it.</param>
/// <param name="IsOut">Lost or given away: it comes in no more.</param>
public sealed record Device(string Id, string Person, string Label, DateTimeOffset Joined, bool IsOut);

/// <summary>A device that is in, and whose it is.</summary>
/// <param name="Person">The person's identifier.</param>
public sealed record KeyHolder(string Device, string Person, string Name, string Role);

/// <summary>The devices that were let in, and the invitations for more. Keys and codes are kept as their SHA-256 only.</summary>
public sealed class DeviceTable(Workshop workshop)
{
    /// <summary>An invitation is for somebody who stands beside the screen.</summary>
    public static readonly TimeSpan InvitationLife = TimeSpan.FromMinutes(10);

    private const int KeyBytes = 32;

    private readonly Database _database = workshop.Database;

    /// <summary>Lets a device in: the key it shows from now on.</summary>
    public (Device Device, string Key) Admit(string person, string label, DateTimeOffset now)
    {
        var key = NewKey();
        var device = new Device(Guid.NewGuid().ToString(), person, label, now, false);
        using var connection = _database.OpenToWrite();
        connection.Run(
            "INSERT INTO devices (workshop, id, person, label, key_hash, joined, is_out) VALUES (@workshop, @id, @person, @label, @key, @joined, 0)",
            ("@workshop", workshop.Number), ("@id", device.Id), ("@person", person), ("@label", label), ("@key", Hash(key)), ("@joined", Written(now)));
        return (device, key);
    }

    /// <summary>Who shows this key; null when none has it, or one of the two is shut out.</summary>
    public async Task<KeyHolder?> WithKeyAsync(string key)
    {
        await using var connection = await _database.OpenToReadAsync();
        await using var command = connection.Command(
            """
            SELECT devices.id, people.id, people.name, people.role FROM devices JOIN people ON people.workshop = devices.workshop AND people.id = devices.person
            WHERE devices.workshop = @workshop AND devices.key_hash = @key AND devices.is_out = 0 AND people.is_out = 0
            """,
            ("@workshop", workshop.Number), ("@key", Hash(key)));
        await using var reader = await command.ExecuteReaderAsync();
        return await reader.ReadAsync() ? new KeyHolder(reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetString(3)) : null;
    }

    public IReadOnlyList<Device> All()
    {
        using var connection = _database.OpenToRead();
        using var command = connection.Command("SELECT id, person, label, joined, is_out FROM devices WHERE workshop = @workshop ORDER BY joined", ("@workshop", workshop.Number));
        using var reader = command.ExecuteReader();
        var devices = new List<Device>();
        while (reader.Read())
        {
            devices.Add(new Device(
                reader.GetString(0), reader.GetString(1), reader.GetString(2), DateTimeOffset.Parse(reader.GetString(3), CultureInfo.InvariantCulture), reader.GetInt32(4) != 0));
        }

        return devices;
    }

    public bool ShutOut(string id) =>
        workshop.ChangeDoors("UPDATE devices SET is_out = 1 WHERE workshop = @workshop AND id = @id", ("@workshop", workshop.Number), ("@id", id)) > 0;

    /// <summary>Makes a code that lets one device in as this person, once and soon.</summary>
    public string Invite(string person, DateTimeOffset now)
    {
        var code = NewKey();
        using var connection = _database.OpenToWrite();
        connection.Run("DELETE FROM invitations WHERE workshop = @workshop AND until < @now", ("@workshop", workshop.Number), ("@now", Written(now)));
        connection.Run(
            "INSERT INTO invitations (workshop, code_hash, person, until) VALUES (@workshop, @code, @person, @until)",
            ("@workshop", workshop.Number), ("@code", Hash(code)), ("@person", person), ("@until", Written(now + InvitationLife)));
        return code;
    }

    /// <summary>Uses up an invitation: the person it is for, or null when it is unknown, used or too old.</summary>
    public string? Redeem(string code, DateTimeOffset now)
    {
        using var connection = _database.OpenToWrite();
        using var transaction = _database.BeginToWrite(connection);
        var person = connection.One(
            $"SELECT person FROM invitations WHERE workshop = @workshop AND code_hash = @code AND until >= @now{_database.RowLock}",
            ("@workshop", workshop.Number), ("@code", Hash(code)), ("@now", Written(now))) as string;
        connection.Run("DELETE FROM invitations WHERE workshop = @workshop AND code_hash = @code", ("@workshop", workshop.Number), ("@code", Hash(code)));
        transaction.Commit();
        return person;
    }

    private static string NewKey() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(KeyBytes));

    // The keys are random and long, so a plain hash cannot be guessed back.
    internal static string Hash(string key) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)));

    /// <summary>Sorted as text it is sorted by time.</summary>
    private static string Written(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
