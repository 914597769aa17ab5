using System.Net.Http.Json;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.Core.Planning;

namespace Lastoff.App.Exchange;

/// <summary>Asks the server for a plan, since it can search far longer than this device.</summary>
/// <param name="server">Waits as long as a search takes, with others before it.</param>
public sealed class Desk(HttpClient server)
{
    /// <summary>The server's plan; null when it has none for just this standing, or is out of reach.</summary>
    public async Task<Plan?> PlanAsync(Guid job, int entries, string map, CancellationToken ct)
    {
        try
        {
            using var answer = await server.GetAsync($"api/jobs/{job}/plan?entries={entries}&map={map}", ct);
            return answer.IsSuccessStatusCode ? await answer.Content.ReadFromJsonAsync(AppJson.Default.Plan, ct) : null;
        }
        catch (Exception e) when (e is HttpRequestException or IOException or OperationCanceledException or JsonException or JSException)
        {
            return null;
        }
    }
}
