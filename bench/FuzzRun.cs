using System.Net;
using System.Text;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>Broken inputs for everything that reads what comes from outside. Each is read or answered with a sentence; nothing throws and nothing answers 500.</summary>
public static class FuzzRun
{
    /// <summary>What went wrong with which seed; empty as it should be.</summary>
    public static IReadOnlyList<string> Maps(IReadOnlyList<string> whole, int inputs) => Each(inputs, seed =>
    {
        var reading = MapReader.Read(new Garble(seed).Of(whole[seed % whole.Count]), "garbled");
        return reading.Map is null && reading.Faults.Count == 0 ? "there is neither a map nor a fault" : null;
    });

    public static IReadOnlyList<string> Ledgers(IReadOnlyList<string> whole, OperationNet net, int inputs) => Each(inputs, seed =>
    {
        var text = whole[seed % whole.Count];
        var reading = LedgerFile.Read(new Garble(seed).Of(text), "garbled");
        var standing = Fold.Of(net, reading.Entries);
        // Lines and their ends may have been put in other words; what is read and said to be whole is what was written.
        return reading.Fault is null && reading.Entries.Any(entry => entry.Seal is not null && !text.Contains(entry.Line, StringComparison.Ordinal)) ? "a changed entry is taken for whole"
            : standing.Questions.Any(question => question.Sentence.Length == 0) ? "a question says nothing" : null;
    });

    /// <summary>Sends broken bodies and addresses to a server; it must answer each, and never with an error of its own.</summary>
    /// <param name="client">Before a server that lets it in.</param>
    /// <param name="ledger">A whole ledger, the first entry of which opens the job.</param>
    public static async Task<IReadOnlyList<string>> EndpointAsync(HttpClient client, string ledger, int inputs)
    {
        var job = ledger[(ledger.IndexOf("\"id\":\"", StringComparison.Ordinal) + 6)..][..36];
        var wrong = new List<string>();
        for (var seed = 1; seed <= inputs; seed++)
        {
            var garble = new Garble(seed);
            var name = garble.Of("light-van");
            using var request = (seed % 5) switch
            {
                0 => new HttpRequestMessage(HttpMethod.Post, "/api/doors/join") { Content = new StringContent(garble.Of("""{"value":"code","label":"phone"}"""), Encoding.UTF8, "application/json") },
                1 => new HttpRequestMessage(HttpMethod.Get, "/api/maps/" + Uri.EscapeDataString(name[..Math.Min(60, name.Length)])),
                2 => new HttpRequestMessage(HttpMethod.Post, $"/api/jobs/{job}/entries") { Content = new ByteArrayContent(Bytes(seed)) },
                _ => new HttpRequestMessage(HttpMethod.Post, $"/api/jobs/{job}/entries") { Content = new StringContent(garble.Of(ledger), Encoding.UTF8, "application/jsonl") },
            };
            using var answer = await client.SendAsync(request);
            if (answer.StatusCode >= HttpStatusCode.InternalServerError)
            {
                wrong.Add($"seed {seed}: {request.RequestUri} was answered {(int)answer.StatusCode}");
            }
        }

        return wrong;
    }

    private static byte[] Bytes(int seed)
    {
        var random = new Random(seed);
        var bytes = new byte[random.Next(2000)];
        random.NextBytes(bytes);
        return bytes;
    }

    private static List<string> Each(int inputs, Func<int, string?> read)
    {
        var wrong = new List<string>();
        for (var seed = 1; seed <= inputs; seed++)
        {
            try
            {
                if (read(seed) is { } fault)
                {
                    wrong.Add($"seed {seed}: {fault}");
                }
            }
#pragma warning disable CA1031 // Any exception at all is the finding here.
            catch (Exception e)
            {
                wrong.Add($"seed {seed}: {e.GetType().Name}: {e.Message}");
            }
#pragma warning restore CA1031
        }

        return wrong;
    }
}
