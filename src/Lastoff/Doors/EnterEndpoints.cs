using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Identity;

namespace Lastoff.Doors;

/// <summary>The door itself: who somebody is, by password, by passkey or by a code; and going out again.</summary>
internal static class EnterEndpoints
{
    private const int LongestLabel = 60;

    // What a name that nobody has is checked against, so that it takes as long as one that somebody has.
    private static readonly string NobodysHash = new PasswordHasher<Person>().HashPassword(new Person(), Guid.NewGuid().ToString());

    internal sealed record NameAndPassword(string? Name, string? Password, string? Label);
    internal sealed record Code(string? Value, string? Label);
    internal sealed record Passkey(string? Credential, string? Label);
    internal sealed record NewPassword(string? Password);
    /// <summary>What the app has to know about the door.</summary>
    /// <param name="HasOwner">Whether anybody has to sign in at all.</param>
    internal sealed record Door(bool HasOwner, string? Name, string? Role, string? Device, bool HasPassword, int Passkeys);

    public static void MapEnter(this IEndpointRouteBuilder routes)
    {
        var doors = routes.MapGroup("/doors");
        doors.MapGet("/", DoorAsync);
        var tries = doors.MapGroup("").RequireRateLimiting(DoorSetup.AtTheDoor);
        tries.MapPost("/owner", OwnAsync).RequireAuthorization(DoorSetup.Owner);
        tries.MapPost("/enter", EnterAsync);
        tries.MapPost("/join", Join);
        tries.MapPost("/passkey/ask", async (SignInManager<Person> signIn) => Json(await signIn.MakePasskeyRequestOptionsAsync(null)));
        tries.MapPost("/passkey/enter", EnterByPasskeyAsync);
        var mine = tries.MapGroup("").RequireAuthorization(DoorSetup.Inside);
        mine.MapPost("/passkey/new", NewPasskeyAsync);
        mine.MapPost("/passkey/keep", KeepPasskeyAsync);
        mine.MapPost("/password", SetPasswordAsync);
        doors.MapPost("/leave", Leave).RequireAuthorization(DoorSetup.Inside);
    }

    private static async Task<IResult> DoorAsync(ClaimsPrincipal who, PeopleTable people, UserManager<Person> users) =>
        Known(who, people) is { } person
            ? Results.Ok(new Door(true, person.Name, person.Role, DeviceOf(who), person.PasswordHash is not null, (await users.GetPasskeysAsync(person)).Count))
            : Results.Ok(new Door(people.HasOwner(), null, null, null, false, 0));

    /// <summary>The first owner: from then on everybody has to come in by the door.</summary>
    private static async Task<IResult> OwnAsync(NameAndPassword given, HttpContext context, PeopleTable people, DeviceTable devices, UserManager<Person> users, TimeProvider clock)
    {
        if (people.HasOwner())
        {
            return Results.Problem("This workshop has an owner already; sign in instead.", statusCode: StatusCodes.Status409Conflict);
        }

        var owner = new Person { Name = given.Name?.Trim() ?? "", Role = Roles.Owner };
        return NameFault(owner.Name) ?? Refused(await users.CreateAsync(owner, given.Password ?? "")) ?? LetIn(context, devices, owner, given.Label, clock);
    }

    private static async Task<IResult> EnterAsync(NameAndPassword given, HttpContext context, DeviceTable devices, UserManager<Person> users, SignInManager<Person> signIn, TimeProvider clock)
    {
        var person = await users.FindByNameAsync(given.Name?.Trim() ?? "");
        if (person is null || person.IsOut)
        {
            users.PasswordHasher.VerifyHashedPassword(new Person(), NobodysHash, given.Password ?? "");
            return WrongWord();
        }

        var checkedResult = await signIn.CheckPasswordSignInAsync(person, given.Password ?? "", lockoutOnFailure: true);
        return checkedResult.IsLockedOut ? Results.Problem("Too many wrong passwords; wait ten minutes, or join with a code.", statusCode: StatusCodes.Status429TooManyRequests)
            : checkedResult.Succeeded ? LetIn(context, devices, person, given.Label, clock)
            : WrongWord();
    }

    private static IResult Join(Code code, HttpContext context, PeopleTable people, DeviceTable devices, TimeProvider clock) =>
        devices.Redeem(code.Value ?? "", clock.GetUtcNow()) is { } id && people.Find(id) is { IsOut: false } person
            ? LetIn(context, devices, person, code.Label, clock)
            : Results.Problem("This code was used already or is too old; ask for a new one at the desk.", statusCode: StatusCodes.Status401Unauthorized);

