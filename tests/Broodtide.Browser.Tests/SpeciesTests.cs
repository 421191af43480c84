using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A keeper's own number beside the profile's, kept over a reload and undone with one tap.</summary>
[Collection(LookingBrowser.Name)]
public sealed class SpeciesTests(Browsing browsing)
{
    [Fact]
    public async Task A_chosen_number_needs_a_reason_reaches_the_tools_and_is_undone_with_one_tap()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/species");
        await Open(opened);
        await opened.Page.GetByLabel("Value", new() { Exact = true }).FillAsync("32");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Take this as mine" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Say why")).ToBeVisibleAsync();
        await opened.Page.GetByLabel("Why do you take another").FillAsync("My second brood settled at 32");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Take this as mine" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("yours; profile 30")).ToBeVisibleAsync();

        await opened.Page.GotoAsync(server.Address + "/water");
        await Assertions
            .Expect(opened.Page.GetByLabel("How salt", new() { Exact = true }))
            .ToHaveValueAsync("32");

        await opened.Page.GotoAsync(server.Address + "/species");
        await Open(opened);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Back to the profile" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("yours; profile 30")).ToHaveCountAsync(0);
    }

    private static Task Open(Opened opened) =>
        opened
            .Page.Locator("summary")
            .Filter(new() { HasText = "Salinity a larval vessel is" })
            .First.ClickAsync();
}
