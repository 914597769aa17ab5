using Npgsql;

namespace Lastoff.Storing;

/// <summary>Hears what any server announces in the database. While it is away nothing is heard; it is tried again each second.</summary>
internal sealed class PostgresEar : IAsyncDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly CancellationTokenSource _stop = new();
    private readonly Task _hearing;

    public PostgresEar(NpgsqlDataSource source, string channel, int workshop, News news) =>
        _hearing = Task.Run(() => HearAsync(source, channel, workshop, news));

    /// <summary>What is announced of a workshop.</summary>
    public static string Told(int workshop, NewsOf what) => what == NewsOf.Doors ? $"{workshop} doors" : $"{workshop}";

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _hearing;
        _stop.Dispose();
    }

    private async Task HearAsync(NpgsqlDataSource source, string channel, int workshop, News news)
    {
        while (!_stop.IsCancellationRequested)
        {
            try
            {
                await using var connection = await source.OpenConnectionAsync(_stop.Token);
                connection.Notification += (_, notice) =>
                {
                    // Servers of an earlier version name a job after the workshop.
                    if (notice.Payload.Split(' ')[0] == $"{workshop}")
                    {
                        news.Tell(notice.Payload == Told(workshop, NewsOf.Doors) ? NewsOf.Doors : NewsOf.Entries);
                    }
                };
                await using (var listen = new NpgsqlCommand($"LISTEN {channel}", connection))
                {
                    await listen.ExecuteNonQueryAsync(_stop.Token);
                }

                // Whatever was announced while nobody listened.
                news.TellOfDoors();
                news.IsHearing = true;
                while (true)
                {
                    await connection.WaitAsync(_stop.Token);
                }
            }
            catch (OperationCanceledException) when (_stop.IsCancellationRequested)
            {
            }
            catch (Exception e) when (e is NpgsqlException or IOException or InvalidOperationException or OperationCanceledException)
            {
                news.IsHearing = false;
                await Task.WhenAny(Task.Delay(Pause, _stop.Token));
            }
        }
    }
}
