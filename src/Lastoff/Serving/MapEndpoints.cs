using System.Security.Claims;
using System.Text;
using Lastoff.Core.Maps;
using Lastoff.Doors;
using Lastoff.Storing;
using Microsoft.AspNetCore.Authorization;

namespace Lastoff.Serving;

/// <summary>The workshop's maps, for devices to keep, and what is saved on them.</summary>
internal static class MapEndpoints
{
    public const string Yaml = "application/yaml";

    private const int FaultsTold = 3;

    public static void MapMaps(this IEndpointRouteBuilder api, MapLibrary maps)
    {
        api.MapGet("/maps", () => maps.List());
        api.MapGet("/maps/{name}", (string name) => Text(maps.Text(name)));
        api.MapGet("/maps/texts/{hash}", (string hash) => Text(maps.TextOf(hash)));
        api.MapPut("/maps/{name}", async (string name, string? edited_from, string? by, bool? beside, HttpRequest request, ClaimsPrincipal who, IAuthorizationService doors) =>
        {
            using var reader = new StreamReader(request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
            try
            {
                // Whoever is let in is known; while nobody has to be, it is who says so.
                var person = who.FindFirstValue(ClaimTypes.Name) is { Length: > 0 } known ? known : by ?? "";
                var maySave = (await doors.AuthorizeAsync(who, DoorSetup.Maps)).Succeeded;
                return Save(maps, name, await reader.ReadToEndAsync(), person, edited_from, beside == true, maySave);
            }
            catch (DecoderFallbackException)
            {
                return Results.Problem("The map is not valid UTF-8; save it as UTF-8 and send it again.", statusCode: StatusCodes.Status400BadRequest);
            }
            catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
            {
                return Results.Problem("A map has at most 4 MB; describe one area of the machine per map.", statusCode: StatusCodes.Status413PayloadTooLarge);
            }
        });
    }

    private static IResult Text(string? text) => text is null ? Results.NotFound() : Results.Text(text, Yaml, Encoding.UTF8);

    /// <param name="isBeside">It is not to become the newest; jobs may stand on it all the same.</param>
    private static IResult Save(MapLibrary maps, string name, string yaml, string by, string? editedFrom, bool isBeside, bool maySave)
    {
        if (!MapLibrary.IsName(name) || by.Length > Person.LongestName * 4 || by.Any(char.IsControl))
        {
            return Results.Problem("A map's name has at most 100 lower-case letters, digits and hyphens, and who saves it has a name without control characters.", statusCode: StatusCodes.Status400BadRequest);
        }

        var text = SavedText.Of(name, yaml, by, string.IsNullOrEmpty(editedFrom) ? null : editedFrom);
        var reading = MapReader.Read(yaml, name);
        if (!maySave)
        {
            // A job opened on it on that device must not be unreadable everywhere else.
            if (reading.Map?.Name == name)
            {
                maps.Keep(text);
            }

            return Results.Problem("Maps are saved by owners and mechanics; this one is kept only for the jobs opened on it, and new jobs use the one before. Ask one of them to save it.", statusCode: StatusCodes.Status403Forbidden);
        }

        if (reading.Map is not { } map)
        {
            var more = reading.Faults.Count - FaultsTold;
            return Results.Problem(
                string.Join(" ", reading.Faults.Take(FaultsTold).Select(reading.Describe)) + (more > 0 ? $" And {more} more." : ""),
                statusCode: StatusCodes.Status400BadRequest);
        }

        if (map.Name != name)
        {
            return Results.Problem($"The map in it is named “{map.Name}” and not “{name}”; send it under its own name.", statusCode: StatusCodes.Status400BadRequest);
        }

        var saved = isBeside ? maps.KeepBeside(text) : maps.Save(text);
        return saved.IsTaken
            ? Results.Ok(saved)
            : Results.Problem(
                (editedFrom is { Length: > 0 } ? $"The map “{name}” was changed{Whom(saved.By)} after this text was taken from it" : $"There is a map “{name}” already{Whom(saved.By)}")
                    + "; look at both, and save this one as the newest all the same if it is right.",
                statusCode: StatusCodes.Status409Conflict,
                extensions: new Dictionary<string, object?> { ["newest"] = saved.Newest });
    }

    private static string Whom(string by) => by.Length == 0 ? "" : $" by {by}";
}
