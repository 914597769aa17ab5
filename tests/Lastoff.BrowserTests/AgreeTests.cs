using System.Text.Json.Nodes;
using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>From the complaint to the invoice: cause, machine, price, yes, what has to be here, and the papers. With LASTOFF_AT_THE_DESK set, on a large screen.</summary>
public class AgreeTests
{
    [Fact]
    public async Task A_machine_is_taken_in_before_its_cause_is_known()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("open-job").ClickAsync();
        await bay.At("map-orchard-sprayer-pump").CheckAsync();
        await bay.At("machine").FillAsync("Invented sprayer 9");
        await bay.At("complaint").FillAsync("Milky oil");
        await bay.At("open-submit").ClickAsync();
        await bay.At("to-find").WaitForAsync();
        await IsSound(bay, "to find");
        // None of it waits for the network.
        await bay.SetOffline(true);
        await bay.At("find-cause").ClickAsync();
        await bay.At("cause-named").FillAsync("The upper diaphragm is torn");
        await bay.At("cause-keep").ClickAsync();
        await bay.At("cause-sheet-close").ClickAsync();
        await bay.At("take-in").ClickAsync();
        await Expect(bay.At("to-find-fault")).ToContainTextAsync("tick at least one");
        await IsSound(bay, "to find, the cause is known");
        await bay.At("goal-upper-diaphragm").CheckAsync();
        await bay.At("take-in").ClickAsync();
        await bay.At("agree-who").WaitForAsync();
        await bay.SetOffline(false);
        await bay.At("file-price").ClickAsync();
        await bay.At("price-offer").ClickAsync();
        // What was offered stands first, with the way to whoever says yes to it; their page opens beside the app, too.
        await Expect(bay.At("agree-price")).ToBeInViewportAsync();
        await bay.At("ask-customer-link").ClickAsync();
        await bay.Page.GotoAsync((await bay.At("customer-link").GetByRole(AriaRole.Link).GetAttributeAsync("href"))!);
        await bay.Page.GetByLabel("Your name").FillAsync("The invented owner");
        await bay.Page.Locator("form.consent button").ClickAsync();
        await Expect(bay.Page.Locator(".notice")).ToContainTextAsync("The yes of The invented owner");
        await bay.Page.GoBackAsync();
        await bay.Page.GoBackAsync();
        await Expect(bay.At("yes-came")).ToContainTextAsync("The invented owner said yes by the link.");
        await bay.At("step").WaitForAsync();

        // Trouble that no price has in it is put in from where it stands.
        await bay.At("different").ClickAsync();
        await bay.At("stuck-minutes").FillAsync("soon");
        await bay.At("stuck-own").ClickAsync();
        await Expect(bay.At("different-sheet")).ToContainTextAsync("Write the minutes as a number");
        await bay.At("stuck-minutes").FillAsync("20");
        await bay.At("stuck-own").ClickAsync();
        await bay.At("open-strip").ClickAsync();
        await IsSound(bay, "still open with what is not charged");
        await bay.At("put-in-price").First.ClickAsync();
        await Expect(bay.At("hand-quantity")).ToHaveValueAsync("0.33");
        await bay.At("hand-keep").ClickAsync();
        await Expect(bay.At("line").Filter(new LocatorFilterOptions { HasText = "Trouble met" })).ToContainTextAsync("0.33 h");
        await bay.At("price-sheet-close").ClickAsync();
        await bay.At("open-sheet-close").ClickAsync();

