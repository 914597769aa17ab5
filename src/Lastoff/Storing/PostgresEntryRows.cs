using System.Data;
using System.Data.Common;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Lastoff.Storing;

/// <summary>Whatever a group of sendings needs is looked up with one command and kept with one: a database elsewhere is waited for as often for many as for one.</summary>
internal sealed class PostgresEntryRows : EntryRows
{
    // A line is full of quotes, and escaped as for a web page each would be six characters.
    private static readonly JsonSerializerOptions Json = new(JsonSerializerOptions.Web) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly DbCommand _look;
    private readonly DbCommand _keep;

    public PostgresEntryRows(DbConnection connection, int workshop)
        : base(connection, workshop)
    {
        var asked = Rows("@asked", "job text, id text, device text");
        // Each is found by itself through an index, however the database reckons the number of rows.
        _look = Prepared(
            $"""
            SELECT arrivals FROM workshops WHERE id = @workshop FOR UPDATE;
            SELECT job FROM (SELECT DISTINCT job FROM {asked} AS sent) AS asked WHERE (SELECT id FROM jobs WHERE workshop = @workshop AND id = asked.job) IS NOT NULL;
            SELECT job, device, (SELECT line FROM entries WHERE workshop = @workshop AND job = asked.job AND device = asked.device ORDER BY seq DESC LIMIT 1)
            FROM (SELECT DISTINCT job, device FROM {asked} AS sent) AS asked;
            SELECT job, id, (SELECT line FROM entries WHERE workshop = @workshop AND job = asked.job AND id = asked.id) FROM {asked} AS asked
            """,
            ("@asked", DbType.String));
        _keep = Prepared(
            $"""
            INSERT INTO entries (workshop, arrival, job, id, device, seq, line) SELECT @workshop, arrival, job, id, device, seq, line
            FROM {Rows("@kept", "arrival bigint, job text, id text, device text, seq bigint, line text")} AS kept;
            INSERT INTO jobs (workshop, id, map, opened, entries) SELECT @workshop, job, map, arrival, 0 FROM {Rows("@opened", "job text, map text, arrival bigint")} AS opened;
            UPDATE jobs SET entries = entries + more FROM {Rows("@grown", "job text, more bigint")} AS grown WHERE workshop = @workshop AND id = grown.job;
            UPDATE workshops SET arrivals = @arrived WHERE id = @workshop
            """,
            ("@kept", DbType.String), ("@opened", DbType.String), ("@grown", DbType.String), ("@arrived", DbType.Int64));
    }

    public override (Chains Chains, long Arrived) Look(IReadOnlyList<SentEntries> group)
    {
        var asked = group.SelectMany(sent => sent.Entries.Select(entry => new { sent.Job, entry.Id, entry.Device }));
        var chains = new Chains();
        using var reader = With(_look, Written(asked)).ExecuteReader();
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

    public override void Keep(IReadOnlyList<KeptRow> rows) => With(
        _keep,
        Written(rows.Select(row => new { row.Arrival, row.Job, row.Entry.Id, row.Entry.Device, row.Entry.Seq, row.Entry.Line })),
        Written(rows.Where(row => row.Entry.Id == row.Job).Select(row => new { row.Job, Map = SentEntries.MapOf(row.Entry), row.Arrival })),
        Written(rows.CountBy(row => row.Job).Select(job => new { Job = job.Key, More = job.Value })),
        rows[^1].Arrival).ExecuteNonQuery();

    /// <summary>What a FROM takes that has a row for each object of a JSON array.</summary>
    private static string Rows(string parameter, string columns) => $"(SELECT * FROM json_to_recordset(CAST({parameter} AS json)) AS given ({columns}))";

    private static string Written<T>(IEnumerable<T> rows) => JsonSerializer.Serialize(rows, Json);
}
