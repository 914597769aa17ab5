using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Doors;
using Lastoff.Storing;

namespace Lastoff.Bench;

/// <summary>How soon one server answers many phones. They share its processors, so what they cost themselves is measured too.</summary>
public static class PhoneBench
{
    private const int Phones = 300;
    private static readonly TimeSpan Running = TimeSpan.FromSeconds(20);

    public static async Task<int> RunAsync(string repository)
    {
        var rows = LargeWorkshop.Rows();
        var folder = Directory.CreateTempSubdirectory("lastoff-phones-").FullName;
        using var cluster = PostgresCluster.Start(repository);
        try
        {
            Console.WriteLine($"Over HTTP, a workshop of {rows.Count} entries; {Phones} phones, each let in with a key, that each write an entry a second, hear the news and fetch");
            Console.WriteLine($"{"",-12} {"open a job",24} {"calls/s",8} {"entry acknowledged",24} {"any call",24} {"the phones' own wait",24}   processor ms a call: server, database, phones");
            await MeasureAsync("SQLite", rows, Workshop.Open(new DataFolder(folder)), cluster, "--data", folder);
            await MeasureAsync("PostgreSQL", rows, Workshop.Open(new PostgresDatabase(cluster.Connection), "phones"), cluster, "--postgres", cluster.Connection, "--workshop", "phones");
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task MeasureAsync(string name, List<(Guid Job, Entry Entry)> rows, Workshop workshop, PostgresCluster cluster, params string[] store)
    {
        var jobs = rows.GroupBy(row => row.Job).ToList();
        IReadOnlyList<string> keys;
        await using (workshop)
        {
            foreach (var job in jobs)
            {
                await workshop.Entries.TakeAsync(job.Key, job.Select(row => row.Entry.Line));
            }

            keys = await LetInAsync(workshop);
        }

        await using var server = new ServerProcess(Built.Lastoff, store);
        await server.StartAsync();
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 2 * Phones, UseCookies = false }) { BaseAddress = server.Address };
        var phones = keys.Select((key, number) => new Phone(client, key, jobs[number].Key, jobs[number].Last().Entry.Id, number)).ToList();
        var openings = new List<double>();
        for (var time = 0; time < 30; time++)
        {
            openings.Add(await phones[0].OpenAsync(jobs[time * 7].Key));
        }

        var (ofServer, ofDatabase, ofPhones) = (ProcessorSeconds(server.Id), cluster.ProcessorSeconds(), Environment.CpuUsage.TotalTime.TotalSeconds);
        using var stop = new CancellationTokenSource(Running);
        var waits = OwnWaitsAsync(stop.Token);
        await Task.WhenAll(phones.Select(phone => phone.WorkAsync(stop.Token)));
        (ofServer, ofDatabase, ofPhones) = (ProcessorSeconds(server.Id) - ofServer, cluster.ProcessorSeconds() - ofDatabase, Environment.CpuUsage.TotalTime.TotalSeconds - ofPhones);
        var (sends, calls) = (phones.SelectMany(phone => phone.Sends).ToList(), phones.SelectMany(phone => phone.Calls).ToList());
        Console.WriteLine(
            $"{name,-12} {Spread(openings),24} {calls.Count / Running.TotalSeconds,8:0} {Spread(sends),24} {Spread(calls),24} {Spread(await waits),24}   "
            + $"{1000 * ofServer / calls.Count:0.00}, {1000 * ofDatabase / calls.Count:0.00}, {1000 * ofPhones / calls.Count:0.00}");
    }

    /// <summary>An owner, and a key for each phone.</summary>
    private static async Task<IReadOnlyList<string>> LetInAsync(Workshop workshop)
    {
        var owner = new Person { Name = "Invented Owner", NameKey = "INVENTED OWNER", Role = Roles.Owner };
        await new PeopleTable(workshop).CreateAsync(owner, CancellationToken.None);
        var devices = new DeviceTable(workshop);
        return [.. Enumerable.Range(0, Phones).Select(phone => devices.Admit(owner.Id, $"phone {phone}", DateTimeOffset.UtcNow).Key)];
    }

    /// <summary>How much later than asked for this process wakes up: what the phones wait for each other and for a processor, whatever the server does.</summary>
    private static async Task<List<double>> OwnWaitsAsync(CancellationToken stop)
    {
        const int Asked = 10;
        var waits = new List<double>();
        while (!stop.IsCancellationRequested)
        {
            var watch = Stopwatch.StartNew();
            await Task.Delay(Asked, CancellationToken.None);
            waits.Add(Math.Max(0, watch.Elapsed.TotalMilliseconds - Asked));
        }

        return waits;
    }

    /// <summary>The seconds of processor time that a process has had.</summary>
    private static double ProcessorSeconds(int process) => Process.GetProcessById(process).TotalProcessorTime.TotalSeconds;

    private static string Spread(List<double> milliseconds)
    {
        milliseconds.Sort();
        return $"p50 {milliseconds[milliseconds.Count / 2]:0} ms, p99 {milliseconds[milliseconds.Count * 99 / 100]:0} ms";
    }

    /// <summary>Writes an entry about once a second, and fetches what a phone fetches then. What it would do with what it gets costs its own processor, so here it is only received.</summary>
    private sealed class Phone(HttpClient client, string key, Guid job, Guid latest, int number)
    {
        private readonly Random _random = new(number);
        private Guid _latest = latest;
        private Entry? _last;
        private long _after;

        /// <summary>The milliseconds until each entry was acknowledged.</summary>
        public List<double> Sends { get; } = [];

        /// <summary>The milliseconds of all calls, those of the entries too.</summary>
        public List<double> Calls { get; } = [];

        /// <summary>The milliseconds until the list of jobs and a job not seen before are here.</summary>
        public async Task<double> OpenAsync(Guid other)
        {
            var watch = Stopwatch.StartNew();
            await CallAsync(HttpMethod.Get, "api/jobs", null, CancellationToken.None);
            await CallAsync(HttpMethod.Get, $"api/jobs/{other}/entries", null, CancellationToken.None);
            return watch.Elapsed.TotalMilliseconds;
        }

        public async Task WorkAsync(CancellationToken stop)
        {
            try
            {
                await Task.Delay(_random.Next(1000), stop);
                using var request = Request(HttpMethod.Get, "api/live");
                using var news = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, stop);
                news.EnsureSuccessStatusCode();
                _ = HearAsync(await news.Content.ReadAsStreamAsync(stop), stop);
                while (true)
                {
                    var watch = Stopwatch.StartNew();
                    using (var content = new StringContent(NextLine()))
                    {
                        await CallAsync(HttpMethod.Post, $"api/jobs/{job}/entries", content, stop);
                    }

                    Sends.Add(watch.Elapsed.TotalMilliseconds);
                    Calls.Add(watch.Elapsed.TotalMilliseconds);
                    watch.Restart();
                    await CallAsync(HttpMethod.Get, "api/jobs", null, stop);
                    Calls.Add(watch.Elapsed.TotalMilliseconds);
                    watch.Restart();
                    _after = await PageAsync(stop);
                    Calls.Add(watch.Elapsed.TotalMilliseconds);
                    await Task.Delay(700 + _random.Next(600), stop);
                }
            }
            catch (OperationCanceledException)
            {
                // The time is over.
            }
        }

        private string NextLine()
        {
            var bytes = new byte[10];
            _random.NextBytes(bytes);
            _latest = EntryId.Next(DateTimeOffset.UtcNow, _latest, bytes);
            _last = EntryLine.Write(new Noted("a note from the bay"), _latest, $"phone-{number}", DateTimeOffset.UtcNow, "Invented Mechanic", _last);
            return _last.Line;
        }

        private async Task<long> PageAsync(CancellationToken stop)
        {
            using var request = Request(HttpMethod.Get, $"api/jobs/{job}/entries?after={_after}");
            using var answer = await client.SendAsync(request, stop);
            answer.EnsureSuccessStatusCode();
            return (long)(await answer.Content.ReadFromJsonAsync<JsonObject>(stop))!["upTo"]!;
        }

        private async Task CallAsync(HttpMethod method, string path, HttpContent? content, CancellationToken stop)
        {
            using var request = Request(method, path);
            request.Content = content;
            using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, stop);
            answer.EnsureSuccessStatusCode();
            await answer.Content.CopyToAsync(Stream.Null, stop);
        }

        private HttpRequestMessage Request(HttpMethod method, string path)
        {
            var request = new HttpRequestMessage(method, path);
            request.Headers.TryAddWithoutValidation("Cookie", $"lastoff-device={key}");
            return request;
        }

        /// <summary>Takes the news off the line, as a browser does.</summary>
        private static async Task HearAsync(Stream news, CancellationToken stop)
        {
            try
            {
                await news.CopyToAsync(Stream.Null, stop);
            }
            catch (OperationCanceledException)
            {
                // Nobody listens any more.
            }
        }
    }
}
