using System.Text;
using Lastoff.Doors;
using Lastoff.Storing;
using Microsoft.AspNetCore.Authorization;

namespace Lastoff.Serving;

/// <summary>The workshop's price terms, which its owner sets, and its price list, which everybody inside writes on.</summary>
internal static class SettingEndpoints
{
    private const string VersionHeader = "Lastoff-Version";

    public static void MapSettings(this IEndpointRouteBuilder api, Settings settings)
    {
        api.MapGet("/settings/{name}", (string name, HttpResponse response) => Settings.Names.Contains(name) ? Answer(response, settings.Find(name), StatusCodes.Status200OK) : Results.NotFound());
        api.MapPut("/settings/{name}", async (string name, long version, HttpContext context, IAuthorizationService doors) =>
        {
            if (!Settings.Names.Contains(name))
            {
                return Results.NotFound();
            }

            if (name == Settings.Terms && !(await doors.AuthorizeAsync(context.User, DoorSetup.Owner)).Succeeded)
            {
                return Results.Problem("Rates, taxes and limits are set by an owner; ask one.", statusCode: StatusCodes.Status403Forbidden);
            }

            using var reader = new StreamReader(context.Request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
            try
            {
                var text = await reader.ReadToEndAsync();
                if (Settings.Fault(name, text) is { } fault)
                {
                    return Results.Problem(fault, statusCode: StatusCodes.Status400BadRequest);
                }

                var (isSaved, now) = settings.Save(name, text, version);
                return Answer(context.Response, now, isSaved ? StatusCodes.Status200OK : StatusCodes.Status409Conflict);
            }
            catch (DecoderFallbackException)
            {
                return Results.Problem("This is not valid UTF-8; send it as it was written.", statusCode: StatusCodes.Status400BadRequest);
            }
        });
    }

    private static IResult Answer(HttpResponse response, Setting setting, int status)
    {
        response.Headers[VersionHeader] = $"{setting.Version}";
        return Results.Text(setting.Text, "application/json", Encoding.UTF8, status);
    }
}
