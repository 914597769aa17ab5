using System.Diagnostics;
using System.Net.Http.Json;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.App.Exchange;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>Which photos of a job the server does not have yet: the entry that names a photo comes long before the photo.</summary>
public sealed class PhotosAway(HttpClient server, Courier courier)
{
    /// <summary>Of each job the newest so many are asked about; older ones have long come.</summary>
    private const int MostAsked = 12;

    /// <summary>A list that is drawn anew at every news asks the server again only after so long.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly HashSet<string> _there = [];
    private readonly Dictionary<string, long> _askedAt = [];

    /// <summary>Those known to be away; what cannot be found out now is not counted.</summary>
    public async Task<IReadOnlyList<Photo>> OfAsync(IEnumerable<Photo> photos)
    {
        List<Photo> open = [.. photos.Reverse().Take(MostAsked).Where(photo => !_there.Contains(photo.Taken.Photo))];
        if (open.Count == 0 || !courier.IsReached || courier.IsShutOut)
        {
            return [];
        }

        try
        {
            var away = new List<Photo>();
            foreach (var photo in open)
            {
                if (_askedAt.TryGetValue(photo.Taken.Photo, out var at) && Stopwatch.GetElapsedTime(at) < Patience)
                {
                    away.Add(photo);
                    continue;
                }

                if ((await server.GetFromJsonAsync($"api/photos/{photo.Taken.Photo}/arrived", AppJson.Default.PhotoArrived))!.IsWhole)
                {
                    _there.Add(photo.Taken.Photo);
                }
                else
                {
                    _askedAt[photo.Taken.Photo] = Stopwatch.GetTimestamp();
                    away.Add(photo);
                }
            }

            return away;
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JsonException or JSException)
        {
            return [];
        }
    }
}
