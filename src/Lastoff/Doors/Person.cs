namespace Lastoff.Doors;

/// <summary>Somebody who works here. Names and password hashes change by way of Identity only.</summary>
public sealed class Person
{
    public const int LongestName = 60;

    public string Id { get; init; } = Guid.NewGuid().ToString();
    public string Name { get; set; } = "";
    /// <summary>The name as it is compared: one name cannot be taken twice in another spelling of its letters.</summary>
    public string NameKey { get; set; } = "";
    public string Role { get; set; } = Roles.Mechanic;
    /// <summary>Null until one is set; then there is a passkey or a phone that joined.</summary>
    public string? PasswordHash { get; set; }
    public string Stamp { get; set; } = "";
    /// <summary>Wrong passwords since the last right one.</summary>
    public int Failures { get; set; }
    public DateTimeOffset? LockedUntil { get; set; }
    /// <summary>Whether a name is there and can be shown.</summary>
    public static bool IsName(string name) => name.Length is > 0 and <= LongestName && !name.Any(char.IsControl);

    /// <summary>Works here no more: comes in with nothing.</summary>
    public bool IsOut { get; set; }
}

/// <summary>What somebody is here, which says what they may do.</summary>
public static class Roles
{
    /// <summary>Everything, and the say over people and devices.</summary>
    public const string Owner = "owner";
    /// <summary>The jobs and the maps.</summary>
    public const string Mechanic = "mechanic";
    /// <summary>The jobs, and links for customers.</summary>
    public const string Desk = "front desk";

    public static IReadOnlyList<string> All { get; } = [Owner, Mechanic, Desk];
}
