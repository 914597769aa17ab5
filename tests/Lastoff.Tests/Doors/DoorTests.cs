using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Tests.Program;
using Lastoff.Tests.Serving;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Doors;

/// <summary>Who comes in and who does not, before the real server on either store.</summary>
public abstract class DoorTests(IReadOnlyList<string> store) : AtTheDoor(store)
{
    [Fact]
    public async Task Each_role_gets_at_what_is_its_own_and_nobody_else_does()
    {
        await Own();
        using var mechanic = await Joined("Invented Mechanic", "mechanic");
        using var desk = await Joined("Invented Desk", "front desk");
        using var nobody = new Guest(Server);
        var job = (string)(await Owner.Read("/api/jobs"))[0]!["id"]!;
        var (owner, inside, customers) = ("owner", "owner mechanic desk", "owner desk");
        (string Method, string Path, string Who)[] table =
        [
            ("GET", "/health", "owner mechanic desk nobody"),
            ("GET", "/", "owner mechanic desk nobody"),
            ("GET", "/api/doors", "owner mechanic desk nobody"),
            ("GET", "/api/maps", inside),
            ("GET", "/api/maps/light-van", inside),
            ("GET", $"/api/maps/texts/{new string('a', 64)}", inside),
            ("PUT", "/api/maps/light-van", "owner mechanic"),
            ("GET", "/api/settings/terms", inside),
            ("PUT", "/api/settings/terms?version=0", owner),
            ("GET", "/api/settings/prices", inside),
            ("PUT", "/api/settings/prices?version=0", inside),
            ("GET", "/api/jobs", inside),
            ("GET", $"/api/jobs/{job}/entries", inside),
            ("GET", $"/api/jobs/{job}/ledger", inside),
            ("GET", $"/api/jobs/{job}/plan", inside),
            ("GET", $"/api/jobs/{job}/plan/forks", inside),
            ("GET", $"/api/jobs/{job}/plan/extras", inside),
            ("GET", $"/api/jobs/{job}/plan/two-hands", inside),
            ("GET", $"/api/jobs/{job}/papers/labels.html", inside),
            ("GET", $"/api/jobs/{job}/papers/record.json", inside),
            ("GET", $"/api/jobs/{job}/papers/handover.pdf", inside),
            ("POST", $"/api/jobs/{job}/entries", inside),
            ("POST", $"/api/jobs/{job}/link", customers),
            ("GET", $"/api/photos/{new string('a', 64)}", inside),
            ("GET", $"/api/photos/{new string('a', 64)}/arrived", inside),
            ("GET", $"/api/photos/arrived?of={new string('a', 64)}", inside),
            ("PUT", $"/api/photos/{new string('a', 64)}", inside),
            ("GET", "/api/devices", inside),
            ("POST", "/api/devices/invite", inside),
            ("GET", "/api/backups", owner),
            ("POST", "/api/backups", owner),
            ("GET", "/api/people", owner),
            ("POST", "/api/people", owner),
            ("POST", "/api/people/nobody/role", owner),
            ("POST", "/api/people/nobody/out", owner),
            ("POST", "/api/people/nobody/in", owner),
            ("POST", "/api/doors/passkey/new", inside),
            ("POST", "/api/doors/passkey/keep", inside),
            ("POST", "/api/doors/password", inside),
            ("POST", "/api/doors/owner", owner),
        ];
        foreach (var (method, path, who) in table)
        {
            foreach (var (role, guest) in new[] { ("owner", Owner), ("mechanic", mechanic), ("desk", desk), ("nobody", nobody) })
            {
                var answer = method switch
                {
                    "GET" => await guest.Get(path),
                    "PUT" => await guest.Client.PutAsync(path, new ByteArrayContent([1]), Cancel),
                    _ => await guest.Post(path),
                };
                var isLetIn = answer.StatusCode is not (HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden);
                Assert.True(isLetIn == who.Split(' ').Contains(role), $"{method} {path} as {role}: {answer.StatusCode}");
                Assert.True((int)answer.StatusCode < 500, $"{method} {path} as {role}: {answer.StatusCode}");
                if (role == "nobody" && !isLetIn)
                {
                    Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
                }
            }
        }

        Assert.Equal(HttpStatusCode.Unauthorized, (await nobody.Get("/api/live")).StatusCode);
    }

    [Fact]
    public async Task What_the_front_desk_saves_is_kept_for_its_jobs_and_never_the_newest()
    {
        await Own();
        using var desk = await Joined("Invented Desk", "front desk");
        var first = await Owner.Client.GetStringAsync("/api/maps/orchard-sprayer-pump", Cancel);
        var edited = first + "# by the desk\n";
        var answer = await desk.Client.PutAsync($"/api/maps/orchard-sprayer-pump?edited_from={Entry.Sha256(first)}", new StringContent(edited), Cancel);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains("Maps are saved by owners and mechanics", await Guest.Why(answer));
        Assert.Equal(first, await Owner.Client.GetStringAsync("/api/maps/orchard-sprayer-pump", Cancel));
        Assert.Equal(edited, await Owner.Client.GetStringAsync($"/api/maps/texts/{Entry.Sha256(edited)}", Cancel));
    }

