namespace Lastoff.Storing;

/// <summary>A job as the store knows it.</summary>
/// <param name="Entries">How many entries it has here.</param>
public sealed record StoredJob(Guid Id, string Map, long Entries);

/// <summary>The jobs, and which store has them.</summary>
/// <param name="Store">Another one once the records went back in time, or are others.</param>
public sealed record JobList(string Store, IReadOnlyList<StoredJob> Jobs);

/// <summary>Entries of one job in order of arrival, and where to go on from.</summary>
public sealed record EntryPage(IReadOnlyList<string> Lines, long UpTo);

public sealed record RefusedEntry(string Id, string Why);

/// <summary>What became of the entries a device sent: those the store now holds for good, and those it will not take.</summary>
public sealed record Receipt(IReadOnlyList<Guid> Accepted, IReadOnlyList<RefusedEntry> Refused);
