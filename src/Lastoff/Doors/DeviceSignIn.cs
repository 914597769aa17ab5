using System.Net;
using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace Lastoff.Doors;

/// <summary>Knows a browser again by the key it was let in with. While the workshop has no owner, whoever sits at the machine itself counts as one.</summary>
internal sealed class DeviceSignIn(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logs, UrlEncoder encoder, PeopleTable people)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logs, encoder)
{
    public const string Name = "device";
    public const string DeviceClaim = "device";

    private const string CookieName = "lastoff-device";

    /// <summary>A server in front that passes requests on names whom it passes them on for.</summary>
    private static readonly string[] PassedOn = ["Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Real-IP", "Via"];

    // As long as browsers keep a cookie at most.
    private static readonly TimeSpan Kept = TimeSpan.FromDays(400);

    /// <summary>Gives the browser its key; no script can read it, and no other site's page can make the browser show it.</summary>
    public static void Give(HttpContext context, string key) => context.Response.Cookies.Append(CookieName, key, new CookieOptions
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Strict,
        Secure = context.Request.IsHttps,
        MaxAge = Kept,
        Path = "/",
    });

    public static void Take(HttpContext context) => context.Response.Cookies.Delete(CookieName);

    /// <summary>Whether somebody sits at the machine that the server runs on: by address and by name, so that no page from elsewhere gets in under a borrowed name.</summary>
    public static bool IsAtTheMachine(HttpContext context) =>
        context.Connection.RemoteIpAddress is { } address && IPAddress.IsLoopback(address)
        && !PassedOn.Any(context.Request.Headers.ContainsKey)
        && (context.Request.Host.Host is "localhost" || (IPAddress.TryParse(context.Request.Host.Host.Trim('[', ']'), out var named) && IPAddress.IsLoopback(named)));

    /// <summary>Who comes with this request, null for nobody whom the records know.</summary>
    public static async ValueTask<ClaimsIdentity?> WhoComesAsync(HttpContext context)
    {
        if (context.Request.Cookies[CookieName] is { Length: > 0 and < 200 } key
            && await context.RequestServices.GetRequiredService<KnownKeys>().FindAsync(key) is { } known)
        {
            return Identity(known.Person, known.Name, known.Role, known.Device);
        }

        return IsAtTheMachine(context) && !context.RequestServices.GetRequiredService<PeopleTable>().HasOwner() ? Identity("", "", Roles.Owner, "") : null;
    }

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync() => await WhoComesAsync(Context) is { } known
        ? AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(known), Scheme.Name))
        : AuthenticateResult.NoResult();

    protected override Task HandleChallengeAsync(AuthenticationProperties properties) => Results.Problem(
        people.HasOwner()
            ? "This device is not let in here: sign in, or join with the code on the screen at the desk."
            : "This workshop has no owner yet: open it on the machine it runs on, and say there who the owner is.",
        statusCode: StatusCodes.Status401Unauthorized).ExecuteAsync(Context);

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) => Results.Problem(
        "That is for somebody else here to do; ask the owner.", statusCode: StatusCodes.Status403Forbidden).ExecuteAsync(Context);

    private static ClaimsIdentity Identity(string id, string name, string role, string device) =>
        new([new(ClaimTypes.NameIdentifier, id), new(ClaimTypes.Name, name), new(ClaimTypes.Role, role), new(DeviceClaim, device)], Name);
}
