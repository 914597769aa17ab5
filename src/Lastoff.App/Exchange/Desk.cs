using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Lastoff.App.Device;
using Lastoff.Core;
using Lastoff.Core.Planning;

namespace Lastoff.App.Exchange;

/// <summary>Asks the server for a plan, since it can search far longer than this device.</summary>
/// <param name="server">Waits as long as a search takes, with others before it.</param>
public sealed class Desk(Server server)
{
    /// <summary>The server's plan; null when it has none for just this standing, or is out of reach.</summary>
    public async Task<Plan?> PlanAsync(Guid job, int entries, string map, CancellationToken ct)
    {
        try
        {
            var answer = await server.GetAsync($"api/jobs/{job}/plan?entries={entries}&map={map}", ct);
            return answer.IsGood ? JsonSerializer.Deserialize(answer.Text, AppJson.Default.Plan) : null;
        }
        catch (Exception e) when (e is ServerException or OperationCanceledException or JsonException)
        {
            return null;
        }
    }

    /// <summary>What else can be asked of the plan on from where a job stands; or why there is no answer.</summary>
    /// <param name="what">"forks", "extras" or "two-hands".</param>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    public async Task<Answer<T>> AskAsync<T>(Guid job, string what, int entries, string map, JsonTypeInfo<T> type, CancellationToken ct) where T : notnull
    {
        try
        {
            var answer = await server.GetAsync($"api/jobs/{job}/plan/{what}?entries={entries}&map={map}", ct);
            return answer.IsGood && JsonSerializer.Deserialize(answer.Text, type) is { } found
                ? found
                : Answer.None<T>(Problem.Detail(answer.Text) ?? $"The server would not answer that ({(int)answer.Status}).");
        }
        catch (Exception e) when (e is ServerException or JsonException)
        {
            return Answer.None<T>("The server works this out, and it is out of reach.");
        }
    }
}
