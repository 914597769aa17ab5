using System.Data;
using System.Data.Common;

namespace Lastoff.Storing;

/// <summary>Row by row: nobody is waited for, and a short prepared statement is quicker than any that has to take a list apart.</summary>
internal sealed class SqliteEntryRows : EntryRows
{
    private readonly DbCommand _arrivals;
    private readonly DbCommand _advance;
    private readonly DbCommand _job;
    private readonly DbCommand _head;
    private readonly DbCommand _line;
    private readonly DbCommand _insert;
    private readonly DbCommand _open;
    private readonly DbCommand _grow;

    public SqliteEntryRows(DbConnection connection, int workshop)
        : base(connection, workshop)
    {
        _arrivals = Prepared("SELECT arrivals FROM workshops WHERE id = @workshop");
        _advance = Prepared("UPDATE workshops SET arrivals = @arrived WHERE id = @workshop", ("@arrived", DbType.Int64));
        _job = Prepared("SELECT 1 FROM jobs WHERE workshop = @workshop AND id = @job", ("@job", DbType.String));
        _head = Prepared("SELECT line FROM entries WHERE workshop = @workshop AND job = @job AND device = @device ORDER BY seq DESC LIMIT 1", ("@job", DbType.String), ("@device", DbType.String));
        _line = Prepared("SELECT line FROM entries WHERE workshop = @workshop AND job = @job AND id = @id", ("@job", DbType.String), ("@id", DbType.String));
        _insert = Prepared(
            "INSERT INTO entries (workshop, arrival, job, id, device, seq, line) VALUES (@workshop, @arrival, @job, @id, @device, @seq, @line)",
            ("@arrival", DbType.Int64), ("@job", DbType.String), ("@id", DbType.String), ("@device", DbType.String), ("@seq", DbType.Int64), ("@line", DbType.String));
        _open = Prepared("INSERT INTO jobs (workshop, id, map, opened, entries) VALUES (@workshop, @job, @map, @arrival, 0)", ("@job", DbType.String), ("@map", DbType.String), ("@arrival", DbType.Int64));
        _grow = Prepared("UPDATE jobs SET entries = entries + @more WHERE workshop = @workshop AND id = @job", ("@more", DbType.Int64), ("@job", DbType.String));
    }

    public override (Chains Chains, long Arrived) Look(IReadOnlyList<SentEntries> group)
    {
        var chains = new Chains();
        foreach (var sent in group.GroupBy(sent => sent.Job, sent => sent.Entries))
        {
            var job = sent.Key.ToString();
            if (With(_job, job).ExecuteScalar() is not null)
            {
                chains.Open(sent.Key);
            }

            foreach (var device in sent.SelectMany(entries => entries).GroupBy(entry => entry.Device))
            {
                if (With(_head, job, device.Key).ExecuteScalar() is string line)
                {
                    chains.EndsWith(sent.Key, device.Key, line);
                }

                foreach (var id in device.Select(entry => entry.Id))
                {
                    if (With(_line, job, id.ToString()).ExecuteScalar() is string known)
                    {
                        chains.Has(sent.Key, id, known);
                    }
                }
            }
        }

        return (chains, (long)_arrivals.ExecuteScalar()!);
    }

    public override void Keep(IReadOnlyList<KeptRow> rows)
    {
        foreach (var (arrival, job, entry) in rows)
        {
            With(_insert, arrival, job.ToString(), entry.Id.ToString(), entry.Device, entry.Seq, entry.Line).ExecuteNonQuery();
            if (entry.Id == job)
            {
                With(_open, job.ToString(), SentEntries.MapOf(entry), arrival).ExecuteNonQuery();
            }
        }

        foreach (var (job, more) in rows.CountBy(row => row.Job))
        {
            With(_grow, (long)more, job.ToString()).ExecuteNonQuery();
        }

        With(_advance, rows[^1].Arrival).ExecuteNonQuery();
    }
}
