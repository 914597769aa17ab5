using Lastoff.Storing;
using Microsoft.Data.Sqlite;

namespace Lastoff.Serving;

/// <summary>Backs a data folder up at the start and every hour after it.</summary>
internal sealed class HourlyBackup(DataFolder folder, ILogger<HourlyBackup> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromHours(1));
        do
        {
            try
            {
                if (await Task.Run(folder.Backup, stoppingToken) is { } file)
                {
                    log.LogInformation("The records are backed up in {File}", file);
                }
            }
            catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
            {
                // The work goes on without it; the next hour tries again.
                log.LogError(e, "The records could not be backed up in {Folder}", folder.BackupFolder);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
