using System.Diagnostics;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.App.Exchange;

namespace Lastoff.App.Jobs;

/// <summary>Which photos the server does not have yet: the entry that names a photo comes long before the photo.</summary>
public sealed class PhotosAway(Server server, Courier courier)
{
    /// <summary>What the server answers at once.</summary>
    private const int MostAsked = 60;

    /// <summary>A list that is drawn anew at every news asks the server again only after so long.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly HashSet<string> _there = [];
    private readonly Dictionary<string, long> _askedAt = [];

    /// <summary>Of these photos, by the SHA-256 of their files, those known to be away; what cannot be found out now is not counted.</summary>
    public async Task<IReadOnlySet<string>> OfAsync(IEnumerable<string> photos)
    {
        HashSet<string> open = [.. photos.Except(_there)];
        if (open.Count == 0 || !courier.IsReached || courier.IsShutOut)
        {
            return new HashSet<string>();
        }

        try
        {
            foreach (var asked in open.Where(photo => !_askedAt.TryGetValue(photo, out var at) || Stopwatch.GetElapsedTime(at) >= Patience).ToList().Chunk(MostAsked))
            {
                _there.UnionWith(await server.ReadAsync($"api/photos/arrived?of={string.Join(',', asked)}", AppJson.Default.ListString));
                foreach (var photo in asked)
                {
                    _askedAt[photo] = Stopwatch.GetTimestamp();
                }
            }

            return open.Where(photo => _askedAt.ContainsKey(photo) && !_there.Contains(photo)).ToHashSet();
        }
        catch (Exception e) when (e is ServerException or JsonException or JSException)
        {
            return new HashSet<string>();
        }
    }
}
