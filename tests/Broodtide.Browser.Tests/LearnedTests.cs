using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using NodaTime.Text;

namespace Broodtide.Browser.Tests;

/// <summary>What the runs of the invented house taught, and a trial laid out in it.</summary>
[Collection(WritingBrowser.Name)]
public sealed class LearnedTests(Browsing browsing)
{
    private const double Agreement = 1e-6;

    [Fact]
    public async Task The_phone_without_its_server_and_the_command_line_pool_the_same_numbers()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var journal = Path.Combine(server.DataFolder, "demo", "invented.db");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await server.Stop();
        var at = InstantPattern.ExtendedIso.Format(
            NodaTime.SystemClock.Instance.GetCurrentInstant().Plus(NodaTime.Duration.FromHours(1))
        );
        await opened.GoTo($"/species/learned?at={at}&zone=Europe/Berlin");
        await opened.Rest();
        using var line = JsonDocument.Parse(
            await CommandLine.Run(
                "species",
                "learned",
                "caridina-multidentata",
                "--at",
                at,
                "--zone",
                "Europe/Berlin",
                "--journal",
                journal,
                "--json"
            )
        );
        var counted = line
            .RootElement.GetProperty("numbers")
            .EnumerateArray()
            .Where(number => number.GetProperty("runsCounted").GetInt32() > 0)
            .ToList();
        Assert.NotEmpty(counted);
        await Assertions.Expect(opened.Page.Locator("[data-points]")).ToHaveCountAsync(counted.Count);
        foreach (var number in counted)
        {
            var code = number.GetProperty("code").GetString();
            var shown = (
                await opened.Page.Locator($"[data-quantity='{code}']").GetAttributeAsync("data-points")
            )!
                .Split(' ')
                .Select(text => double.Parse(text, CultureInfo.InvariantCulture))
                .ToList();
            var next = number.GetProperty("next");
            foreach (var (place, name) in new[] { "low", "middle", "high" }.Index())
            {
                var told = next.GetProperty(name).GetDouble();
                Assert.True(
                    Math.Abs(told - shown[place]) <= Agreement * Math.Abs(told),
                    $"{code} {name}: {told} and {shown[place]}"
                );
            }
        }
    }

    [Fact]
    public async Task A_run_is_left_out_taken_in_and_the_number_is_begun_with_and_given_back()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address + "/species/learned");
        await opened.Rest();
        var next = opened.Page.Locator("[data-quantity='embryo-degree-days']");
        var with = await next.GetAttributeAsync("data-points");
        await opened.Page.Locator("summary").First.ClickAsync();
        await opened.Rest();
        await Assertions.Expect(opened.Page.GetByText("What it moves now")).ToBeVisibleAsync();
        await opened
            .Page.GetByRole(AriaRole.Button, new() { Name = "Leave this run out" })
            .First.ClickAsync();
        await opened.Rest();
        Assert.NotEqual(with, await next.GetAttributeAsync("data-points"));
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Count it in again" }).First.ClickAsync();
        await opened.Rest();
        Assert.Equal(with, await next.GetAttributeAsync("data-points"));
        await opened
            .Page.GetByRole(AriaRole.Button, new() { Name = "Begin the next run with this" })
            .First.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Yours now:").First).ToBeVisibleAsync();
        await opened.Rest();
        // What was chosen is not heard again.
        Assert.Equal(with, await next.GetAttributeAsync("data-points"));
        await opened
            .Page.GetByRole(AriaRole.Button, new() { Name = "Back to the profile" })
            .First.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Yours now:")).ToHaveCountAsync(0);
        await opened.Rest();
        Assert.Empty(await Scan.Of(opened.Page));
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task A_trial_is_worked_out_and_laid_out_in_one_step()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address + "/trial");
        await opened.Rest();
        await opened.Page.GetByLabel("Vessels", new() { Exact = true }).FillAsync("6");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await opened.Rest();
        await Assertions
            .Expect(opened.Page.GetByText("No test is possible with so few vessels."))
            .ToBeVisibleAsync();
        await opened.Page.GetByLabel("Vessels", new() { Exact = true }).FillAsync("8");
        await opened.Page.GetByLabel("Treatment 1, as always").FillAsync("30 ppt");
        await opened.Page.GetByLabel("Treatment 2").FillAsync("20 ppt");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await opened.Rest();
        await Assertions.Expect(opened.Page.GetByText("of such trials find")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Lay out 8 vessels" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("The trial needs a name.")).ToBeVisibleAsync();
        await opened.Page.GetByLabel("Name of the trial").FillAsync("Trial A");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Lay out 8 vessels" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Trial A is laid out: 8 vessels.")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "Trial A 8" }).ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByRole(AriaRole.Heading, new() { Name = "Trial A 8" }))
            .ToBeVisibleAsync();
        Assert.Empty(opened.Complaints);
    }
}
