using System.Data;
using System.Data.Common;
using System.Text.Encodings.Web;
using System.Text.Json;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>One connection that takes entries in. Whatever a group of sendings needs is looked up with one command and kept with one: a database elsewhere is waited for as often for many as for one.</summary>
internal sealed class Intake : IDisposable
{
    /// <summary>Written and taken out again in one transaction; no job or device has such a name.</summary>
    private static readonly Guid TrialJob = Guid.AllBitsSet;
    private static readonly Entry Trial = new(Guid.Empty, "", 1, DateTimeOffset.UnixEpoch, "", "", default, null, null, null, new string(' ', 2048));

    // A line is full of quotes, and escaped as for a web page each would be six characters.
    private static readonly JsonSerializerOptions Json = new(JsonSerializerOptions.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly Database _database;
    private readonly int _workshop;
    private readonly DbConnection _connection;
    private readonly DbCommand _look;
    private readonly DbCommand _keep;
    private readonly DbCommand _forgetTrial;

    public Intake(Database database, int workshop)
    {
        (_database, _workshop) = (database, workshop);
        _connection = database.OpenToWrite();
        var asked = database.Rows("@asked", "job text", "id text", "device text");
        // Each is found by itself through an index, however the database reckons the number of rows.
        _look = Prepared(
            $"""
            SELECT arrivals FROM workshops WHERE id = @workshop{database.RowLock};
            SELECT job FROM (SELECT DISTINCT job FROM {asked} AS sent) AS asked WHERE (SELECT id FROM jobs WHERE workshop = @workshop AND id = asked.job) IS NOT NULL;
            SELECT job, device, (SELECT line FROM entries WHERE workshop = @workshop AND job = asked.job AND device = asked.device ORDER BY seq DESC LIMIT 1)
            FROM (SELECT DISTINCT job, device FROM {asked} AS sent) AS asked;
            SELECT job, id, (SELECT line FROM entries WHERE workshop = @workshop AND job = asked.job AND id = asked.id) FROM {asked} AS asked
            """,
            ("@asked", DbType.String));
        var kept = database.Rows("@kept", "arrival bigint", "job text", "id text", "device text", "seq bigint", "line text");
        var grown = database.Rows("@grown", "job text", "more bigint");
        _keep = Prepared(
            $"""
            INSERT INTO entries (workshop, arrival, job, id, device, seq, line) SELECT @workshop, arrival, job, id, device, seq, line FROM {kept} AS kept;
            INSERT INTO jobs (workshop, id, map, opened, entries) SELECT @workshop, job, map, arrival, 0 FROM {database.Rows("@opened", "job text", "map text", "arrival bigint")} AS opened;
            UPDATE jobs SET entries = entries + (SELECT more FROM {grown} AS grown WHERE grown.job = jobs.id) WHERE workshop = @workshop AND id IN (SELECT job FROM {grown} AS grown);
            UPDATE workshops SET arrivals = @arrived WHERE id = @workshop
            """,
            ("@kept", DbType.String), ("@opened", DbType.String), ("@grown", DbType.String), ("@arrived", DbType.Int64));
        _forgetTrial = Prepared("DELETE FROM entries WHERE workshop = @workshop AND job = @job", ("@job", DbType.String));
    }

    /// <summary>Takes what several devices sent, in one transaction. When this returns, what the receipts accept is on the disk.</summary>
    /// <exception cref="DbException">Nothing was taken, or it is not known; sending it again is right in both cases.</exception>
    public IReadOnlyList<(Receipt Receipt, int New)> Take(IReadOnlyList<SentEntries> group)
    {
        using var transaction = _database.BeginToWrite(_connection);
        foreach (var command in (DbCommand[])[_look, _keep, _forgetTrial])
        {
            command.Transaction = transaction;
        }

        var (chains, arrived) = Look(group);
        var taken = group.Select(chains.Take).ToList();
        // Nothing at all, sent alone, tries whether the disk takes as much as an entry needs.
        if (group.All(sent => sent.Entries.Count + sent.Refused.Count == 0))
        {
            Keep([(TrialJob, Trial)], arrived);
            _forgetTrial.Parameters[0].Value = TrialJob.ToString();
            _forgetTrial.ExecuteNonQuery();
        }

        if (chains.Kept.Count > 0)
        {
            Keep(chains.Kept, arrived);
            _database.CommitAndTell(transaction, _workshop, NewsOf.Entries);
        }
        else
        {
            transaction.Commit();
        }

        return taken;
    }

    public void Dispose() => _connection.Dispose();

    /// <summary>What the records hold beside what was sent, and the number of the last entry that arrived. Nobody else changes either until the transaction ends.</summary>
    private (Chains Chains, long Arrived) Look(IReadOnlyList<SentEntries> group)
    {
        _look.Parameters[0].Value = Written(group.SelectMany(sent => sent.Entries.Select(entry => new Asked(sent.Job, entry.Id, entry.Device))));
        var chains = new Chains();
        using var reader = _look.ExecuteReader();
        reader.Read();
        var arrived = reader.GetInt64(0);
        for (reader.NextResult(); reader.Read();)
        {
            chains.Open(Guid.Parse(reader.GetString(0)));
        }

        for (reader.NextResult(); reader.Read();)
        {
            if (!reader.IsDBNull(2))
            {
                chains.EndsWith(Guid.Parse(reader.GetString(0)), reader.GetString(1), reader.GetString(2));
            }
        }

        for (reader.NextResult(); reader.Read();)
        {
            if (!reader.IsDBNull(2))
            {
                chains.Has(Guid.Parse(reader.GetString(0)), Guid.Parse(reader.GetString(1)), reader.GetString(2));
            }
        }

        return (chains, arrived);
    }

    private void Keep(IReadOnlyList<(Guid Job, Entry Entry)> entries, long arrived)
    {
        var rows = entries.Select((kept, i) => new KeptRow(arrived + i + 1, kept.Job, kept.Entry.Id, kept.Entry.Device, kept.Entry.Seq, kept.Entry.Line)).ToList();
        var openings = rows.Zip(entries).Where(kept => kept.First.Id == kept.First.Job);
        _keep.Parameters[0].Value = Written(rows);
        _keep.Parameters[1].Value = Written(openings.Select(kept => new OpenedRow(kept.First.Job, SentEntries.MapOf(kept.Second.Entry), kept.First.Arrival)));
        _keep.Parameters[2].Value = Written(rows.CountBy(row => row.Job).Select(job => new GrownRow(job.Key, job.Value)));
        _keep.Parameters[3].Value = arrived + rows.Count;
        _keep.ExecuteNonQuery();
    }

    private DbCommand Prepared(string text, params (string Name, DbType Type)[] names)
    {
        var command = _connection.Command(text);
        foreach (var (name, type) in names)
        {
            var parameter = command.CreateParameter();
            (parameter.ParameterName, parameter.DbType) = (name, type);
            command.Parameters.Add(parameter);
        }

        var workshop = command.CreateParameter();
        (workshop.ParameterName, workshop.DbType, workshop.Value) = ("@workshop", DbType.Int32, _workshop);
        command.Parameters.Add(workshop);
        command.Prepare();
        return command;
    }

    private static string Written<T>(IEnumerable<T> rows) => JsonSerializer.Serialize(rows, Json);

    private sealed record Asked(Guid Job, Guid Id, string Device);

    private sealed record KeptRow(long Arrival, Guid Job, Guid Id, string Device, long Seq, string Line);

    private sealed record OpenedRow(Guid Job, string Map, long Arrival);

    private sealed record GrownRow(Guid Job, long More);
}
