using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using QRCoder;

namespace Lastoff.Doors;

/// <summary>People and their devices: who is let in, who invites, who is shut out.</summary>
internal static class PeopleEndpoints
{
    internal sealed record NameAndRole(string? Name, string? Role);
    internal sealed record For(string? Person);
    internal sealed record ListedPerson(string Id, string Name, string Role, bool IsOut);
    internal sealed record ListedDevice(string Id, string Person, string Label, DateTimeOffset Joined, bool IsThis);
    /// <param name="Link">What the phone opens.</param>
    /// <param name="Picture">The link as a QR code, in SVG.</param>
    internal sealed record Invitation(string Link, string Picture, DateTimeOffset Until);

    public static void MapPeople(this IEndpointRouteBuilder routes)
    {
        var people = routes.MapGroup("/people").RequireAuthorization(DoorSetup.Owner);
        people.MapGet("/", (PeopleTable table) => table.All().Select(person => new ListedPerson(person.Id, person.Name, person.Role, person.IsOut)));
        people.MapPost("/", AddAsync);
        people.MapPost("/{id}/role", ChangeAsync);
        people.MapPost("/{id}/out", async (string id, PeopleTable table, UserManager<Person> users) =>
            await WithAsync(id, table, users, person => person.IsOut = true));
        people.MapPost("/{id}/in", async (string id, PeopleTable table, UserManager<Person> users) =>
            await WithAsync(id, table, users, person => person.IsOut = false));
        var devices = routes.MapGroup("/devices").RequireAuthorization(DoorSetup.Inside);
        devices.MapGet("/", List);
        devices.MapPost("/invite", Invite);
        devices.MapPost("/{id}/out", ShutOut);
    }

    /// <summary>A link for one device, to be opened once and soon.</summary>
    internal static string LinkTo(string address, string code) => $"{address.TrimEnd('/')}/join#{code}";

    private static async Task<IResult> AddAsync(NameAndRole given, PeopleTable people, UserManager<Person> users)
    {
        if (!people.HasOwner())
        {
            return Results.Problem("Say first who the owner of this workshop is.", statusCode: StatusCodes.Status409Conflict);
        }

        var person = new Person { Name = given.Name?.Trim() ?? "", Role = given.Role ?? "" };
        return EnterEndpoints.NameFault(person.Name) ?? RoleFault(person.Role) ?? EnterEndpoints.Refused(await users.CreateAsync(person))
            ?? Results.Ok(new ListedPerson(person.Id, person.Name, person.Role, false));
    }

    private static async Task<IResult> ChangeAsync(string id, NameAndRole given, PeopleTable people, UserManager<Person> users) =>
        RoleFault(given.Role) ?? await WithAsync(id, people, users, person => person.Role = given.Role!);

    /// <summary>Changes a person, unless nobody would be left to let others in.</summary>
    private static async Task<IResult> WithAsync(string id, PeopleTable people, UserManager<Person> users, Action<Person> change)
    {
        if (people.Find(id) is not { } person)
        {
            return Results.NotFound();
        }

        change(person);
        var isLast = !people.All().Any(other => other.Id != id && other is { Role: Roles.Owner, IsOut: false });
        return isLast && person is not { Role: Roles.Owner, IsOut: false }
            ? Results.Problem("Somebody has to be the owner: make another person owner first.", statusCode: StatusCodes.Status409Conflict)
            : EnterEndpoints.Refused(await users.UpdateAsync(person)) ?? Results.NoContent();
    }

    private static IEnumerable<ListedDevice> List(ClaimsPrincipal who, PeopleTable people, DeviceTable devices)
    {
        var names = people.All().ToDictionary(person => person.Id, person => person.Name);
        return from device in devices.All()
               where !device.IsOut && MaySee(who, device)
               select new ListedDevice(device.Id, names.GetValueOrDefault(device.Person, ""), device.Label, device.Joined, device.Id == EnterEndpoints.DeviceOf(who));
    }

    private static IResult Invite(For given, HttpContext context, ClaimsPrincipal who, ReachedAt reached, PeopleTable people, DeviceTable devices, TimeProvider clock)
    {
        var asking = EnterEndpoints.Known(who, people);
        var invited = given.Person is null ? asking : people.Find(given.Person);
        if (asking is null || invited is null or { IsOut: true })
        {
            return Results.Problem("There is nobody to invite; add the person first.", statusCode: StatusCodes.Status409Conflict);
        }

        if (invited.Id != asking.Id && asking.Role != Roles.Owner)
        {
            return Results.Forbid();
        }

        var link = LinkTo(reached.For(context), devices.Invite(invited.Id, clock.GetUtcNow()));
        using var code = QRCodeGenerator.GenerateQrCode(link, QRCodeGenerator.ECCLevel.M);
        using var picture = new SvgQRCode(code);
        return Results.Ok(new Invitation(link, picture.GetGraphic(8), clock.GetUtcNow() + DeviceTable.InvitationLife));
    }

    private static IResult ShutOut(string id, ClaimsPrincipal who, DeviceTable devices) =>
        devices.All().FirstOrDefault(device => device.Id == id) is not { } device ? Results.NotFound()
        : !MaySee(who, device) ? Results.Forbid()
        : devices.ShutOut(id) ? Results.NoContent() : Results.NotFound();

    private static bool MaySee(ClaimsPrincipal who, Device device) => who.IsInRole(Roles.Owner) || who.FindFirstValue(ClaimTypes.NameIdentifier) == device.Person;

    private static IResult? RoleFault(string? role) => role is not null && Roles.All.Contains(role)
        ? null
        : Results.Problem($"A person here is one of: {string.Join(", ", Roles.All)}.", statusCode: StatusCodes.Status400BadRequest);
}
