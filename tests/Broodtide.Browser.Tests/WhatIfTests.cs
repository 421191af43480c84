using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using NodaTime.Text;

namespace Broodtide.Browser.Tests;

/// <summary>A change tried on a vessel of the invented house.</summary>
[Collection(QuietBrowser.Name)]
public sealed class WhatIfTests(Browsing browsing)
{
    private const double Agreement = 1e-6;

    [Fact]
    public async Task The_phone_without_its_server_and_the_command_line_tell_the_same_of_a_change()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var journal = Path.Combine(server.DataFolder, "demo", "invented.db");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        var jar = await JarA(opened);
        await server.Stop();

        var at = InstantPattern.ExtendedIso.Format(
            NodaTime.SystemClock.Instance.GetCurrentInstant().Plus(NodaTime.Duration.FromHours(1))
        );
        await opened.GoTo($"/what-if/{jar}?at={at}&zone=Europe/Berlin");
        await Choose(opened, "twice");
        await Choose(opened, "16 h");
        await opened.Rest();
        using var line = JsonDocument.Parse(
            await CommandLine.Run(
                "whatif",
                "Jar A",
                "--feed",
                "twice",
                "--light",
                "16",
                "--at",
                at,
                "--zone",
                "Europe/Berlin",
                "--journal",
                journal,
                "--json"
            )
        );
        var figures = line.RootElement.GetProperty("figures").EnumerateArray().ToList();
        Assert.Equal(5, figures.Count);
        foreach (var figure in figures)
        {
            var quantity = figure
                .GetProperty("quantity")
                .GetString()!
                .Replace("-", "", StringComparison.Ordinal);
            var cells = opened.Page.Locator($"tr[data-quantity='{quantity}' i] td[data-points]");
            foreach (var (place, name) in new[] { "asItIs", "changed", "difference" }.Index())
            {
                var shown = (await cells.Nth(place).GetAttributeAsync("data-points"))!
                    .Split(' ')
                    .Select(number => double.Parse(number, CultureInfo.InvariantCulture))
                    .ToList();
                var told = figure.GetProperty(name);
                Same(told.GetProperty("low").GetDouble(), shown[0], $"{quantity} {name}");
                Same(told.GetProperty("middle").GetDouble(), shown[1], $"{quantity} {name}");
                Same(told.GetProperty("high").GetDouble(), shown[2], $"{quantity} {name}");
            }
        }

        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Two_futures_stand_over_each_other_with_words_and_pass_the_scan(ColorScheme ground)
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EmulateMediaAsync(new() { ColorScheme = ground });
        await opened.Rest();
        await opened.GoTo($"/vessel/{await JarA(opened)}");
        await opened.Page.Locator("a[href^='what-if/']").ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Less salt" }).ClickAsync();
        await opened.Rest();
        await Assertions.Expect(opened.Page.Locator("tr[data-quantity]")).ToHaveCountAsync(5);
        foreach (var picture in await opened.Page.Locator("figure svg").AllAsync())
        {
            Assert.Equal(1, await picture.Locator(".pic-line.pic-far").CountAsync());
            Assert.Equal(1, await picture.Locator(".pic-if").CountAsync());
            Assert.Contains(
                "with the change",
                await picture.GetAttributeAsync("aria-label"),
                StringComparison.Ordinal
            );
        }

        Assert.Equal(4, await opened.Page.Locator("figure svg").CountAsync());
        Assert.Empty(await Scan.Of(opened.Page));
        await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = '200%'");
        await opened.Settle();
        Assert.True(
            await opened.Page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
            )
        );
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task No_stretch_of_the_work_holds_the_page_for_long()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo($"/what-if/{await JarA(opened)}");
        await opened.Rest();
        var shares = new List<double>();
        // As shares of the whole, which other work on the machine draws out as much; and of three times the best.
        foreach (var (first, then) in new[] { ("half", "twice"), ("twice", "half"), ("half", "twice") })
        {
            await Choose(opened, first);
            await opened.Rest();
            var took = await opened.Page.EvaluateAsync<double[]>(LongestWhileChoosing, then);
            shares.Add(took[0] / took[1]);
        }

        Assert.True(shares.Min() < 0.2, string.Join(", ", shares));
    }

    // Milliseconds of the longest task from the choice until everything is worked out, and of all of it.
    private const string LongestWhileChoosing = """
        async choice => {
          let longest = 0;
          const watch = new PerformanceObserver(list => {
            for (const entry of list.getEntries()) longest = Math.max(longest, entry.duration);
          });
          watch.observe({ type: 'longtask' });
          const label = [...document.querySelectorAll('label')].find(it => it.textContent.trim() === choice);
          const began = performance.now();
          label.querySelector('input').click();
          await new Promise(done => setTimeout(done, 300));
          while (document.querySelector('[aria-busy=true]')) await new Promise(done => setTimeout(done, 20));
          watch.disconnect();
          return [longest, performance.now() - began];
        }
        """;

    private static Task Choose(Opened opened, string what) =>
        opened.Page.Locator("label", new() { HasTextString = what }).First.ClickAsync();

    private static async Task<string> JarA(Opened opened)
    {
        await opened.GoTo("/index");
        await opened.Page.Locator("main .row-link", new() { HasText = "Jar A" }).First.ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Jar A");
        return new Uri(opened.Page.Url).Segments[^1];
    }

    private static void Same(double told, double shown, string what) =>
        Assert.True(
            Math.Abs(told - shown) <= Agreement * Math.Max(1, Math.Abs(told)),
            $"{what}: {told} and {shown}"
        );
}
