using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A workshop that shuts its door: the owner at the desk, a phone that joins by a code and is lost, and a passkey.</summary>
public class DoorTests
{
    private const string Password = "a sentence that is long";

    [Fact]
    public async Task The_owner_shuts_the_door_lets_in_a_phone_by_its_code_and_shuts_it_out_when_it_is_lost()
    {
        await using var desk = await Bay.Open(1440, 900);
        await desk.ComeIn();
        await using var phone = await desk.Beside(390, 844);
        await phone.ComeIn();
        await using var newPhone = await desk.Beside(390, 844);

        await desk.At("to-people").ClickAsync();
        await Expect(desk.At("own-name")).ToBeVisibleAsync();
        await IsSound(desk, "no owner yet");
        await desk.At("own-name").FillAsync("Invented Owner");
        await desk.At("own-password").FillAsync("short");
        await desk.At("own").ClickAsync();
        await Expect(desk.At("people-fault")).ToContainTextAsync("at least 10");
        await desk.At("own-password").FillAsync(Password);
        await desk.At("own").ClickAsync();
        await Expect(desk.At("door-who")).ToContainTextAsync("Invented Owner, owner");

        // The phone that came in before is out, says so, and keeps what it has.
        await phone.Page.ReloadAsync();
        await phone.At("shut-out").WaitForAsync();
        await Expect(phone.At("job-line").First).ToBeVisibleAsync();
        await IsSound(phone, "shut out");
        await phone.At("to-enter").ClickAsync();
        await Expect(phone.At("enter-name")).ToBeVisibleAsync();
        await IsSound(phone, "come in");

        await desk.At("new-name").FillAsync("Invented Mechanic");
        await desk.At("new-add").ClickAsync();
        await Expect(desk.At("people")).ToContainTextAsync("Invented Mechanic");
        await desk.Page.GetByLabel("Let in a device of Invented Mechanic").ClickAsync();
        await Expect(desk.At("invitation").Locator("svg")).ToBeVisibleAsync();
        await IsSound(desk, "invitation");
        var link = await desk.At("invitation-link").TextContentAsync();

        await Expect(desk.At("only-here")).ToBeVisibleAsync();

        // A phone that was never here is asked for nothing but what it is called.
        await newPhone.Page.GotoAsync(link!);
        await newPhone.At("join-label").FillAsync("Phone of the left bay");
        Assert.DoesNotContain("#", newPhone.Page.Url);
        await IsSound(newPhone, "join");
        await newPhone.At("join").ClickAsync();
        await newPhone.At("job-line").First.WaitForAsync();
        await Expect(newPhone.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await Expect(newPhone.Page.GetByText("Writing as Invented Mechanic")).ToBeVisibleAsync();

        await desk.Page.ReloadAsync();
        await desk.Page.GetByLabel("Shut out Phone of the left bay of Invented Mechanic").ClickAsync();
        await Expect(desk.At("devices")).Not.ToContainTextAsync("Phone of the left bay");
        await newPhone.Page.ReloadAsync();
        await newPhone.At("shut-out").WaitForAsync();
        // Whoever is out of reach is not told that they are shut out: it may have changed.
        await newPhone.SetOffline(true);
        await Expect(newPhone.At("sync")).ToHaveAttributeAsync("data-state", "offline", new() { Timeout = 60_000 });
        await Expect(newPhone.At("shut-out")).ToHaveCountAsync(0);
        await IsSound(desk, "people");

        // What somebody is here can be changed, but the last owner stays.
        await desk.Page.GetByLabel("What Invented Mechanic is here").SelectOptionAsync("front desk");
        await Expect(desk.Page.GetByLabel("What Invented Mechanic is here")).ToBeEnabledAsync();
        await desk.Page.ReloadAsync();
        await Expect(desk.Page.GetByLabel("What Invented Mechanic is here")).ToHaveValueAsync("front desk", new() { Timeout = 60_000 });
        await desk.Page.GetByLabel("What Invented Owner is here").SelectOptionAsync("mechanic");
        await Expect(desk.At("people-fault")).ToContainTextAsync("make another person owner first");
        await Expect(desk.Page.GetByLabel("What Invented Owner is here")).ToHaveValueAsync("owner");
    }

    [Fact]
    public async Task The_desk_gives_a_customer_a_link_that_shows_their_own_job()
    {
        await using var desk = await Bay.Open(1440, 900);
        await desk.ComeIn();
        await desk.OpenWaitingJob("sprayer");
        // The desk is a while ahead of the server.
        await Expect(desk.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        await desk.At("ask-customer-link").ClickAsync();
        await IsSound(desk, "a link for the customer");
        var link = await desk.At("customer-link").GetByRole(AriaRole.Link).GetAttributeAsync("href");
        await using var customer = await desk.Beside(390, 844);
        await customer.Page.GotoAsync(link!);
        await Expect(customer.Page.Locator("main")).ToContainTextAsync("orchard sprayer");
        await Expect(customer.Page.Locator("main")).ToContainTextAsync("The invented owner");
        await IsSound(customer, "customer record");
    }

    [Fact]
    public async Task A_passkey_lets_its_person_in_without_a_password()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        // Chromium's own stand-in for the lock of a phone (W3C WebDriver extension of Web Authentication).
        var lockOfThePhone = await bay.Page.Context.NewCDPSessionAsync(bay.Page);
        await lockOfThePhone.SendAsync("WebAuthn.enable");
        await lockOfThePhone.SendAsync("WebAuthn.addVirtualAuthenticator", new Dictionary<string, object>
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true,
            },
        });
        await bay.At("to-people").ClickAsync();
        await bay.At("own-name").FillAsync("Invented Owner");
        await bay.At("own-password").FillAsync(Password);
        await bay.At("own").ClickAsync();
        await bay.At("add-passkey").ClickAsync();
        await Expect(bay.Page.GetByText("One passkey.")).ToBeVisibleAsync();
        await IsSound(bay, "people on a phone");

        await bay.Page.GetByLabel("Go out on The machine itself").ClickAsync();
        await bay.Page.GotoAsync(bay.Server.Address + "enter");
        await bay.At("enter-passkey").ClickAsync();
        await bay.At("job-line").First.WaitForAsync();
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await bay.At("to-people").ClickAsync();
        await Expect(bay.At("door-who")).ToContainTextAsync("Invented Owner, owner");
    }
}
