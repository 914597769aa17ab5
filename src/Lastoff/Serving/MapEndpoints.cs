using System.Text;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>The workshop's maps, for devices to keep.</summary>
internal static class MapEndpoints
{
    public static void MapMaps(this IEndpointRouteBuilder api, MapLibrary maps)
    {
        api.MapGet("/maps", () => maps.List());
        api.MapGet("/maps/{name}", (string name) => maps.Text(name) is { } text
            ? Results.Text(text, "application/yaml", Encoding.UTF8)
            : Results.NotFound());
    }
}