        // More trouble at the same joint comes on top of the first, and what broke is called for by its own name.
        await bay.At("different").ClickAsync();
        await Expect(bay.At("stuck-had")).ToContainTextAsync("20 min more are on record");
        await bay.At("stuck-broke").CheckAsync();
        await bay.At("stuck-40").ClickAsync();
        await Expect(bay.At("plan-change")).ToContainTextAsync("60 min more");
        await bay.At("plan-change-seen").ClickAsync();
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("not-charged").Filter(new LocatorFilterOptions { HasText = "Wanted new: “One new" })).ToBeVisibleAsync();
        await bay.At("open-sheet-close").ClickAsync();

        // A part that comes off anyway is wanted new from now on.
        await bay.At("different").ClickAsync();
        await bay.At("goal-upper-head").CheckAsync();
        await bay.At("more-work").ClickAsync();

        // So is what the map does not know, in the same asking.
        await bay.At("different").ClickAsync();
        await bay.At("own-work").FillAsync("New seal in the pump shaft");
        await IsSound(bay, "work that is not on the map");
        await bay.At("own-work-take").ClickAsync();
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("open-list")).ToContainTextAsync("“New seal in the pump shaft” is not done yet.");
        await bay.At("open-sheet-close").ClickAsync();
        await bay.At("file-have").First.ClickAsync();
        await Expect(bay.At("needed-new")).ToContainTextAsync("Upper pump head");
    }

    [Fact]
    public async Task The_sprayer_is_found_out_priced_agreed_and_handed_over()
    {
        var isDesk = Environment.GetEnvironmentVariable("LASTOFF_AT_THE_DESK") is { Length: > 0 };
        await using var bay = await (isDesk ? Bay.Open(1440, 900) : Bay.Open(390, 844));
        await bay.ComeIn();
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await Expect(bay.At("plan-minutes")).ToContainTextAsync("as a rule");
        await IsSound(bay, "agree");

        // The key that leads back closes what lies over the page, and no more.
        await bay.At("file-cause").ClickAsync();
        await bay.Page.GoBackAsync();
        await Expect(bay.At("cause-sheet")).ToHaveCountAsync(0);
        await Expect(bay.At("file-cause")).ToBeFocusedAsync();
        await bay.At("file-cause").ClickAsync();
        await bay.At("evidence-suspect").FillAsync("Torn upper diaphragm");
        await bay.At("evidence-by").SelectOptionAsync("FluidSample");
        await bay.At("evidence-found").FillAsync("The oil is milky, water under the oil in the glass");
        await bay.At("speaks-for").CheckAsync();
        await bay.At("evidence-add").ClickAsync();
        await bay.At("evidence-suspect").FillAsync("Cracked crankcase");
        await bay.At("evidence-by").SelectOptionAsync("PressureHold");
        await bay.At("evidence-found").FillAsync("Held 0.5 bar for ten minutes");
        await bay.At("speaks-against").CheckAsync();
        await bay.At("evidence-add").ClickAsync();
        await Expect(bay.At("evidence")).ToHaveCountAsync(2);
        await bay.TakePhoto("Torn upper diaphragm");
        await bay.At("cause-sheet").Locator("[data-test=photo]").ClickAsync();
        await Expect(bay.At("photo-sheet").GetByRole(AriaRole.Heading)).ToContainTextAsync("Torn upper diaphragm");
        await bay.At("photo-sheet-close").ClickAsync();
        await Expect(bay.At("photo-sheet")).ToHaveCountAsync(0);
        await bay.At("cause-correction").FillAsync("New upper diaphragm and fresh oil");
        await bay.At("cause-keep").ClickAsync();
        await IsSound(bay, "cause");
        await bay.At("cause-sheet-close").ClickAsync();

        await bay.At("file-machine").ClickAsync();
        await bay.At("machine-vin").FillAsync("invented-77");
        await bay.At("machine-hours").FillAsync("1 812,5");
        await bay.At("machine-condition").FillAsync("Left boom bent, nozzle 3 missing");
        await bay.At("machine-lamps").FillAsync("oil");
        await IsSound(bay, "machine");
        await bay.TakePhoto("the machine at arrival");
        await Expect(bay.At("machine-sheet").Locator("[data-test=photo]")).ToBeVisibleAsync();
        await bay.At("machine-keep").ClickAsync();
        await Expect(bay.At("machine-sheet")).ToHaveCountAsync(0);
        await Expect(bay.At("file-machine")).ToContainTextAsync("INVENTED-77, 1812.5 h, lamps: oil");

        await bay.At("file-have").ClickAsync();
        await Expect(bay.At("needed-new")).ToContainTextAsync("Upper diaphragm");
        var diaphragm = bay.Page.Locator("[data-item='Upper diaphragm']");
        await diaphragm.Locator("[data-test=needed-name]").ClickAsync();
        await bay.At("needed-awaited").FillAsync("2031-05-30");
        await bay.At("needed-note").FillAsync("at the counter");
        await bay.At("needed-holds-up").CheckAsync();
        await IsSound(bay, "have it here");
        await bay.At("needed-ordered").ClickAsync();
        await Expect(diaphragm).ToContainTextAsync("ordered, awaited on 30 May 2031; at the counter; holds up the start");
        await bay.At("have-sheet-close").ClickAsync();
        await bay.At("file-days").ClickAsync();
        await bay.At("day-what").FillAsync("It comes in");
        await bay.At("day-on").FillAsync("2031-05-29");
        await bay.At("day-at").FillAsync("08:15");
        await bay.At("day-set").ClickAsync();
        await Expect(bay.At("days")).ToContainTextAsync("29 May 2031, 08:15 It comes in");
        await bay.At("day-move").ClickAsync();
        await bay.At("day-on").FillAsync("2031-05-28");
        await bay.At("day-set").ClickAsync();
        await Expect(bay.At("days")).ToContainTextAsync("28 May 2031, 08:15 It comes in");
        await Expect(bay.At("days")).Not.ToContainTextAsync("29 May 2031");
        await IsSound(bay, "days");
        var days = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("days-export").ClickAsync());
        Assert.Contains("DTSTART;VALUE=DATE:20310530", await File.ReadAllTextAsync(await days.PathAsync(), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await bay.At("days-sheet-close").ClickAsync();

        // Terms and prices are on the device once it has seen them: price and yes need no network.
        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-total")).ToContainTextAsync("EUR");
        await bay.At("price-sheet-close").ClickAsync();
        await bay.SetOffline(true);
        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-total")).ToContainTextAsync("EUR");
        for (var unpriced = await bay.At("cost").CountAsync(); unpriced > 0; unpriced--)
        {
            await bay.At("cost").First.FillAsync("3,50");
            await bay.At("cost").First.BlurAsync();
            await Expect(bay.At("cost")).ToHaveCountAsync(unpriced - 1);
        }

        await IsSound(bay, "price");
        await bay.At("extras-look").ClickAsync();
        await bay.At("price-off").FillAsync("10");
        await bay.At("price-off").BlurAsync();
        await Expect(bay.At("price-lines")).ToContainTextAsync("Discount");
        var offered = (await bay.At("price-total").TextContentAsync())!;
        await bay.At("price-offer").ClickAsync();
        // Behind a sheet nothing takes the keys.
        await Expect(bay.At("price-sheet")).ToHaveCountAsync(0);
        await Expect(bay.At("agree-price")).ToContainTextAsync(offered);
        // A no leads to another price.
        await bay.At("said-no").ClickAsync();
        await bay.At("said-no-what").FillAsync("Too dear, he says");
        await IsSound(bay, "they say no");
        await bay.At("said-no-what").PressAsync("Enter");
        await Expect(bay.At("price-off")).ToHaveValueAsync("10");
        await bay.At("price-sheet-close").ClickAsync();
        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree-parts-back").CheckAsync();
        await bay.At("agree-declined").FillAsync("New hoses");
        await bay.At("agree").ClickAsync();
        await bay.At("step").WaitForAsync();

        await OpenFile(bay, "papers");
        await Expect(bay.At("pdf-estimate")).ToHaveCountAsync(0);
        var page = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("keep-estimate").ClickAsync());
        Assert.Contains(offered, Read(await File.ReadAllTextAsync(await page.PathAsync(), TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        await IsSound(bay, "papers offline");
        await bay.At("papers-sheet-close").ClickAsync();
        await BackToNow(bay);
        await bay.SetOffline(false);

        // What is still to come is said where everything else is that is open.
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("to-have")).ToContainTextAsync("0 of 9 here");
        await bay.At("to-have").ClickAsync();
        await Expect(bay.At("have-sheet")).ToBeVisibleAsync();
        await bay.At("have-sheet-close").ClickAsync();
        await bay.At("open-sheet-close").ClickAsync();

        // Nothing comes off before the diaphragm is here.
        var first = (await bay.Asked())!.Value;
        await bay.At("done").ClickAsync();
        await Expect(bay.At("refusal")).ToContainTextAsync("Nothing may come off before “Upper diaphragm” is here");
        await bay.At("refusal").GetByRole(AriaRole.Button).ClickAsync();
        await OpenFile(bay, "have");
        await diaphragm.Locator("[data-test=needed-here]").ClickAsync();
        await bay.At("have-sheet-close").ClickAsync();
        await BackToNow(bay);
        await bay.DoIt(first);

        // Another price does not change what was agreed.
        await OpenFile(bay, "price");
        await Expect(bay.At("price-agreed")).ToContainTextAsync(offered);
        await bay.At("price-off").FillAsync("");
        await bay.At("price-off").BlurAsync();
        await Expect(bay.At("price-lines")).Not.ToContainTextAsync("Discount");
        // Refused for want of a reason, it goes through once there is one.
        await bay.At("price-offer").ClickAsync();
        await Expect(bay.At("price-fault")).ToContainTextAsync("write down why");
        await bay.At("price-reason").FillAsync("the piston is scored too");
        await Expect(bay.At("price-fault")).ToHaveTextAsync("");
        await bay.At("price-offer").ClickAsync();
        await Expect(bay.At("price-sheet")).ToHaveCountAsync(0);
        await OpenFile(bay, "price");
        await Expect(bay.At("price-agreed")).ToContainTextAsync(offered);
        await Expect(bay.At("price-offered")).ToContainTextAsync("the piston is scored too");
        await bay.At("paid-amount").FillAsync("50");
        await bay.At("paid-keep").ClickAsync();
        await Expect(bay.At("paid")).ToContainTextAsync("50.00 EUR, in cash, for deposit");
        // Nothing stands armed where it has just been tapped.
        await Expect(bay.At("paid-said")).ToHaveTextAsync("50.00 EUR is in.");
        await Expect(bay.At("paid-keep")).ToHaveCountAsync(0);
        await bay.At("paid-more").ClickAsync();
        await bay.At("paid-amount").FillAsync("60");
        await bay.At("paid-back").ClickAsync();
        await Expect(bay.At("paid-fault")).ToContainTextAsync("more than came in");
        await bay.At("price-sheet-close").ClickAsync();

        // The customer says yes to the new total on a phone of their own.
        await bay.At("ask-customer-link").ClickAsync();
        var link = (await bay.At("customer-link").GetByRole(AriaRole.Link).GetAttributeAsync("href"))!;
        await using (var customer = await bay.Beside(390, 844))
        {
            await customer.Page.GotoAsync(new Uri(bay.Server.Address, new Uri(link).AbsolutePath).ToString());
            await IsSound(customer, "an estimate on the customers phone");
            await customer.Page.GetByLabel("Your name").FillAsync("The invented owner");
            await customer.Page.GetByRole(AriaRole.Button).ClickAsync();
            await Expect(customer.Page.GetByText("Your machine so far")).ToBeVisibleAsync();
        }

        await bay.At("file-price").ClickAsync();
        await Expect(bay.At("price-agreed")).Not.ToContainTextAsync(offered);
        await bay.At("price-sheet-close").ClickAsync();

        await BackToNow(bay);
        // More work comes up and nobody can be reached: what was agreed goes on, and the step of the rest leads to the yes.
        await bay.At("different").ClickAsync();
        await bay.At("own-work").FillAsync("New seal in the pump shaft");
        await bay.At("own-work-take").ClickAsync();
        await bay.At("agree-later").ClickAsync();
        var isOutOfTurn = false;
        while (await bay.Asked() is { } asked)
        {
            if (asked.Kind == "Work" && await bay.At("done").CountAsync() > 0)
            {
                await bay.At("done").ClickAsync();
                await Expect(bay.At("refusal")).ToContainTextAsync("Get a yes to it");
                await IsSound(bay, "work without its yes");
                await bay.At("to-the-yes").ClickAsync();
                await bay.At("make-price").ClickAsync();
                await bay.At("price-reason").FillAsync("the seal in the shaft too");
                await bay.At("price-offer").ClickAsync();
                await Expect(bay.At("price-sheet")).ToHaveCountAsync(0);
                await bay.At("agree").ClickAsync();
                await bay.At("step").WaitForAsync();
            }

            if (asked is ("MakeSafe", "pump-oil"))
            {
                // Nobody measures what comes out.
                await Expect(bay.At("done")).ToHaveTextAsync("Done, not measured");
                await bay.At("done").ClickAsync();
                await bay.UntilPast(asked);
                continue;
            }

            if (asked.Kind == "Prove" && !isOutOfTurn)
            {
                // Whoever has another proof at hand takes that first, and is then asked for this one.
                isOutOfTurn = true;
                await bay.At("other-proof").First.ClickAsync();
                await Expect(bay.At("step")).Not.ToHaveAttributeAsync("data-target", asked.Target);
                await bay.DoIt((await bay.Asked())!.Value);
                Assert.Equal(asked, await bay.Asked());
            }

            await bay.DoIt(asked);
        }

        await Expect(bay.At("otherwise")).ToContainTextAsync("“Oil in the pump”: what came out was not measured");

        await bay.At("hand-over-to").FillAsync("The invented owner");
        await bay.At("re-check-what").FillAsync("Drips round the upper head");
        await bay.At("re-check-on").FillAsync("2031-06-14");
        await IsSound(bay, "hand over");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.At("act-heading")).ToContainTextAsync("Handed over to");
        // One tap in the pocket does not bring the machine back.
        await bay.At("undo").ClickAsync();
        await IsSound(bay, "take back, asked");
        await bay.At("take-back-no").ClickAsync();
        await Expect(bay.At("take-back-asked")).ToHaveCountAsync(0);
        await Expect(bay.At("act-heading")).ToContainTextAsync("Handed over to");
        await Expect(bay.At("re-check")).ToContainTextAsync("Look again on 14 Jun 2031: Drips round the upper head");
        await Expect(bay.At("file-have").First).ToContainTextAsync("9 of 9 here");
        await bay.At("learned-text").FillAsync("The regulator hangs in the way; tie it up first");
        await bay.At("learned-keep").ClickAsync();
        await Expect(bay.At("learned")).ToContainTextAsync("tie it up first");
        await IsSound(bay, "gone home");
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await bay.Page.Locator("[data-test=file-papers]").First.ClickAsync();
        await IsSound(bay, "papers");
        var job = JsonNode.Parse((await bay.Server.Client.GetStringAsync("/api/jobs", TestContext.Current.CancellationToken)))!.AsArray()
            .Single(listed => bay.Page.Url.Contains((string)listed!["id"]!, StringComparison.Ordinal))!["id"]!;
        var papers = await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/papers/handover.html", TestContext.Current.CancellationToken);
        Assert.Contains("The invented owner", papers, StringComparison.Ordinal);
        await bay.At("papers-sheet-close").ClickAsync();
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await Expect(bay.At("job-due")).ToContainTextAsync("Look again on 14 Jun 2031");
        await bay.Page.GotoAsync(bay.Server.Address + $"job/{job}?tab=account&tray=7");
        await Expect(bay.At("tray-empty")).ToContainTextAsync("Tray 7");
        await bay.Page.GotoAsync(bay.Server.Address + $"job/{job}");
        await bay.At("re-check-found").FillAsync("Dry");
        await bay.At("re-check-done").ClickAsync();
        await Expect(bay.At("re-check")).ToContainTextAsync("Dry");
        await bay.At("comeback").ClickAsync();
        await Expect(bay.At("comes-back")).ToBeVisibleAsync();
        await Expect(bay.At("machine")).Not.ToHaveValueAsync("");
        await bay.At("goal-upper-diaphragm").CheckAsync();
        await bay.At("cause").FillAsync("The new diaphragm was pinched");
        await bay.At("open-submit").ClickAsync();
        await Expect(bay.At("learned-before")).ToContainTextAsync("The regulator hangs in the way");
        await IsSound(bay, "a job on a map that taught something");
        await bay.Page.GotoAsync(bay.Server.Address + $"job/{job}");
        await Expect(bay.At("came-back")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_owner_sets_rates_and_taxes_and_a_wrong_one_is_refused_in_one_sentence()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-rates").ClickAsync();
        await Expect(bay.At("rates-name")).ToHaveValueAsync("Invented Workshop");
        await IsSound(bay, "rates");
        await bay.At("tax-percent-0").FillAsync("1000");
        await bay.At("rates-keep").ClickAsync();
        await Expect(bay.At("rates-fault")).ToContainTextAsync("1000 %");
        await bay.At("tax-percent-0").FillAsync("7,7");
        await bay.At("rates-hour").FillAsync("-5");
        await bay.At("rates-keep").ClickAsync();
        await Expect(bay.At("rates-fault")).ToContainTextAsync("-5");
        await bay.At("rates-hour").FillAsync("95");
        await bay.At("rates-deposit").FillAsync("101");
        await bay.At("rates-keep").ClickAsync();
        await Expect(bay.At("rates-fault")).ToHaveTextAsync("Deposit, before the work begins: it is 101 %; give 0 to 100 %.");
        await bay.At("rates-deposit-unit").SelectOptionAsync("sum");
        await bay.At("rates-keep").ClickAsync();
        await Expect(bay.At("rates-kept")).ToContainTextAsync("The whole workshop has it now");
        await bay.Page.ReloadAsync();
        await Expect(bay.At("rates-hour")).ToHaveValueAsync("95");
        await Expect(bay.At("tax-percent-0")).ToHaveValueAsync("7.7");
        await Expect(bay.At("rates-deposit")).ToHaveValueAsync("101.00");
        await Expect(bay.At("rates-deposit-unit")).ToHaveValueAsync("sum");
        await bay.SetOffline(true);
        await bay.Page.ReloadAsync();
        await Expect(bay.At("rates-hour")).ToHaveValueAsync("95");
        await bay.At("rates-keep").ClickAsync();
        await Expect(bay.At("rates-fault")).ToContainTextAsync("The server is out of reach");
        await IsSound(bay, "rates offline");
    }

    /// <summary>What is on file is opened from the yes, and once work has begun from the account.</summary>
    private static async Task OpenFile(Bay bay, string name)
    {
        if (await bay.At("tab-account").IsVisibleAsync())
        {
            await bay.At("tab-account").ClickAsync();
        }

        await bay.At($"file-{name}").ClickAsync();
    }

    private static async Task BackToNow(Bay bay)
    {
        if (await bay.At("tab-now").IsVisibleAsync())
        {
            await bay.At("tab-now").ClickAsync();
        }
    }

    /// <summary>A paper as it is read: a figure and its unit are kept on one line by a space that no line ends at.</summary>
    private static string Read(string html) => System.Net.WebUtility.HtmlDecode(html).Replace('\u00A0', ' ');
}
