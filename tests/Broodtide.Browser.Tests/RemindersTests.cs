using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Calendar file, calendar address, alarms and notes, on an invented house.</summary>
[Collection(WritingBrowser.Name)]
public sealed class RemindersTests(Browsing browsing)
{
    [Fact]
    public async Task The_calendar_file_is_made_without_a_network_and_a_second_parser_reads_it()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address + "/reminders");
        await opened.Rest();
        await server.Stop();

        var download = await opened.Page.RunAndWaitForDownloadAsync(() =>
            opened.Page.GetByRole(AriaRole.Button, new() { Name = "Save the calendar file" }).ClickAsync()
        );
        var text = await File.ReadAllTextAsync(
            await download.PathAsync(),
            TestContext.Current.CancellationToken
        );
        var read = Ical.Net.Calendar.Load(text)!;

        Assert.Equal("broodtide.ics", download.SuggestedFilename);
        Assert.True(read.Events.Count > 10, $"{read.Events.Count} events");
        Assert.Contains(read.Events, it => it.Status == "CANCELLED");
        // Every code has its words: none is shown bare.
        Assert.All(read.Events, it => Assert.DoesNotMatch(@"^[a-z]+\.[\w-]+$", it.Summary!));
        Assert.All(
            read.Events,
            it => Assert.DoesNotContain("say.", it.Description!, StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task A_calendar_address_is_made_shown_once_asked_and_switched_off()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address + "/reminders");
        await opened
            .Page.GetByRole(AriaRole.Button, new() { Name = "See whether there is one" })
            .ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Make an address" }).ClickAsync();
        var address = await opened.Page.GetByLabel("The address").InputValueAsync();
        using var program = new HttpClient();
        var text = await program.GetStringAsync(address, TestContext.Current.CancellationToken);
        Assert.NotEmpty(Ical.Net.Calendar.Load(text)!.Events);

        await opened.Page.ReloadAsync();
        await opened
            .Page.GetByRole(AriaRole.Button, new() { Name = "See whether there is one" })
            .ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("An address was made")).ToBeVisibleAsync();
        await Assertions.Expect(opened.Page.GetByLabel("The address")).ToHaveCountAsync(0);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Switch off" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("There is no address.")).ToBeVisibleAsync();
        using var gone = await program.GetAsync(new Uri(address), TestContext.Current.CancellationToken);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, gone.StatusCode);
    }

    [Fact]
    public async Task Notes_are_asked_for_by_a_tap_and_shown_by_the_registration()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        await phone.GrantPermissionsAsync(["notifications"], new() { Origin = server.Address });
        var opened = await Opened.At(phone, server.Address + "/reminders");
        await opened.Rest();
        await opened.Page.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => true)");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Show me notes" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Notes are shown on this phone.")).ToBeVisibleAsync();

        // As if the time of everything had come only now.
        await opened.Page.EvaluateAsync("() => localStorage.removeItem('broodtide.nudged')");
        await opened.Page.ReloadAsync();
        await opened.Rest();
        await opened.Page.WaitForFunctionAsync(
            "async () => (await (await navigator.serviceWorker.ready).getNotifications()).length > 0"
        );
    }
}
