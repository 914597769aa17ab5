namespace Lastoff.Doors;

/// <summary>A page of another site cannot make a browser write here, whatever that browser is let in with.</summary>
internal static class SameSite
{
    public static void UseSameSite(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var request = context.Request;
        if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || IsOwn(request))
        {
            await next(context);
        }
        else
        {
            await Results.Problem("This was sent by a page of another site; nothing was taken.", statusCode: StatusCodes.Status403Forbidden).ExecuteAsync(context);
        }
    });

    /// <summary>Browsers say where a request comes from; a program that says nothing is no page.</summary>
    private static bool IsOwn(HttpRequest request)
    {
        string? origin = request.Headers.Origin;
        string? site = request.Headers["Sec-Fetch-Site"];
        return site is null or "same-origin" or "none"
            && (origin is null || (Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority == new Uri($"{from.Scheme}://{request.Host}").Authority));
    }
}
