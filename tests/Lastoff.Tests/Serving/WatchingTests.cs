using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>What whoever runs a server can watch when they ask for it: logs, metrics and traces.</summary>
public class WatchingTests
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    [Fact]
    public async Task Logs_are_one_JSON_object_a_line_when_asked_for()
    {
        using var folder = new TemporaryFolder();
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path, "--log", "json");
        await server.StartAsync();
        await server.StopAsync();
        var logs = server.Printed.Where(line => !line.StartsWith("Lastoff is ready", StringComparison.Ordinal)).Select(line => JsonNode.Parse(line)!).ToList();
        Assert.Contains(logs, log => ((string)log["Message"]!).StartsWith("The records are backed up in", StringComparison.Ordinal));
        Assert.All(logs, log => Assert.NotNull(log["LogLevel"]));
    }

    [Fact]
    public async Task Metrics_and_traces_go_where_the_usual_variables_say()
    {
        using var collector = Collector.Start();
        using var folder = new TemporaryFolder();
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path, "--demo", LastoffProgram.Demo(""));
        server.Environment["OTEL_EXPORTER_OTLP_ENDPOINT"] = collector.Address;
        server.Environment["OTEL_EXPORTER_OTLP_PROTOCOL"] = "http/protobuf";
        server.Environment["OTEL_METRIC_EXPORT_INTERVAL"] = "300";
        server.Environment["OTEL_BSP_SCHEDULE_DELAY"] = "300";
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        await client.GetStringAsync("/api/jobs", Cancel);
        await client.PostAsync($"/api/jobs/{Guid.NewGuid()}/entries", new StringContent("no entry"), Cancel);
        await server.StopAsync();
        // The names stand as plain text in the protocol's messages.
        Assert.Contains(collector.Got, got => got.Path == "/v1/metrics" && got.Body.Contains("lastoff.entries.refused"));
        Assert.Contains(collector.Got, got => got.Path == "/v1/traces" && got.Body.Contains("api/jobs"));
    }

    /// <summary>Takes whatever is sent to it.</summary>
    private sealed class Collector : IDisposable
    {
        private readonly HttpListener _listener = new();
        private readonly List<(string Path, string Body)> _got = [];

        public string Address { get; private init; } = "";

        public IReadOnlyList<(string Path, string Body)> Got
        {
            get
            {
                lock (_got)
                {
                    return [.. _got];
                }
            }
        }

        public static Collector Start()
        {
            using var port = new TcpListener(IPAddress.Loopback, 0);
            port.Start();
            var collector = new Collector { Address = $"http://localhost:{((IPEndPoint)port.LocalEndpoint).Port}" };
            port.Stop();
            collector._listener.Prefixes.Add(collector.Address + "/");
            collector._listener.Start();
            _ = collector.ListenAsync();
            return collector;
        }

        public void Dispose() => _listener.Close();

        private async Task ListenAsync()
        {
            while (_listener.IsListening)
            {
                try
                {
                    var context = await _listener.GetContextAsync();
                    using var body = new MemoryStream();
                    await context.Request.InputStream.CopyToAsync(body);
                    lock (_got)
                    {
                        _got.Add((context.Request.Url!.AbsolutePath, Encoding.Latin1.GetString(body.ToArray())));
                    }

                    context.Response.Close();
                }
                catch (Exception e) when (e is HttpListenerException or ObjectDisposedException)
                {
                    return;
                }
            }
        }
    }
}
