using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>How somebody comes into a house, by phones alone.</summary>
internal static class HouseSteps
{
    public const string Passphrase = "forty litres of salt";

    /// <summary>The owner asks somebody in, who comes in on another phone.</summary>
    public static async Task<Opened> AskedInAsync(
        Opened owner,
        IBrowserContext phone,
        string address,
        string role,
        string name
    )
    {
        await owner.GoTo("/people");
        await owner
            .Page.Locator("fieldset.choice label")
            .Filter(new() { HasTextString = role })
            .First.ClickAsync();
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Make an invitation" }).ClickAsync();
        var code = await owner.Page.Locator("p.code").InnerTextAsync();
        return await JoinAsync(phone, $"{address}/join#{code}", name);
    }

    private static async Task<Opened> JoinAsync(IBrowserContext phone, string address, string name)
    {
        var opened = await Opened.AsIs(phone, address);
        await opened.Page.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
        await opened.Page.GetByLabel("Passphrase", new() { Exact = true }).FillAsync(Passphrase);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Come in", Exact = true }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Due");
        return opened;
    }
}
