using System.Net.Http.Headers;
using Lastoff.Core.Ledger;
using Lastoff.Storing;

namespace Lastoff.Serving;

/// <summary>Photos, each under the SHA-256 of its file. They are sent in pieces (RFC 9110, section 14.5), so that a cut costs one piece and not the photo.</summary>
internal static class PhotoEndpoints
{
    private const int MostAsked = 60;

    public static void MapPhotos(this IEndpointRouteBuilder api, PhotoLibrary photos)
    {
        api.MapGet("/photos/{hash}", (string hash, HttpResponse response) =>
        {
            if (photos.Find(hash) is not { } file)
            {
                return Results.NotFound();
            }

            // Under this name there can never be anything else; and whatever it is, it runs nothing.
            response.Headers.CacheControl = "private, max-age=31536000, immutable";
            response.Headers.ContentSecurityPolicy = "default-src 'none'; sandbox";
            return Results.Bytes(file, "image/jpeg");
        });
        api.MapGet("/photos/{hash}/arrived", (string hash) => Entry.IsSha256(hash) ? Results.Ok(photos.Arrived(hash)) : Results.NotFound());
        // Of many at once, those that are here whole: a list of jobs asks about every photo in it.
        api.MapGet("/photos/arrived", (string? of) => of?.Split(',') is { Length: <= MostAsked } hashes && hashes.All(Entry.IsSha256)
            ? Results.Ok(hashes.Where(hash => photos.Arrived(hash).IsWhole))
            : Refused($"Name the photos by their SHA-256 in lower-case hex, with commas between, at most {MostAsked} at once."));
        api.MapPut("/photos/{hash}", async (string hash, HttpRequest request) =>
        {
            if (!ContentRangeHeaderValue.TryParse(request.Headers.ContentRange, out var range) || range is not { From: { } from, To: { } to, Length: { } of } || to - from >= PhotoLibrary.Largest)
            {
                return Refused("Say with Content-Range which bytes of how many are sent.");
            }

            using var body = new MemoryStream();
            await request.Body.CopyToAsync(body);
            if (body.Length != to - from + 1)
            {
                return Refused("Not as many bytes were sent as Content-Range says; send them again.");
            }

            try
            {
                return Results.Ok(photos.Take(hash, from, of, body.GetBuffer().AsMemory(0, (int)body.Length)));
            }
            catch (InvalidDataException e)
            {
                return Refused(e.Message);
            }
            catch (IOException e)
            {
                throw new StoreAwayException($"The photo could not be written ({e.Message.TrimEnd('.')}); it is sent again.", e);
            }
        });
    }

    private static IResult Refused(string why) => Results.Problem(why, statusCode: StatusCodes.Status400BadRequest);
}
