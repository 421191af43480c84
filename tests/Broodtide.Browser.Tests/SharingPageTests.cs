using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>What the owner sees and decides of sharing, by phones alone.</summary>
[Collection(WritingBrowser.Name)]
public sealed class SharingPageTests(Browsing browsing)
{
    [Fact]
    public async Task What_a_helper_takes_back_of_others_waits_for_the_owner_who_throws_one_away_and_lets_one_in()
    {
        await using var server = await RunningServer.Start();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.At(first, server.Address);
        await owner.Rest();
        await NoteAsync(owner, "The lid was open");
        await NoteAsync(owner, "The pump was off");
        var helper = await HouseSteps.AskedInAsync(owner, second, server.Address, "helper", "Berta");
        await helper.Rest();
        foreach (var words in new[] { "The lid was open", "The pump was off" })
        {
            await helper.GoTo("/journal");
            await helper.Page.Locator(".story a").Filter(new() { HasText = words }).First.ClickAsync();
            await PressAsync(helper, "Take back");
            await PressAsync(helper, "Take it back");
            await helper.Rest();
        }

        var rows = owner
            .Page.Locator("section")
            .Filter(
                new() { Has = owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Waiting for you" }) }
            )
            .Locator("tr");
        // The helper's phone sends when it pleases: the page is opened anew until both are there.
        var looks = 0;
        do
        {
            await owner.GoTo("/people");
            await owner.GoTo("/sharing");
            await owner.Rest();
            await owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Waiting for you" }).WaitForAsync();
        } while (++looks < 10 && await rows.CountAsync() < 2);

        await Assertions.Expect(rows).ToHaveCountAsync(2);
        await Assertions.Expect(rows.First).ToContainTextAsync("Berta");
        await Assertions.Expect(rows.First).ToContainTextAsync("takes back:");
        await Assertions.Expect(rows.First).ToContainTextAsync("The lid was open");
        await Assertions.Expect(rows.First).ToContainTextAsync("A helper corrects what somebody else wrote.");
        await PassesAxeAsync(owner);

        await PressAsync(owner, "Throw away", rows.First);
        await Assertions.Expect(owner.Page.GetByText("Throw 1 entry away for good?")).ToBeVisibleAsync();
        await PassesAxeAsync(owner);
        await PressAsync(owner, "Leave it");
        await Assertions.Expect(rows).ToHaveCountAsync(2);
        await PressAsync(owner, "Throw away", rows.First);
        await PressAsync(owner, "Throw away");
        await Assertions.Expect(owner.Page.GetByText("1 entry thrown away.")).ToBeVisibleAsync();
        await Assertions.Expect(rows).ToHaveCountAsync(1);
        await PressAsync(owner, "Let in", rows.First);
        await PressAsync(owner, "Let in");
        await Assertions.Expect(owner.Page.GetByText("1 entry let in.")).ToBeVisibleAsync();
        await Assertions.Expect(owner.Page.GetByText("Nothing waits.")).ToBeVisibleAsync();

        await owner.Rest();
        await owner.GoTo("/journal");
        await Assertions
            .Expect(
                owner
                    .Page.Locator(".story")
                    .Filter(new() { HasText = "The pump was off" })
                    .Locator("del, s, .back")
                    .Or(owner.Page.GetByText("taken back"))
                    .First
            )
            .ToBeVisibleAsync();
        Assert.Empty(owner.Complaints);
    }

    [Fact]
    public async Task The_refill_is_opened_for_a_time_and_closed_and_who_was_refused_is_told_by_name()
    {
        await using var server = await RunningServer.Start();
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        var owner = await Opened.At(first, server.Address);
        var helper = await HouseSteps.AskedInAsync(owner, second, server.Address, "helper", "Berta");
        // What no app of ours sends.
        const string Broken = """
            async () => {
              const { token } = await (await fetch('/api/people/token')).json();
              const headers = { 'Content-Type': 'application/json', 'Broodtide-Token': token };
              return (await fetch('/api/journal/give', { method: 'POST', headers, body: 'no batch' })).status;
            }
            """;
        Assert.Equal(400, await helper.Page.EvaluateAsync<int>(Broken));
        await helper.GoTo("/sharing");
        await Assertions.Expect(helper.Page.GetByText("Only an owner of the house")).ToBeVisibleAsync();

        await owner.GoTo("/sharing");
        var refused = owner.Page.Locator("tr").Filter(new() { HasText = "Berta" });
        await Assertions.Expect(refused).ToContainTextAsync("Not understood; the app there may be older.");
        await owner.Page.Locator("label").Filter(new() { HasText = "72 hours" }).ClickAsync();
        await PressAsync(owner, "Open the refill");
        await Assertions.Expect(owner.Page.GetByText("Open until")).ToBeVisibleAsync();
        await PassesAxeAsync(owner);
        await PressAsync(owner, "Close it now");
        await Assertions
            .Expect(owner.Page.GetByRole(AriaRole.Button, new() { Name = "Open the refill" }))
            .ToBeVisibleAsync();
        Assert.Empty(owner.Complaints);
    }

    private static async Task PassesAxeAsync(Opened opened)
    {
        var found = await opened.Page.RunAxe(
            new AxeRunOptions
            {
                RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"] },
            }
        );
        Assert.Empty(found.Violations.Select(one => one.Id + " " + one.Nodes[0].Html));
    }

    private static async Task NoteAsync(Opened opened, string text)
    {
        await opened.GoTo("/write/note");
        await opened
            .Page.GetByLabel("Note", new() { Exact = true })
            .And(opened.Page.Locator("input, textarea"))
            .FillAsync(text);
        await PressAsync(opened, "Write it down");
        await opened.Page.Locator(".saved, .asked").First.WaitForAsync();
        await opened.Rest();
    }

    private static Task PressAsync(Opened opened, string name, ILocator? within = null) =>
        (within ?? opened.Page.Locator("main"))
            .GetByRole(AriaRole.Button, new() { Name = name, Exact = true })
            .First.ClickAsync();
}
