using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Letting people in and out, by phones alone, against the published server.</summary>
[Collection(WritingBrowser.Name)]
public sealed class PeopleTests(Browsing browsing)
{
    private const string Helpers = "forty litres of salt";

    [Fact]
    public async Task The_first_phone_makes_the_owner_a_second_comes_by_invitation_and_each_sees_who_wrote()
    {
        await using var server = await RunningServer.StartUnowned();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.AsIs(first, $"{server.Address}/first#{server.Code}");
        await Fill(owner, "Name", "Ada");
        await Fill(owner, "Passphrase", RunningServer.Passphrase);
        await Press(owner, "Make the house mine");
        await Title(owner, "Due");

        await owner.GoTo("/people");
        await Press(owner, "Make an invitation");
        var code = await owner.Page.Locator("p.code").InnerTextAsync();
        var helper = await Opened.AsIs(second, $"{server.Address}/join#{code}");
        await Assertions.Expect(helper.Page.GetByText("You are asked in as helper.")).ToBeVisibleAsync();
        await Fill(helper, "Name", "Berta");
        await Fill(helper, "Passphrase", Helpers);
        await Press(helper, "Come in");
        await Title(helper, "Due");
        await Note(helper, "The lid was open");

        await Seen(owner);
        await owner.GoTo("/journal");
        await Assertions.Expect(owner.Page.Locator(".story")).ToContainTextAsync("The lid was open");
        await Assertions.Expect(owner.Page.Locator(".story .who")).ToContainTextAsync("Berta");
        await owner.GoTo("/people");
        await Assertions
            .Expect(owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Berta" }))
            .ToBeVisibleAsync();
        Assert.Empty(owner.Complaints);
        Assert.Empty(helper.Complaints);
    }

    [Fact]
    public async Task A_session_that_was_ended_shares_no_more_and_what_is_written_waits_on_the_phone()
    {
        await using var server = await RunningServer.Start();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.At(first, server.Address + "/people");
        await Press(owner, "Make an invitation");
        var code = await owner.Page.Locator("p.code").InnerTextAsync();
        var helper = await Opened.AsIs(second, $"{server.Address}/join#{code}");
        await Fill(helper, "Name", "Berta");
        await Fill(helper, "Passphrase", Helpers);
        await Press(helper, "Come in");
        await Title(helper, "Due");
        await helper.Rest();

        await owner.GoTo("/journal");
        await owner.GoTo("/people");
        await owner
            .Page.Locator("section")
            .Filter(new() { Has = owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Berta" }) })
            .GetByRole(AriaRole.Button, new() { Name = "Sign out there" })
            .ClickAsync();
        await Assertions.Expect(owner.Page.GetByText("Signed in nowhere.")).ToBeVisibleAsync();
        await Note(helper, "Written outside");

        var way = helper.Page.GetByRole(AriaRole.Link, new() { Name = "Sign in to share" });
        await Assertions.Expect(way).ToBeVisibleAsync();
        await Assertions.Expect(helper.Page.GetByText("safe on this phone").First).ToBeVisibleAsync();
        await way.ClickAsync();
        await Title(helper, "Sign in");
        await Fill(helper, "Passphrase", Helpers);
        await Press(helper, "Sign in");
        await Title(helper, "Due");
        await helper.Rest();
        await Assertions.Expect(way).ToBeHiddenAsync();
        await helper.GoTo("/journal");
        await Assertions.Expect(helper.Page.Locator(".story")).ToContainTextAsync("Written outside");
        await Assertions.Expect(helper.Page.Locator(".story em")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_wrong_passphrase_is_told_and_after_ten_the_name_is_closed_for_a_while()
    {
        await using var server = await RunningServer.Start();
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.AsIs(phone, server.Address + "/sign-in");
        await Fill(opened, "Name", "Nobody");
        await Fill(opened, "Passphrase", "wrong");
        var told = opened.Page.GetByRole(AriaRole.Alert);
        for (var tries = 0; tries < 10; tries++)
        {
            await Press(opened, "Sign in");
            await Assertions.Expect(told).ToContainTextAsync("Name and passphrase do not go together.");
        }

        await Press(opened, "Sign in");
        await Assertions.Expect(told).ToContainTextAsync("Too many tries. Wait 15 minutes.");
    }

    [Fact]
    public async Task Who_only_reads_is_told_so_before_anything_is_typed_and_is_offered_no_key_that_writes()
    {
        await using var server = await RunningServer.Start();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.At(first, server.Address);
        await owner.Rest();
        await Note(owner, "The lid was open");
        var reader = await HouseSteps.AskedInAsync(owner, second, server.Address, "reader", "Rosa");
        await reader.Rest();
        foreach (
            var path in new[]
            {
                "/write",
                "/write/note",
                "/photo",
                "/count",
                "/stages",
                "/gather",
                "/sheet/write",
            }
        )
        {
            await reader.GoTo(path);
            await Title(reader, "You read here");
            await Assertions
                .Expect(reader.Page.GetByText("Rosa reads in this house and writes nothing into it."))
                .ToBeVisibleAsync();
            await Assertions.Expect(reader.Page.Locator("main input, main textarea")).ToHaveCountAsync(0);
        }

        await reader.GoTo("/journal");
        await reader
            .Page.Locator(".story a")
            .Filter(new() { HasText = "The lid was open" })
            .First.ClickAsync();
        await Assertions.Expect(reader.Page.GetByText("How it is kept")).ToBeVisibleAsync();
        await Assertions.Expect(reader.Page.GetByText("If it is not right")).ToHaveCountAsync(0);
        Assert.Empty(reader.Complaints);
    }

    [Fact]
    public async Task What_a_person_chose_is_found_on_the_person_s_second_phone_also_when_chosen_away_from_the_house()
    {
        await using var server = await RunningServer.Start();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.At(first, server.Address);
        await owner.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await owner.Rest();
        await first.SetOfflineAsync(true);
        await Choose(owner, "33,6");
        await first.SetOfflineAsync(false);
        await Choose(owner, "gallons, °F");
        await Assertions
            .Expect(owner.Page.GetByRole(AriaRole.Radio, new() { Name = "33,6" }))
            .ToBeCheckedAsync();
        await owner.Page.WaitForFunctionAsync("() => localStorage.getItem('broodtide.ways.untold') === null");

        var other = await Opened.At(second, server.Address);
        await other.Rest();
        await other.GoTo("/settings");
        await Assertions
            .Expect(other.Page.GetByRole(AriaRole.Radio, new() { Name = "33,6" }))
            .ToBeCheckedAsync();
        await Assertions
            .Expect(other.Page.GetByRole(AriaRole.Radio, new() { Name = "gallons, °F" }))
            .ToBeCheckedAsync();
        Assert.Empty(other.Complaints);

        static async Task Choose(Opened opened, string name)
        {
            await opened.GoTo("/settings");
            await opened
                .Page.Locator("fieldset.choice label")
                .Filter(new() { HasText = name })
                .First.ClickAsync();
        }
    }

    [Fact]
    public async Task Without_an_owner_the_phone_keeps_for_itself_what_is_written()
    {
        await using var server = await RunningServer.StartUnowned();
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.AsIs(phone, server.Address);

        await Assertions
            .Expect(opened.Page.GetByRole(AriaRole.Link, new() { Name = "Nobody owns this house yet" }))
            .ToBeVisibleAsync();
        await Note(opened, "Before anybody came");
        await opened.GoTo("/journal");

        await Assertions.Expect(opened.Page.Locator(".story")).ToContainTextAsync("Before anybody came");
        await Assertions.Expect(opened.Page.Locator(".story em")).ToHaveTextAsync("waiting");
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task Away_from_the_server_entries_are_signed_by_who_was_signed_in_last()
    {
        await using var server = await RunningServer.Start();
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await opened.Rest();
        await server.Stop();

        await opened.Page.ReloadAsync();
        await Note(opened, "In the cellar");
        await opened.GoTo("/journal");

        await Assertions
            .Expect(opened.Page.Locator(".story .who"))
            .ToContainTextAsync(RunningServer.OwnersName);
    }

    private static async Task Note(Opened opened, string text)
    {
        await opened.GoTo("/write/note");
        await opened
            .Page.GetByLabel("Note", new() { Exact = true })
            .And(opened.Page.Locator("input, textarea"))
            .FillAsync(text);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await opened.Page.Locator(".saved, .asked").First.WaitForAsync();
        await opened.Rest();
    }

    // The page is looked at again, as after the phone lay on the shelf.
    private static async Task Seen(Opened opened)
    {
        await opened.Page.ReloadAsync();
        await opened.Rest();
    }

    private static Task Fill(Opened opened, string label, string text) =>
        opened.Page.GetByLabel(label, new() { Exact = true }).FillAsync(text);

    private static Task Press(Opened opened, string name) =>
        opened.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true }).ClickAsync();

    private static Task Title(Opened opened, string title) =>
        Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync(title);
}