    [Fact]
    public async Task At_the_machine_itself_everything_is_open_until_it_has_anOwner_and_then_nothing_is()
    {
        using var guest = new Guest(Server);
        Assert.Equal(HttpStatusCode.OK, (await guest.Get("/api/jobs")).StatusCode);
        Assert.False((bool)(await guest.Read("/api/doors"))["hasOwner"]!);

        // From elsewhere nothing is open: under another name, or passed on by a server in front.
        foreach (var (header, value) in new[] { ("Host", "workshop.example"), ("X-Forwarded-For", "192.0.2.7"), ("Forwarded", "for=192.0.2.7") })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/api/jobs");
            request.Headers.TryAddWithoutValidation(header, value);
            var answer = await guest.Client.SendAsync(request, Cancel);
            Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
            Assert.Contains("no owner yet", await Guest.Why(answer));
        }

        Assert.Contains("Passwords must be at least 10", await Guest.Why(await Owner.Post("/api/doors/owner", new { name = "Invented Owner", password = "short" })));
        await Own();
        Assert.Equal(HttpStatusCode.Unauthorized, (await guest.Get("/api/jobs")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await guest.Post("/api/doors/owner", new { name = "Another", password = Password })).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await Owner.Post("/api/doors/owner", new { name = "Another", password = Password })).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await Owner.Get("/api/jobs")).StatusCode);
    }

    [Fact]
    public async Task Name_and_password_let_in_a_wrong_one_does_not_and_too_many_wrong_ones_lock_it()
    {
        await Own();
        using var guest = new Guest(Server);
        var unknown = await guest.Post("/api/doors/enter", new { name = "Nobody", password = Password });
        var wrong = await guest.Post("/api/doors/enter", new { name = "Invented Owner", password = "a wrong sentence" });
        Assert.Equal(await Guest.Why(unknown), await Guest.Why(wrong));
        Assert.Equal(HttpStatusCode.OK, (await guest.Post("/api/doors/enter", new { name = "invented OWNER", password = Password })).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await guest.Get("/api/jobs")).StatusCode);

        for (var time = 0; time < 10; time++)
        {
            await guest.Post("/api/doors/enter", new { name = "Invented Owner", password = "a wrong sentence" });
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, (await guest.Post("/api/doors/enter", new { name = "Invented Owner", password = Password })).StatusCode);
    }

    [Fact]
    public async Task Tries_at_the_door_are_limited()
    {
        await Own();
        using var guest = new Guest(Server);
        var answers = new List<HttpStatusCode>();
        for (var time = 0; time < 25; time++)
        {
            answers.Add((await guest.Post("/api/doors/join", new { value = $"guessed-{time}" })).StatusCode);
        }

        Assert.Contains(HttpStatusCode.Unauthorized, answers);
        Assert.Equal(HttpStatusCode.TooManyRequests, answers[^1]);
    }

    [Fact]
    public async Task A_code_lets_in_one_device_once_and_a_lost_phone_is_shut_out()
    {
        await Own();
        using var phone = new Guest(Server);
        using var thief = new Guest(Server);
        var code = await Owner.Invited();
        Assert.Equal(HttpStatusCode.OK, (await phone.Post("/api/doors/join", new { value = code, label = "Left bay" })).StatusCode);
        var again = await thief.Post("/api/doors/join", new { value = code, label = "Thief" });
        Assert.Contains("used already or is too old", await Guest.Why(again));
        Assert.Equal(HttpStatusCode.OK, (await phone.Get("/api/jobs")).StatusCode);
        await using var phonesLine = await LiveLine.Open(phone.Client);
        await using var ownersLine = await LiveLine.Open(Owner.Client);

        var devices = (await Owner.Read("/api/devices")).AsArray();
        var lost = (string)devices.Single(device => (string)device!["label"]! == "Left bay")!["id"]!;
        Assert.Equal(HttpStatusCode.NoContent, (await Owner.Post($"/api/devices/{lost}/out")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await phone.Get("/api/jobs")).StatusCode);
        // It hears nothing more either; who is still in does.
        await phonesLine.End();
        await ownersLine.News();
        Assert.DoesNotContain((await Owner.Read("/api/devices")).AsArray(), device => (string)device!["id"]! == lost);
    }

    [Fact]
    public async Task Whoever_is_put_out_comes_in_with_nothing_and_the_lastOwner_stays()
    {
        await Own();
        using var mechanic = await Joined("Invented Mechanic", "mechanic");
        using var other = await Joined("Second Mechanic", "mechanic");
        var people = (await Owner.Read("/api/people")).AsArray();
        var id = Id("Invented Mechanic");
        // Nobody shuts out another's device, or lets one in for somebody else, but the owner.
        var device = (string)(await mechanic.Read("/api/devices"))[0]!["id"]!;
        Assert.Single((await other.Read("/api/devices")).AsArray());
        Assert.Equal(HttpStatusCode.Forbidden, (await other.Post($"/api/devices/{device}/out")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await other.Post("/api/devices/invite", new { person = Id("Invented Owner") })).StatusCode);

        Assert.Equal(HttpStatusCode.NoContent, (await Owner.Post($"/api/people/{id}/out")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await mechanic.Get("/api/jobs")).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await Owner.Post($"/api/people/{Id("Invented Owner")}/out")).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await Owner.Post($"/api/people/{Id("Invented Owner")}/role", new { role = "mechanic" })).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await Owner.Post("/api/people", new { name = "Third", role = "king" })).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await Owner.Post("/api/people", new { name = "second mechanic", role = "mechanic" })).StatusCode);

        string Id(string name) => (string)people.Single(person => (string)person!["name"]! == name)!["id"]!;
    }

    [Fact]
    public async Task A_forged_key_or_somebody_elses_cookie_name_is_nobody()
    {
        await Own();
        using var forger = new Guest(Server);
        var real = Owner.Cookies.GetCookies(Server.Address).Single(cookie => cookie.Name == "lastoff-device").Value;
        foreach (var forged in new[] { real[..^1] + (real[^1] == '0' ? '1' : '0'), real.ToUpperInvariant() + "x", new string('0', real.Length), "' OR 1=1 --", "" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/api/jobs");
            request.Headers.TryAddWithoutValidation("Cookie", $"lastoff-device={forged}");
            Assert.Equal(HttpStatusCode.Unauthorized, (await forger.Client.SendAsync(request, Cancel)).StatusCode);
        }
    }

    [Fact]
    public async Task A_page_of_another_site_cannot_write_here()
    {
        var job = (string)(await Owner.Read("/api/jobs"))[0]!["id"]!;
        foreach (var (header, value) in new[] { ("Origin", "https://elsewhere.example"), ("Origin", "null"), ("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Site", "same-site") })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/jobs/{job}/entries") { Content = new StringContent("", Encoding.UTF8, "text/plain") };
            request.Headers.TryAddWithoutValidation(header, value);
            Assert.Equal(HttpStatusCode.Forbidden, (await Owner.Client.SendAsync(request, Cancel)).StatusCode);
        }

        using var own = new HttpRequestMessage(HttpMethod.Post, $"/api/jobs/{job}/entries") { Content = new StringContent("", Encoding.UTF8, "text/plain") };
        own.Headers.TryAddWithoutValidation("Origin", Server.Address.GetLeftPart(UriPartial.Authority));
        own.Headers.TryAddWithoutValidation("Sec-Fetch-Site", "same-origin");
        Assert.Equal(HttpStatusCode.OK, (await Owner.Client.SendAsync(own, Cancel)).StatusCode);
    }

    [Fact]
    public async Task The_machine_itself_invites_when_nobody_can_get_in_any_more()
    {
        await Own();
        var ran = await LastoffProgram.Run([.. new[] { "invite", "Invented Owner", "--address", "http://workshop.example" }, .. Store.Count > 0 ? Store : ["--data", Server.Data]]);
        Assert.Equal("", ran.Error);
        var link = ran.Output.Trim()[ran.Output.IndexOf("http://", StringComparison.Ordinal)..];
        Assert.StartsWith("http://workshop.example/join#", link);
        using var back = new Guest(Server);
        Assert.Equal(HttpStatusCode.OK, (await back.Post("/api/doors/join", new { value = link.Split('#')[1], label = "Back again" })).StatusCode);
        Assert.Equal("owner", (string)(await back.Read("/api/doors"))["role"]!);
    }

    [Fact]
    public async Task Every_answer_carries_its_headers_and_no_secret()
    {
        await Own();
        var answer = await Owner.Get("/api/doors");
        foreach (var header in new[] { "Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy", "Permissions-Policy" })
        {
            Assert.True(answer.Headers.Contains(header), header);
        }

        var text = await answer.Content.ReadAsStringAsync(Cancel) + await Owner.Client.GetStringAsync("/api/devices", Cancel) + await Owner.Client.GetStringAsync("/api/people", Cancel);
        Assert.DoesNotContain("hash", text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(Owner.Cookies.GetCookies(Server.Address).Single(cookie => cookie.Name == "lastoff-device").Value, text);
        Assert.DoesNotContain(Server.Process.Printed, line => line.Contains(Password, StringComparison.Ordinal));
    }

    /// <summary>Somebody new, let in on a phone by a code.</summary>
    private async Task<Guest> Joined(string name, string role)
    {
        var added = await (await Owner.Post("/api/people", new { name, role })).Content.ReadFromJsonAsync<JsonNode>(Cancel);
        var guest = new Guest(Server);
        Assert.Equal(HttpStatusCode.OK, (await guest.Post("/api/doors/join", new { value = await Owner.Invited((string)added!["id"]!), label = "Phone" })).StatusCode);
        return guest;
    }
}

public sealed class DoorsOnSqliteTests() : DoorTests([]);

public sealed class DoorsOnPostgresTests() : DoorTests(TestPostgres.NewWorkshop());
