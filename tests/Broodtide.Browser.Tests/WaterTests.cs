using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>The water tools as a keeper uses them, in the app as it is given to people.</summary>
[Collection(LookingBrowser.Name)]
public sealed class WaterTests(Browsing browsing)
{
    [Fact]
    public async Task Eight_litres_of_30_are_weighed_from_a_mix_that_holds_water()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/water");
        await opened.Page.GetByLabel("How much", new() { Exact = true }).FillAsync("8");
        await opened.Page.GetByLabel("How salt", new() { Exact = true }).FillAsync("30");
        await opened.Page.GetByText("The salt mix, and the water you start from").ClickAsync();
        await opened.Page.GetByLabel("Water in the mix", new() { Exact = true }).FillAsync("8");

        // By hand: 8 L of S 30 at 25 degC weigh 8.157 kg (EOS-80, 1019.6 g/L) and hold 30.14 g/kg of dry salt
        // (TEOS-10: 35.16504/35 of the practical salinity), 245.9 g, which is 267.3 g of a mix with 8 % of water. The
        // other 7.890 kg are 7.91 L of fresh water (997.05 g/L).
        await Expect(opened, ".recipe li:nth-child(1) b", "267\u202fg");
        await Expect(opened, ".recipe li:nth-child(2) b", "7.91\u202fL");
    }

    [Fact]
    public async Task A_decimal_comma_is_understood_and_US_units_are_offered()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/water");
        await opened.Page.GetByLabel("How much", new() { Exact = true }).FillAsync("7,5");
        await Expect(opened, ".recipe li:nth-child(1) b", "251\u202fg");
        await opened.Page.GetByLabel("How much, unit").SelectOptionAsync("[gal_us]");
        await opened.Page.GetByLabel("How much", new() { Exact = true }).FillAsync("2 gal");
        await Expect(opened, ".recipe li:nth-child(1) b", "253\u202fg");
        await opened.Page.GetByLabel("How much", new() { Exact = true }).FillAsync("much");
        await Assertions.Expect(opened.Page.GetByText("Not a number.")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task What_cannot_be_is_refused_in_words_and_the_nearest_is_one_key_away()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/water");
        await opened.Page.GetByLabel("How salt", new() { Exact = true }).FillAsync("50");
        await Assertions.Expect(opened.Page.GetByText("Cannot be")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Use 42.0" }).ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByLabel("How salt", new() { Exact = true }))
            .ToHaveValueAsync("42");
        await Assertions.Expect(opened.Page.Locator(".recipe")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Yeast_for_six_litres_is_weighed_and_too_much_is_refused_in_words()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/food");
        await opened.Page.GetByLabel("It holds", new() { Exact = true }).FillAsync("6");
        await opened.Page.GetByLabel("How salt it is", new() { Exact = true }).FillAsync("30");

        // By hand: still water is given 2 mg/L of dry mass a day at most without a warning, 12 mg for 6 L; a yeast that is
        // 95 % dry weighs 12.6 mg.
        await Expect(opened, ".recipe li:nth-child(1) b", "13\u202fmg");
        await opened.Page.GetByLabel("You give a day", new() { Exact = true }).FillAsync("54");
        await Assertions
            .Expect(opened.Page.GetByText("can take all oxygen of still water"))
            .ToBeVisibleAsync();
        await opened.Page.Locator("label").Filter(new() { HasText = "Live food" }).ClickAsync();
        await opened.Page.GetByLabel("It holds", new() { Exact = true }).FillAsync("6");
        // 2.5 rotifers a mL in the middle of what is given: 15,000 in 6 L.
        await Expect(opened, ".recipe li:nth-child(1) b", "15\u202f000");
    }

    [Fact]
    public async Task A_gravity_without_its_two_temperatures_shows_what_each_pair_would_mean()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/water/reading");
        await opened.Page.GetByLabel("It shows", new() { Exact = true }).FillAsync("1.025");
        await opened.Page.GetByLabel("It shows, unit").SelectOptionAsync("sal:sg");
        await Assertions
            .Expect(opened.Page.GetByText("Which two temperatures stand on the instrument?"))
            .ToBeVisibleAsync();
        await Assertions.Expect(opened.Page.Locator(".mind tbody tr")).ToHaveCountAsync(7);

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "25/25" }).ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByText("How warm the sample was is needed."))
            .ToBeVisibleAsync();
        await opened.Page.GetByLabel("Sample", new() { Exact = true }).FillAsync("25");
        // 1.025 at 25/25 is S 33.2 by EOS-80.
        await Assertions.Expect(opened.Page.Locator(".figure-line .q")).ToContainTextAsync("33.");
        await Assertions.Expect(opened.Page.Locator(".mind")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Thiosulfate_follows_a_measured_residual_alone_and_animals_shut_both_ways()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/water/sterilise");
        await opened.Page.GetByLabel("no, nothing", new() { Exact = true }).CheckAsync();
        await opened.Page.GetByLabel("How much", new() { Exact = true }).FillAsync("10");
        await opened.Page.GetByLabel("Chlorine in the bleach", new() { Exact = true }).FillAsync("40");
        // 5 mg/L in 10 L is 50 mg; bleach of 40 g/L holds it in 1.25 mL.
        await Assertions.Expect(opened.Page.GetByText("of bleach into")).ToContainTextAsync("1.25\u202fmL");
        await Assertions.Expect(opened.Page.GetByText("of sodium thiosulfate")).ToHaveCountAsync(0);

        await opened.Page.GetByLabel("The test shows", new() { Exact = true }).FillAsync("2");
        await Assertions.Expect(opened.Page.GetByText("of sodium thiosulfate")).ToBeVisibleAsync();
        await opened.Page.GetByLabel("yes", new() { Exact = true }).CheckAsync();
        await Assertions.Expect(opened.Page.GetByText("of sodium thiosulfate")).ToHaveCountAsync(0);
        await Assertions
            .Expect(opened.Page.GetByText("No bleach and no thiosulfate goes into it."))
            .ToHaveCountAsync(2);
    }

    private static Task Expect(Opened opened, string selector, string text) =>
        Assertions.Expect(opened.Page.Locator(selector)).ToHaveTextAsync(text);
}
