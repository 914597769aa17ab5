using System.Data.Common;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>One connection that takes entries in, with its statements prepared. An entry is taken whole and in its device's order, or refused with a sentence.</summary>
internal sealed class Intake : IDisposable
{
    /// <summary>Written and taken out again in one transaction; no device has such a name.</summary>
    private static readonly Entry Trial = new(Guid.Empty, "", 1, DateTimeOffset.UnixEpoch, "", "", default, null, null, null, new string(' ', 2048));

    private readonly Database _database;
    private readonly int _workshop;
    private readonly DbConnection _connection;
    private readonly DbCommand _arrivals;
    private readonly DbCommand _advance;
    private readonly DbCommand _head;
    private readonly DbCommand _known;
    private readonly DbCommand _job;
    private readonly DbCommand _forget;
    private readonly DbCommand _open;
    private readonly DbCommand _grow;
    private long _arrived;

    public Intake(Database database, int workshop)
    {
        (_database, _workshop) = (database, workshop);
        _connection = database.OpenToWrite();
        _arrivals = Prepared("SELECT arrivals FROM workshops WHERE id = @workshop" + database.RowLock);
        _advance = Prepared("UPDATE workshops SET arrivals = @arrival WHERE id = @workshop", "@arrival");
        _head = Prepared("SELECT line FROM entries WHERE workshop = @workshop AND job = @job AND device = @device ORDER BY seq DESC LIMIT 1", "@job", "@device");
        _known = Prepared("SELECT line FROM entries WHERE workshop = @workshop AND job = @job AND id = @id", "@job", "@id");
        _job = Prepared("SELECT 1 FROM jobs WHERE workshop = @workshop AND id = @job", "@job");
        _forget = Prepared("DELETE FROM entries WHERE workshop = @workshop AND job = @job AND device = @device AND seq > @seq", "@job", "@device", "@seq");
        _open = Prepared("INSERT INTO jobs (workshop, id, map, opened, entries) VALUES (@workshop, @job, @map, @arrival, 0)", "@job", "@map", "@arrival");
        _grow = Prepared("UPDATE jobs SET entries = entries + @more WHERE workshop = @workshop AND id = @job", "@more", "@job");
    }

    /// <summary>Takes what several devices sent, in one transaction. When this returns, what the receipts accept is on the disk.</summary>
    /// <exception cref="DbException">Nothing was taken, or it is not known; sending it again is right in both cases.</exception>
    public IReadOnlyList<(Receipt Receipt, int New)> Take(IReadOnlyList<SentEntries> group)
    {
        using var transaction = _database.BeginToWrite(_connection);
        foreach (var command in (DbCommand[])[_arrivals, _advance, _head, _known, _job, _forget, _open, _grow])
        {
            command.Transaction = transaction;
        }

        var before = _arrived = (long)_arrivals.ExecuteScalar()!;
        var taken = group.Select(sent => Take(transaction, sent)).ToList();
        // Nothing at all, sent alone, tries whether the disk takes as much as an entry needs.
        var isTrial = group.All(sent => sent.Entries.Count + sent.Refused.Count == 0);
        if (isTrial)
        {
            _database.Insert(transaction, _workshop, Guid.Empty, _arrived, [Trial]);
            Run(_forget, Guid.Empty.ToString(), Trial.Device, 0L);
        }

        if (isTrial || _arrived > before)
        {
            Run(_advance, _arrived);
        }

        if (taken.Any(t => t.New > 0))
        {
            _database.CommitAndTell(transaction, _workshop, NewsOf.Entries);
        }
        else
        {
            transaction.Commit();
        }

        return taken;
    }

    public void Dispose() => _connection.Dispose();

