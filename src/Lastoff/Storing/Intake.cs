using System.Data.Common;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>One connection that takes entries in.</summary>
internal sealed class Intake : IDisposable
{
    /// <summary>Written and taken out again in one transaction; no job or device has such a name.</summary>
    private static readonly Guid TrialJob = Guid.AllBitsSet;
    private static readonly Entry Trial = new(Guid.Empty, "", 1, DateTimeOffset.UnixEpoch, "", "", default, null, null, null, new string(' ', 2048));

    private readonly Database _database;
    private readonly int _workshop;
    private readonly DbConnection _connection;
    private readonly EntryRows _rows;

    public Intake(Database database, int workshop)
    {
        (_database, _workshop) = (database, workshop);
        _connection = database.OpenToWrite();
        _rows = database.EntryRows(_connection, workshop);
    }

    /// <summary>Takes what several devices sent, in one transaction. When this returns, what the receipts accept is on the disk.</summary>
    /// <exception cref="DbException">Nothing was taken, or it is not known; sending it again is right in both cases.</exception>
    public IReadOnlyList<(Receipt Receipt, int New)> Take(IReadOnlyList<SentEntries> group)
    {
        using var transaction = _database.BeginToWrite(_connection);
        _rows.Join(transaction);
        var (chains, arrived) = _rows.Look(group);
        var taken = group.Select(chains.Take).ToList();
        // Nothing at all, sent alone, tries whether the disk takes as much as an entry needs.
        if (group.All(sent => sent.Entries.Count + sent.Refused.Count == 0))
        {
            _rows.Keep([new KeptRow(arrived + 1, TrialJob, Trial)]);
            transaction.Connection!.Run("DELETE FROM entries WHERE workshop = @workshop AND job = @job", ("@workshop", _workshop), ("@job", TrialJob.ToString()));
        }

        if (chains.Kept.Count > 0)
        {
            _rows.Keep([.. chains.Kept.Select((kept, i) => new KeptRow(arrived + i + 1, kept.Job, kept.Entry))]);
            _database.CommitAndTell(transaction, _workshop, NewsOf.Entries);
        }
        else
        {
            transaction.Commit();
        }

        return taken;
    }

    public void Dispose() => _connection.Dispose();
}