    private static async Task<IResult> EnterByPasskeyAsync(Passkey given, HttpContext context, DeviceTable devices, UserManager<Person> users, SignInManager<Person> signIn, TimeProvider clock)
    {
        try
        {
            var asserted = await signIn.PerformPasskeyAssertionAsync(given.Credential ?? "");
            if (asserted is { Succeeded: true, User.IsOut: false })
            {
                await users.AddOrUpdatePasskeyAsync(asserted.User, asserted.Passkey);
                return LetIn(context, devices, asserted.User, given.Label, clock);
            }
        }
        catch (Exception e) when (IsNoAnswer(e))
        {
            // Told below.
        }

        return Results.Problem("This passkey does not open here; sign in with the password, or join with a code.", statusCode: StatusCodes.Status401Unauthorized);
    }

    private static async Task<IResult> NewPasskeyAsync(ClaimsPrincipal who, PeopleTable people, SignInManager<Person> signIn) =>
        Known(who, people) is { } person
            ? Json(await signIn.MakePasskeyCreationOptionsAsync(new PasskeyUserEntity { Id = person.Id, Name = person.Name, DisplayName = person.Name }))
            : NobodyYet();

    private static async Task<IResult> KeepPasskeyAsync(Passkey given, ClaimsPrincipal who, PeopleTable people, UserManager<Person> users, SignInManager<Person> signIn)
    {
        if (Known(who, people) is not { } person)
        {
            return NobodyYet();
        }

        try
        {
            var attested = await signIn.PerformPasskeyAttestationAsync(given.Credential ?? "");
            if (attested.Succeeded && attested.UserEntity.Id == person.Id)
            {
                return Refused(await users.AddOrUpdatePasskeyAsync(person, attested.Passkey)) ?? Results.NoContent();
            }
        }
        catch (Exception e) when (IsNoAnswer(e))
        {
            // Told below.
        }

        return Results.Problem("This passkey was not kept; begin again.", statusCode: StatusCodes.Status400BadRequest);
    }

    private static async Task<IResult> SetPasswordAsync(NewPassword given, ClaimsPrincipal who, PeopleTable people, UserManager<Person> users)
    {
        if (Known(who, people) is not { } person)
        {
            return NobodyYet();
        }

        foreach (var check in users.PasswordValidators)
        {
            if (Refused(await check.ValidateAsync(users, person, given.Password ?? "")) is { } refused)
            {
                return refused;
            }
        }

        person.PasswordHash = users.PasswordHasher.HashPassword(person, given.Password!);
        return Refused(await users.UpdateSecurityStampAsync(person)) ?? Results.NoContent();
    }

    private static IResult Leave(HttpContext context, DeviceTable devices)
    {
        devices.ShutOut(DeviceOf(context.User));
        DeviceSignIn.Take(context);
        return Results.NoContent();
    }

    /// <summary>No challenge was asked for, or what came is no answer to one.</summary>
    private static bool IsNoAnswer(Exception e) => e is InvalidOperationException or PasskeyException or ArgumentException or JsonException;

    internal static string DeviceOf(ClaimsPrincipal who) => who.FindFirstValue(DeviceSignIn.DeviceClaim) ?? "";

    /// <summary>Who is asking; null for whoever sits at a machine without an owner.</summary>
    internal static Person? Known(ClaimsPrincipal who, PeopleTable people) => people.Find(who.FindFirstValue(ClaimTypes.NameIdentifier) ?? "");

    internal static IResult? NameFault(string name) => Person.IsName(name)
        ? null
        : Results.Problem($"Give a name of at most {Person.LongestName} letters.", statusCode: StatusCodes.Status400BadRequest);

    internal static IResult? Refused(IdentityResult result) => result.Succeeded
        ? null
        : Results.Problem(string.Join(' ', result.Errors.Select(error => error.Description)), statusCode: StatusCodes.Status400BadRequest);

    private static IResult LetIn(HttpContext context, DeviceTable devices, Person person, string? label, TimeProvider clock)
    {
        var named = new string([.. (label ?? "").Where(c => !char.IsControl(c)).Take(LongestLabel)]).Trim();
        var (_, key) = devices.Admit(person.Id, named.Length > 0 ? named : "a browser", clock.GetUtcNow());
        DeviceSignIn.Give(context, key);
        return Results.Ok(new { person.Name, person.Role });
    }

    // Which of the two was wrong is nobody's business.
    private static IResult WrongWord() => Results.Problem("Name and password do not fit together.", statusCode: StatusCodes.Status401Unauthorized);

    private static IResult NobodyYet() => Results.Problem("Say first who the owner of this workshop is.", statusCode: StatusCodes.Status409Conflict);

    private static IResult Json(string text) => Results.Text(text, "application/json");
}