    private (Receipt Receipt, int New) Take(DbTransaction transaction, SentEntries sent)
    {
        var accepted = new List<Guid>();
        var refused = sent.Refused.ToList();
        var fresh = new Dictionary<Guid, Entry>();
        var heads = new Dictionary<string, Entry?>();
        var job = sent.Job.ToString();
        var wasOpen = Scalar(_job, job) is not null;
        foreach (var entry in sent.Entries)
        {
            if (!heads.TryGetValue(entry.Device, out var head))
            {
                head = heads[entry.Device] = Scalar(_head, job, entry.Device) is string line && EntryLine.TryRead(line, out var read, out _) ? read : null;
            }

            if (entry.Seq <= (head?.Seq ?? 0))
            {
                // It was here before, or should have been. Sent twice at once, it is answered once.
                var twice = fresh.GetValueOrDefault(entry.Id);
                var known = twice?.Line ?? Scalar(_known, job, entry.Id.ToString()) as string;
                if (known != entry.Line)
                {
                    refused.Add(Refused(entry, known is null ? Broken(head, entry)! : Another(entry)));
                }
                else if (twice is null)
                {
                    accepted.Add(entry.Id);
                }
            }
            else if (!wasOpen && entry.Id != sent.Job && !fresh.ContainsKey(sent.Job))
            {
                refused.Add(Refused(entry, "The job is not open here: send its first entry first."));
            }
            else if (Broken(head, entry) is { } broken)
            {
                refused.Add(Refused(entry, broken));
            }
            else if (!fresh.TryAdd(entry.Id, entry))
            {
                refused.Add(Refused(entry, Another(entry)));
            }
            else
            {
                heads[entry.Device] = entry;
            }
        }

        var kept = Keep(transaction, sent.Job, [.. fresh.Values], refused);
        accepted.AddRange(kept.Select(entry => entry.Id));
        if (kept.FirstOrDefault(entry => entry.Id == sent.Job) is { } opening)
        {
            Run(_open, job, SentEntries.MapOf(opening), _arrived);
        }

        _arrived += fresh.Count;
        if (kept.Count > 0)
        {
            Run(_grow, (long)kept.Count, job);
        }

        return (new Receipt(accepted, refused), kept.Count);
    }

    /// <summary>Inserts entries that follow on in their chains. One whose identifier is in use here is refused, and with it what came after it from its device.</summary>
    private List<Entry> Keep(DbTransaction transaction, Guid job, List<Entry> fresh, List<RefusedEntry> refused)
    {
        var inserted = fresh.Count == 0 ? [] : _database.Insert(transaction, _workshop, job, _arrived, fresh);
        if (inserted.Count == fresh.Count)
        {
            return fresh;
        }

        var kept = new List<Entry>();
        foreach (var device in fresh.GroupBy(entry => entry.Device))
        {
            var whole = device.TakeWhile(entry => inserted.Contains(entry.Id)).ToList();
            kept.AddRange(whole);
            foreach (var entry in device.Skip(whole.Count).Take(1))
            {
                Run(_forget, job.ToString(), entry.Device, entry.Seq);
                refused.Add(Refused(entry, Another(entry)));
            }

            refused.AddRange(device.Skip(whole.Count + 1).Select(entry => Refused(entry, $"Entry {entry.Seq} of device {entry.Device} follows one that was not taken.")));
        }

        return kept;
    }

    private static string? Broken(Entry? head, Entry entry) =>
        Chain.Fault(head, entry) is { } fault ? $"Entry {entry.Seq} of device {entry.Device} {fault}." : null;

    private static string Another(Entry entry) => $"Another entry is here under the identifier {entry.Id}.";

    private static RefusedEntry Refused(Entry entry, string why) => new(entry.Id.ToString(), why);

    private DbCommand Prepared(string text, params string[] names)
    {
        var command = _connection.Command(text);
        foreach (var name in names)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.DbType = name is "@arrival" or "@seq" or "@more" ? System.Data.DbType.Int64 : System.Data.DbType.String;
            command.Parameters.Add(parameter);
        }

        var workshop = command.CreateParameter();
        (workshop.ParameterName, workshop.DbType, workshop.Value) = ("@workshop", System.Data.DbType.Int32, _workshop);
        command.Parameters.Add(workshop);
        command.Prepare();
        return command;
    }

    private static object? Scalar(DbCommand command, params ReadOnlySpan<object> values) => With(command, values).ExecuteScalar();

    private static int Run(DbCommand command, params ReadOnlySpan<object> values) => With(command, values).ExecuteNonQuery();

    private static DbCommand With(DbCommand command, ReadOnlySpan<object> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        return command;
    }
}
