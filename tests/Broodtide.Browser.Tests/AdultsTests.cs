using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Adults, the evening and a loss, read on a phone of the invented house.</summary>
[Collection(WritingBrowser.Name)]
public sealed class AdultsTests(Browsing browsing)
{
    [Fact]
    public async Task Without_its_server_the_phone_says_as_many_animals_as_the_command_line()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var journal = Path.Combine(server.DataFolder, "demo", "invented.db");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await server.Stop();
        await opened.GoTo("/adults");
        var figure = opened.Page.Locator(".q.figure");

        foreach (var (chance, lots) in new[] { (95, 1), (90, 1), (90, 2), (99, 3) })
        {
            await Choose(opened, "Chance of both sexes", $"{chance} %");
            await Choose(opened, "Shops or tanks", $"{lots}");
            await opened.Settle();
            using var told = JsonDocument.Parse(
                await CommandLine.Run(
                    "buy",
                    "--chance",
                    $"{chance}",
                    "--lots",
                    $"{lots}",
                    "--journal",
                    journal,
                    "--json"
                )
            );
            var animals = told.RootElement.GetProperty("animals").GetInt32();
            await Assertions.Expect(figure).ToHaveTextAsync(animals.ToString(CultureInfo.InvariantCulture));
        }

        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_keeper_goes_from_the_evening_to_the_female_and_from_a_loss_to_the_one_thing()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/tonight");
        await opened.Page.Locator(".tonight a").First.ClickAsync();
        await opened.Page.Locator("a.row-link[href^='animal/']").First.ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Berta");
        await Assertions.Expect(opened.Page.Locator("main")).ToContainTextAsync("nine chances in ten");

        await opened.GoTo("/index");
        await opened.Page.Locator("a.mini[href^='run/']").Last.ClickAsync();
        await opened.Page.Locator("a.row-link[href^='after-loss/']").ClickAsync();
        await opened.Rest();
        await Assertions.Expect(opened.Page.Locator("main")).ToContainTextAsync("One thing to change");
        await Assertions.Expect(opened.Page.Locator("main")).ToContainTextAsync("not a cause");
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [InlineData("/adults", ColorScheme.Light)]
    [InlineData("/adults", ColorScheme.Dark)]
    [InlineData("/tonight", ColorScheme.Light)]
    public async Task Drawings_and_lists_pass_the_scan_and_reflow(string path, ColorScheme ground)
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EmulateMediaAsync(new() { ColorScheme = ground });
        await opened.Rest();
        await opened.GoTo(path);
        await opened.Rest();
        Assert.Empty(await Scan.Of(opened.Page));
        await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = '200%'");
        await opened.Settle();
        Assert.True(
            await opened.Page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
            )
        );
    }

    private static Task Choose(Opened opened, string name, string what) =>
        opened
            .Page.GetByRole(AriaRole.Group, new() { Name = name })
            .Locator("label", new() { HasTextString = what })
            .ClickAsync();
}
