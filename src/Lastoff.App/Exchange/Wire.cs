using Lastoff.App.Device;

namespace Lastoff.App.Exchange;

/// <summary>A map the server offers.</summary>
/// <param name="Sha256">Of its newest text.</param>
public sealed record ListedMap(string Name, string Title, bool Invented, string Sha256);

/// <summary>A job the server knows, and how many entries it has of it.</summary>
public sealed record ListedJob(string Id, string Map, long Entries);

/// <summary>Entries in order of their arrival at the server, and where to go on from.</summary>
public sealed record EntryPage(List<string> Lines, long UpTo);

/// <summary>What the server now holds for good of the entries sent to it, and what it would not take.</summary>
public sealed record Receipt(List<Guid> Accepted, List<RefusedEntry> Refused);
