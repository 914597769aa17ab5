using System.Net;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.Core;

namespace Lastoff.App.Exchange;

public sealed record ListedBackup(string File, DateTimeOffset At, long Bytes);

/// <summary>The server's backups, newest first.</summary>
/// <param name="Folder">Where they lie on its machine; null when its records are in PostgreSQL, whose backups are its own.</param>
/// <param name="Data">The data folder that a backup is brought back into.</param>
/// <param name="Made">The one just made; null when the newest had everything already.</param>
public sealed record BackupList(string? Folder, string? Data, List<ListedBackup> Backups, string? Made);

/// <summary>Asks the server for its backups, and for one more.</summary>
/// <param name="server">Waits as long as a backup takes.</param>
public sealed class Backups(Server server)
{
    public Task<Answer<BackupList>> ListAsync() => AskAsync(() => server.GetAsync("api/backups"));

    public Task<Answer<BackupList>> MakeAsync() => AskAsync(() => server.PostAsync("api/backups", null));

    private static async Task<Answer<BackupList>> AskAsync(Func<Task<Reply>> ask)
    {
        try
        {
            var answer = await ask();
            if (answer.IsGood)
            {
                return JsonSerializer.Deserialize(answer.Text, AppJson.Default.BackupList)!;
            }

            return Answer.None<BackupList>(answer.Status is HttpStatusCode.Forbidden or HttpStatusCode.Unauthorized
                ? "Backups are shown to the owner of the workshop only."
                : Problem.Detail(answer.Text) ?? "The server gave no reason.");
        }
        catch (Exception e) when (e is ServerException or JsonException)
        {
            return Answer.None<BackupList>("The server is out of reach; try again where it can be reached.");
        }
    }
}
