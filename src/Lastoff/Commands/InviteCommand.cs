using System.CommandLine;
using Lastoff.Doors;
using Microsoft.AspNetCore.Identity;

namespace Lastoff.Commands;

/// <summary><c>lastoff invite</c>: lets one device in from the machine itself, when nobody can get in any more or no screen is at hand.</summary>
internal static class InviteCommand
{
    private static readonly Argument<string> Name = new("name") { Description = "Who is invited; added when there is nobody of that name." };

    private static readonly Option<string> Role = new("--role")
    {
        Description = "What a new person is here.",
        DefaultValueFactory = _ => Roles.Owner,
    };

    private static readonly Option<string> Address = new("--address")
    {
        Description = "Where the device reaches the server.",
        DefaultValueFactory = _ => "http://localhost:5210",
    };

    public static Command Build()
    {
        var command = new Command("invite", "Make a link that lets one device in, once and within ten minutes.") { Name, Role.AcceptOnlyFromAmong([.. Roles.All]), Address };
        StoreOptions.AddTo(command);
        command.SetAction((parsed, _) => StoreOptions.RunAsync("Nobody was invited", async () =>
        {
            await using var workshop = StoreOptions.Open(parsed, StoreOptions.Folder(parsed, mustExist: true));
            var name = parsed.GetValue(Name)!.Trim();
            if (!Person.IsName(name))
            {
                throw new Failure($"invite: give a name of at most {Person.LongestName} letters.");
            }

            using var people = new PeopleTable(workshop);
            var key = new UpperInvariantLookupNormalizer().NormalizeName(name);
            var person = await people.FindByNameAsync(key, CancellationToken.None);
            if (person is null)
            {
                person = new Person { Name = name, NameKey = key, Role = parsed.GetValue(Role)!, Stamp = Guid.NewGuid().ToString() };
                await people.CreateAsync(person, CancellationToken.None);
            }
            else if (person.IsOut)
            {
                throw new Failure($"invite: {person.Name} does not work here any more; an owner can change that on the page of people.");
            }

            var code = new DeviceTable(workshop).Invite(person.Id, DateTimeOffset.UtcNow);
            Console.WriteLine($"{person.Name} ({person.Role}), within ten minutes and once: {PeopleEndpoints.LinkTo(parsed.GetValue(Address)!, code)}");
            return 0;
        }));
        return command;
    }
}
