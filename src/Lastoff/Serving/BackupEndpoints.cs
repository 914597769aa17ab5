using Lastoff.Doors;
using Lastoff.Storing;
using Microsoft.Data.Sqlite;

namespace Lastoff.Serving;

/// <summary>The backups of a data folder, for its owner to look at and to add to.</summary>
internal static class BackupEndpoints
{
    internal sealed record ListedBackup(string File, DateTime At, long Bytes);

    /// <param name="Folder">Where they lie on the server's machine; null when the records are in PostgreSQL, whose backups are its own.</param>
    /// <param name="Data">The data folder, as `lastoff restore --data` wants it; null likewise.</param>
    /// <param name="Backups">Newest first.</param>
    /// <param name="Made">The one just made; null when the newest has everything already, or only a list was asked for.</param>
    internal sealed record BackupList(string? Folder, string? Data, IReadOnlyList<ListedBackup> Backups, string? Made = null);

    /// <param name="folder">Null when somebody else sees to backups.</param>
    public static void MapBackups(this IEndpointRouteBuilder api, DataFolder? folder)
    {
        var backups = api.MapGroup("/backups").RequireAuthorization(DoorSetup.Owner);
        backups.MapGet("/", () => List(folder, made: null));
        backups.MapPost("/", async () =>
        {
            if (folder is null)
            {
                return Results.Problem("The records are in PostgreSQL, and its own means back them up (pg_dump, or its archive).", statusCode: StatusCodes.Status409Conflict);
            }

            try
            {
                return Results.Ok(List(folder, await Task.Run(folder.Backup)));
            }
            catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
            {
                return Results.Problem($"No backup was made ({e.Message.TrimEnd('.')}); see that there is room on the disk, and that no other is being made at this moment.", statusCode: StatusCodes.Status409Conflict);
            }
        });
    }

    private static BackupList List(DataFolder? folder, string? made) => folder is null
        ? new BackupList(null, null, [])
        : new BackupList(
            Path.GetFullPath(folder.BackupFolder), Path.GetFullPath(folder.Path),
            // One that is thinned out at this moment is gone.
            [.. folder.Backups().Select(file => new FileInfo(file)).Where(file => file.Exists).Select(file => new ListedBackup(file.Name, DataFolder.TimeOf(file.FullName)!.Value, file.Length))],
            made is null ? null : Path.GetFileName(made));
}
