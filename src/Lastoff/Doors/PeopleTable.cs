using System.Data.Common;
using System.Globalization;
using System.Text.Json;
using Lastoff.Storing;
using Microsoft.AspNetCore.Identity;

namespace Lastoff.Doors;

/// <summary>The people of a workshop with their passwords and passkeys, where Identity keeps them.</summary>
public sealed class PeopleTable(Workshop workshop)
    : IUserPasswordStore<Person>, IUserLockoutStore<Person>, IUserSecurityStampStore<Person>, IUserPasskeyStore<Person>
{
    private const string Columns = "id, name, name_key, role, password, stamp, failures, locked_until, is_out";

    private readonly Database _database = workshop.Database;

    public IReadOnlyList<Person> All() => Read("ORDER BY name_key", []);

    public Person? Find(string id) => Read("AND id = @value", [("@value", id)]).FirstOrDefault();

    /// <summary>Whether there is somebody who may let others in.</summary>
    public bool HasOwner() => Read("AND role = @value AND is_out = 0", [("@value", Roles.Owner)]).Count > 0;

    public Task<IdentityResult> CreateAsync(Person user, CancellationToken cancellationToken) => Write("""
        INSERT INTO people (workshop, id, name, name_key, role, password, stamp, failures, locked_until, is_out)
        VALUES (@workshop, @id, @name, @key, @role, @password, @stamp, @failures, @locked, @out)
        """, user);

    public Task<IdentityResult> UpdateAsync(Person user, CancellationToken cancellationToken)
    {
        // A wrong password changes nobody's way in, and must not be a way to make the server look everybody up again.
        var isOfDoors = Find(user.Id) is { } before && (before.Name, before.Role, before.IsOut) != (user.Name, user.Role, user.IsOut);
        return Write("""
            UPDATE people SET name = @name, name_key = @key, role = @role, password = @password, stamp = @stamp, failures = @failures, locked_until = @locked, is_out = @out
            WHERE workshop = @workshop AND id = @id
            """, user, isOfDoors);
    }

    /// <summary>Nobody is deleted: their name stands in the ledgers. They are put out instead.</summary>
    public Task<IdentityResult> DeleteAsync(Person user, CancellationToken cancellationToken)
    {
        user.IsOut = true;
        return UpdateAsync(user, cancellationToken);
    }

    public Task<Person?> FindByIdAsync(string userId, CancellationToken cancellationToken) => Task.FromResult(Find(userId));

    public Task<Person?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken) =>
        Task.FromResult(Read("AND name_key = @value", [("@value", normalizedUserName)]).FirstOrDefault());

    public Task<string> GetUserIdAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.Id);

    public Task<string?> GetUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Name);

    public Task<string?> GetNormalizedUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.NameKey);

    public Task<string?> GetPasswordHashAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash);

    public Task<bool> HasPasswordAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash is not null);

    public Task<DateTimeOffset?> GetLockoutEndDateAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.LockedUntil);

    public Task<int> GetAccessFailedCountAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.Failures);

    public Task<bool> GetLockoutEnabledAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(true);

    public Task<string?> GetSecurityStampAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Stamp);

    public Task SetUserNameAsync(Person user, string? userName, CancellationToken cancellationToken) => Set(() => user.Name = userName ?? "");

    public Task SetNormalizedUserNameAsync(Person user, string? normalizedName, CancellationToken cancellationToken) => Set(() => user.NameKey = normalizedName ?? "");

    public Task SetPasswordHashAsync(Person user, string? passwordHash, CancellationToken cancellationToken) => Set(() => user.PasswordHash = passwordHash);

    public Task SetLockoutEndDateAsync(Person user, DateTimeOffset? lockoutEnd, CancellationToken cancellationToken) => Set(() => user.LockedUntil = lockoutEnd);

    public Task<int> IncrementAccessFailedCountAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(++user.Failures);

    public Task ResetAccessFailedCountAsync(Person user, CancellationToken cancellationToken) => Set(() => user.Failures = 0);

    /// <summary>Wrong passwords lock everybody's for a while.</summary>
    public Task SetLockoutEnabledAsync(Person user, bool enabled, CancellationToken cancellationToken) => Task.CompletedTask;

    public Task SetSecurityStampAsync(Person user, string stamp, CancellationToken cancellationToken) => Set(() => user.Stamp = stamp);

    public Task AddOrUpdatePasskeyAsync(Person user, UserPasskeyInfo passkey, CancellationToken cancellationToken)
    {
        using var connection = _database.OpenToWrite();
        connection.Run(
            """
            INSERT INTO passkeys (workshop, credential, person, passkey) VALUES (@workshop, @credential, @person, @passkey)
            ON CONFLICT (workshop, credential) DO UPDATE SET passkey = excluded.passkey
            """,
            ("@workshop", workshop.Number), ("@credential", Convert.ToHexString(passkey.CredentialId)), ("@person", user.Id), ("@passkey", JsonSerializer.Serialize(KeptPasskey.Of(passkey))));
        return Task.CompletedTask;
    }

    public Task<IList<UserPasskeyInfo>> GetPasskeysAsync(Person user, CancellationToken cancellationToken) =>
        Task.FromResult<IList<UserPasskeyInfo>>([.. Passkeys("person = @value", user.Id).Select(found => found.Passkey)]);

    public Task<Person?> FindByPasskeyIdAsync(byte[] credentialId, CancellationToken cancellationToken) =>
        Task.FromResult(Passkeys("credential = @value", Convert.ToHexString(credentialId)) is [var found] ? Find(found.Person) : null);

    public Task<UserPasskeyInfo?> FindPasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken) =>
        Task.FromResult(Passkeys("credential = @value", Convert.ToHexString(credentialId)) is [var found] && found.Person == user.Id ? found.Passkey : null);

    public Task RemovePasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken)
    {
        using var connection = _database.OpenToWrite();
        connection.Run(
            "DELETE FROM passkeys WHERE workshop = @workshop AND person = @person AND credential = @credential",
            ("@workshop", workshop.Number), ("@person", user.Id), ("@credential", Convert.ToHexString(credentialId)));
        return Task.CompletedTask;
    }

    public void Dispose()
    {
    }

    private static Task Set(Action set)
    {
        set();
        return Task.CompletedTask;
    }

    private List<Person> Read(string where, ReadOnlySpan<(string, object)> values)
    {
        using var connection = _database.OpenToRead();
        using var command = connection.Command($"SELECT {Columns} FROM people WHERE workshop = @workshop {where}", [("@workshop", workshop.Number), .. values]);
        using var reader = command.ExecuteReader();
        var people = new List<Person>();
        while (reader.Read())
        {
            people.Add(new Person
            {
                Id = reader.GetString(0),
                Name = reader.GetString(1),
                NameKey = reader.GetString(2),
                Role = reader.GetString(3),
                PasswordHash = reader.IsDBNull(4) ? null : reader.GetString(4),
                Stamp = reader.GetString(5),
                Failures = reader.GetInt32(6),
                LockedUntil = reader.IsDBNull(7) ? null : DateTimeOffset.Parse(reader.GetString(7), CultureInfo.InvariantCulture),
                IsOut = reader.GetInt32(8) != 0,
            });
        }

        return people;
    }

    private Task<IdentityResult> Write(string sql, Person person, bool isOfDoors = false)
    {
        ReadOnlySpan<(string, object)> values =
        [
            ("@workshop", workshop.Number), ("@id", person.Id), ("@name", person.Name), ("@key", person.NameKey), ("@role", person.Role),
            ("@password", (object?)person.PasswordHash ?? DBNull.Value), ("@stamp", person.Stamp), ("@failures", person.Failures),
            ("@locked", (object?)person.LockedUntil?.ToString("O", CultureInfo.InvariantCulture) ?? DBNull.Value), ("@out", person.IsOut ? 1 : 0),
        ];
        try
        {
            if (isOfDoors)
            {
                workshop.ChangeDoors(sql, values);
            }
            else
            {
                using var connection = _database.OpenToWrite();
                connection.Run(sql, values);
            }

            return Task.FromResult(IdentityResult.Success);
        }
        catch (DbException) when (Read("AND name_key = @value", [("@value", person.NameKey)]) is [var other] && other.Id != person.Id)
        {
            return Task.FromResult(IdentityResult.Failed(new IdentityErrorDescriber().DuplicateUserName(person.Name)));
        }
    }

    private List<(string Person, UserPasskeyInfo Passkey)> Passkeys(string where, string value)
    {
        using var connection = _database.OpenToRead();
        using var command = connection.Command($"SELECT person, passkey FROM passkeys WHERE workshop = @workshop AND {where}", ("@workshop", workshop.Number), ("@value", value));
        using var reader = command.ExecuteReader();
        var found = new List<(string, UserPasskeyInfo)>();
        while (reader.Read())
        {
            found.Add((reader.GetString(0), JsonSerializer.Deserialize<KeptPasskey>(reader.GetString(1))!.AsPasskey()));
        }

        return found;
    }

    /// <summary>A passkey as it is kept: the public half and what came with it; nothing in it is secret.</summary>
    private sealed record KeptPasskey(
        byte[] CredentialId, byte[] PublicKey, DateTimeOffset CreatedAt, uint SignCount, string[] Transports, bool IsUserVerified, bool IsBackupEligible, bool IsBackedUp,
        byte[] AttestationObject, byte[] ClientDataJson, string? Name)
    {
        public static KeptPasskey Of(UserPasskeyInfo passkey) => new(
            passkey.CredentialId, passkey.PublicKey, passkey.CreatedAt, passkey.SignCount, passkey.Transports ?? [], passkey.IsUserVerified, passkey.IsBackupEligible,
            passkey.IsBackedUp, passkey.AttestationObject, passkey.ClientDataJson, passkey.Name);

        public UserPasskeyInfo AsPasskey() => new(
            CredentialId, PublicKey, CreatedAt, SignCount, Transports, IsUserVerified, IsBackupEligible, IsBackedUp, AttestationObject, ClientDataJson)
        {
            Name = Name,
        };
    }
}
