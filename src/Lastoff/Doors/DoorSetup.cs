using System.Threading.RateLimiting;
using Lastoff.Storing;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.Identity;

namespace Lastoff.Doors;

/// <summary>Who may come in, and how: people by password or passkey, their phones by a code, customers by a link.</summary>
internal static class DoorSetup
{
    /// <summary>May see and write the jobs.</summary>
    public const string Inside = "inside";
    /// <summary>May give a customer a link.</summary>
    public const string Customers = "customers";
    /// <summary>May save maps.</summary>
    public const string Maps = "maps";
    /// <summary>Has the say over people and devices.</summary>
    public const string Owner = "owner";
    /// <summary>The limit of tries at the door itself.</summary>
    public const string AtTheDoor = "at the door";

    private const int TriesAMinute = 20;
    private const int RequestsAtOnce = 400;
    private const int RequestsASecond = 50;

    public static void AddDoors(this IServiceCollection services, Workshop workshop)
    {
        services.AddSingleton(new PeopleTable(workshop)).AddSingleton<IUserStore<Person>>(provider => provider.GetRequiredService<PeopleTable>());
        services.AddSingleton(new DeviceTable(workshop)).AddSingleton<CustomerLinks>().AddSingleton<ReachedAt>();
        services.AddDataProtection().SetApplicationName("lastoff");
        services.Configure<KeyManagementOptions>(keys => keys.XmlRepository = new KeyTable(workshop));
        services.AddIdentityCore<Person>(identity =>
        {
            // A long one, and no rule about which letters are in it (as NIST SP 800-63B advises, section 5.1.1.2; from memory).
            identity.Password.RequiredLength = 10;
            identity.Password.RequireDigit = identity.Password.RequireLowercase = identity.Password.RequireUppercase = identity.Password.RequireNonAlphanumeric = false;
            identity.Lockout.MaxFailedAccessAttempts = 10;
            identity.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(10);
            // Names are people's names.
            identity.User.AllowedUserNameCharacters = "";
        }).AddSignInManager();
        services.AddAuthentication(DeviceSignIn.Name)
            .AddScheme<AuthenticationSchemeOptions, DeviceSignIn>(DeviceSignIn.Name, null)
            // Holds the challenge of a passkey for the moment between asking and answering.
            .AddCookie(IdentityConstants.TwoFactorUserIdScheme, cookie =>
            {
                cookie.Cookie.Name = "lastoff-challenge";
                cookie.Cookie.SameSite = SameSiteMode.Strict;
                cookie.ExpireTimeSpan = TimeSpan.FromMinutes(5);
            });
        services.AddAuthorizationBuilder()
            .AddPolicy(Inside, policy => policy.RequireRole(Roles.All))
            .AddPolicy(Customers, policy => policy.RequireRole(Roles.Owner, Roles.Desk))
            .AddPolicy(Maps, policy => policy.RequireRole(Roles.Owner, Roles.Mechanic))
            .AddPolicy(Owner, policy => policy.RequireRole(Roles.Owner));
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.OnRejected = async (rejected, _) =>
            {
                rejected.HttpContext.Response.Headers.RetryAfter = "60";
                await Results.Problem("Too many tries; wait a minute.", statusCode: StatusCodes.Status429TooManyRequests).ExecuteAsync(rejected.HttpContext);
            };
            limits.AddPolicy(AtTheDoor, context => RateLimitPartition.GetFixedWindowLimiter(
                From(context), _ => new FixedWindowRateLimiterOptions { PermitLimit = TriesAMinute, Window = TimeSpan.FromMinutes(1) }));
            limits.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context => DeviceSignIn.IsAtTheMachine(context)
                ? RateLimitPartition.GetNoLimiter("")
                : RateLimitPartition.GetTokenBucketLimiter(From(context), _ => new TokenBucketRateLimiterOptions
                {
                    TokenLimit = RequestsAtOnce,
                    TokensPerPeriod = RequestsASecond,
                    ReplenishmentPeriod = TimeSpan.FromSeconds(1),
                }));
        });
    }

    public static void UseDoors(this WebApplication app)
    {
        app.UseRateLimiter();
        app.UseSameSite();
        app.UseAuthentication();
        app.UseAuthorization();
    }

    private static string From(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "";
}
