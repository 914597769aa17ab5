using System.Net;
using System.Net.Http.Json;
using System.Text;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>A device without a screen: it writes entries, sends what was not acknowledged until it is, and fetches what the others wrote.</summary>
public sealed class SimulatedDevice(string name, HttpClient server, Random random)
{
    private const int EntriesAtOnce = 50;

    private readonly Dictionary<Guid, Job> _jobs = [];
    private readonly Dictionary<Guid, long> _upTo = [];
    private readonly List<(Guid Job, Entry Entry)> _outbox = [];

    /// <summary>The entries that the server said it holds for good, of this device.</summary>
    public HashSet<Guid> Acknowledged { get; } = [];

    /// <summary>How often it was answered with 503 and a sentence.</summary>
    public int AnsweredAway { get; private set; }

    /// <summary>How often nobody answered, or the line broke.</summary>
    public int Unanswered { get; private set; }

    /// <summary>What must never be: an answer other than 200 or 503, a refusal, a 503 without a sentence.</summary>
    public List<string> Wrong { get; } = [];

    public int Waiting => _outbox.Count;

    public Job On(Guid job) => _jobs[job];

    public Guid Open(OperationNet net)
    {
        var map = net.Map;
        var job = Job.From(net, []);
        var entry = Decided(job, new JobOpened(map.Name, "An invented machine", "It leaks", "A seal", [map.Parts[^1].Id], []));
        _jobs[entry.Id] = job.With(entry);
        _outbox.Add((entry.Id, entry));
        return entry.Id;
    }

    public void Join(Guid job, Job as_) => _jobs[job] = as_;

    /// <summary>Writes a move that the guards let through, or a note.</summary>
    public void Write()
    {
        var (id, job) = _jobs.ElementAt(random.Next(_jobs.Count));
        var operation = job.Net.Operations[random.Next(job.Net.Operations.Count)];
        Act move = new Moved(job.Standing.IsDone(operation.Kind, operation.Target) ? operation.Kind.Back() : operation.Kind.Out(), operation.Target);
        var entry = job.Decide(move, Pen()).Entry ?? Decided(job, new Noted($"note {random.Next(1_000_000)}"));
        _jobs[id] = job.With(entry);
        _outbox.Add((id, entry));
    }

    /// <summary>Sends what waits. What is not acknowledged stays.</summary>
    public async Task SendAsync(CancellationToken stop)
    {
        foreach (var job in _outbox.GroupBy(waiting => waiting.Job).ToList())
        {
            foreach (var piece in job.Chunk(EntriesAtOnce))
            {
                using var lines = new StringContent(string.Concat(piece.Select(waiting => waiting.Entry.Line + "\n")), Encoding.UTF8, "application/jsonl");
                using var answer = await TryAsync(() => server.PostAsync($"api/jobs/{job.Key}/entries", lines, stop));
                if (answer is null || !await IsTakenAsync(answer))
                {
                    return;
                }

                var receipt = (await TryAsync(() => answer.Content.ReadFromJsonAsync<Receipt>(stop)))!;
                if (receipt is null)
                {
                    return;
                }

                Wrong.AddRange(receipt.Refused.Where(refused => !refused.Why.StartsWith("The job is not open here", StringComparison.Ordinal)).Select(refused => $"refused {refused.Id}: {refused.Why}"));
                Acknowledged.UnionWith(receipt.Accepted);
                _outbox.RemoveAll(waiting => receipt.Accepted.Contains(waiting.Entry.Id));
            }
        }
    }

    /// <summary>Fetches what has arrived at the server since the last time.</summary>
    public async Task FetchAsync(CancellationToken stop)
    {
        foreach (var (id, job) in _jobs.ToList())
        {
            using var answer = await TryAsync(() => server.GetAsync($"api/jobs/{id}/entries?after={_upTo.GetValueOrDefault(id)}", stop));
            if (answer is null || !await IsTakenAsync(answer) || await TryAsync(() => answer.Content.ReadFromJsonAsync<Page>(stop)) is not { } page)
            {
                return;
            }

            _upTo[id] = page.UpTo;
            var known = job.Entries.Select(entry => entry.Id).ToHashSet();
            var fresh = page.Lines.Select(Read).Where(entry => !known.Contains(entry.Id)).ToList();
            if (fresh.Count > 0)
            {
                _jobs[id] = job.With((IEnumerable<Entry>)fresh);
            }
        }
    }

    /// <exception cref="InvalidDataException">The line is no entry.</exception>
    public static Entry Read(string line) => EntryLine.TryRead(line, out var entry, out var fault) ? entry! : throw new InvalidDataException($"a line came back broken: {fault}");

    private async Task<bool> IsTakenAsync(HttpResponseMessage answer)
    {
        if (answer.StatusCode == HttpStatusCode.OK)
        {
            return true;
        }

        var problem = answer.Content.Headers.ContentType?.MediaType == "application/problem+json" ? await TryAsync(() => answer.Content.ReadFromJsonAsync<Problem>()) : null;
        if (answer.StatusCode == HttpStatusCode.ServiceUnavailable && problem is { Detail.Length: > 20 })
        {
            AnsweredAway++;
        }
        else
        {
            Wrong.Add($"answered {(int)answer.StatusCode} {problem?.Detail}");
        }

        return false;
    }

    private async Task<T?> TryAsync<T>(Func<Task<T>> call) where T : class?
    {
        try
        {
            return await call();
        }
        catch (Exception e) when (e is HttpRequestException or IOException or OperationCanceledException)
        {
            Unanswered++;
            return null;
        }
    }

    private Entry Decided(Job job, Act act) => job.Decide(act, Pen()).Entry!;

    private Pen Pen()
    {
        var randomness = new byte[10];
        random.NextBytes(randomness);
        return new Pen(name, name, DateTimeOffset.UtcNow, randomness);
    }

    private sealed record Receipt(List<Guid> Accepted, List<Refusal> Refused);

    private sealed record Refusal(string Id, string Why);

    private sealed record Page(List<string> Lines, long UpTo);

    private sealed record Problem(string Detail);
}
