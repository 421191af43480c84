using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Writing and correcting, on a phone that holds the invented house.</summary>
[Collection(WritingBrowser.Name)]
public sealed partial class WritingTests(Browsing browsing)
{
    // Milliseconds; a build machine reads a file in far slower than a phone.
    private const float ReadingIn = 60_000;

    [Fact]
    public async Task Two_taps_write_a_salinity_reading_and_the_answer_comes_after_the_tap()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);

        await opened.Page.Locator(".places .write a").TapAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Salinity, Jar A");
        // Nothing is chosen and nothing expected is shown before the tap.
        await Assertions.Expect(opened.Page.Locator(".scale [aria-current]")).ToHaveCountAsync(0);
        await Assertions.Expect(opened.Page.Locator(".saved")).ToHaveCountAsync(0);
        await Value(opened, "33").TapAsync();

        var saved = opened.Page.Locator(".saved");
        await Assertions
            .Expect(saved)
            .ToContainTextAsync("Salinity, Jar A: 33 on Hand refractometer, brine scale");
        await Assertions.Expect(saved).ToContainTextAsync(Means());
        await Assertions.Expect(saved).ToContainTextAsync("The ledger expected");
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task A_reading_survives_a_reload_and_a_server_that_is_gone_and_waits_in_the_journal()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await server.Stop();
        await opened.GoTo("/write");
        await Value(opened, "32.5").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();

        await opened.Page.GotoAsync(server.Address + "/journal");

        await Assertions
            .Expect(Entry(opened, "Salinity, Jar A: 32.5 on Hand refractometer"))
            .ToContainTextAsync("waiting");
        await Assertions.Expect(opened.Page.Locator(".waiting")).ToContainTextAsync("safe on this phone");
    }

    [Fact]
    public async Task Undo_takes_the_entry_back_and_leaves_it_readable()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await opened.GoTo("/write");
        await Value(opened, "31").ClickAsync();

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();

        await Assertions.Expect(opened.Page.Locator(".saved")).ToContainTextAsync("Taken back.");
        await opened.GoTo("/journal");
        var entry = Entry(opened, "Salinity, Jar A: 31 on");
        await Assertions.Expect(entry.Locator("s")).ToContainTextAsync("31 on Hand refractometer");
        await Assertions.Expect(entry).ToContainTextAsync("Taken back");
    }

    [Fact]
    public async Task A_correction_is_the_same_form_with_the_entry_s_own_words_and_ties_old_to_new()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await Write(opened, "dead", ("How many", "7"));
        await opened.GoTo("/journal");
        await Entry(opened, "Dead removed from Jar A: 7").Locator("a").ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Dead removed from Jar A");

        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "Correct" }).ClickAsync();
        var field = opened.Page.GetByLabel("How many");
        await Assertions.Expect(field).ToHaveValueAsync("7");
        await field.FillAsync("9");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write the correction" }).ClickAsync();

        var entry = opened.Page.Locator("article.story");
        await Assertions.Expect(entry.Locator("s")).ToHaveTextAsync("Dead removed from Jar A: 7");
        await Assertions.Expect(entry.Locator(".said.new")).ToHaveTextAsync("Dead removed from Jar A: 9");
        await Assertions.Expect(entry).ToContainTextAsync("corrected");
    }

    [Fact]
    public async Task What_is_no_number_stays_in_its_field_and_nothing_is_written()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await opened.GoTo("/write");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Another value" }).ClickAsync();
        await opened.Page.Locator("#another").FillAsync("about thirty");
        await opened.Page.Keyboard.PressAsync("Enter");

        await Assertions.Expect(opened.Page.Locator(".wrong")).ToContainTextAsync("Not a number");
        await Assertions.Expect(opened.Page.Locator("#another")).ToHaveValueAsync("about thirty");
        await Assertions.Expect(opened.Page.Locator(".saved")).ToHaveCountAsync(0);

        // A comma is as good as a point, and Enter as good as the key.
        await opened.Page.Locator("#another").FillAsync("33,7");
        await opened.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(opened.Page.Locator(".saved")).ToContainTextAsync("Salinity, Jar A: 33,7 on");
    }

    [Fact]
    public async Task The_improbable_is_asked_back_once_with_the_likelier_meaning_and_as_typed()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await Write(opened, "temperature", ("Value", "76"));

        var asked = opened.Page.Locator(".asked");
        await Assertions.Expect(asked).ToContainTextAsync("It looks like °F");
        await Assertions
            .Expect(asked.GetByRole(AriaRole.Button, new() { Name = "As typed" }))
            .ToBeVisibleAsync();
        await asked.GetByRole(AriaRole.Button, new() { Name = "It was 76 °F" }).ClickAsync();

        await Assertions.Expect(opened.Page.Locator(".saved")).ToContainTextAsync("Temperature, Jar A: 76");
        await Assertions.Expect(opened.Page.Locator(".saved")).ToContainTextAsync("°F");
    }

    [Fact]
    public async Task A_copy_read_in_twice_adds_nothing_and_a_torn_one_is_refused_whole()
    {
        await using var phone = await browsing.NewPhone();
        await using var other = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        await using var empty = await RunningServer.Start();
        var opened = await WithTheDemo(phone, server);
        var download = await opened.Page.RunAndWaitForDownloadAsync(() =>
            opened.Page.GetByRole(AriaRole.Button, new() { Name = "Save a copy" }).ClickAsync()
        );
        var whole = Path.GetTempFileName();
        await download.SaveAsAsync(whole);
        var torn = Path.GetTempFileName();
        var lines = await File.ReadAllLinesAsync(whole, TestContext.Current.CancellationToken);
        await File.WriteAllLinesAsync(torn, lines[..^3], TestContext.Current.CancellationToken);

        var fresh = await Opened.At(other, empty.Address + "/journal");
        await fresh.Page.Locator("input[type=file]").SetInputFilesAsync(torn);
        await Assertions.Expect(fresh.Page.Locator(".mind")).ToContainTextAsync("ends too early");
        await Assertions.Expect(fresh.Page.Locator("article.story")).ToHaveCountAsync(0);
        await fresh.Page.Locator("input[type=file]").SetInputFilesAsync(whole);
        await Assertions
            .Expect(
                fresh.Page.GetByText(
                    Invariant($"Read in: {lines.Length - 2} entries, {lines.Length - 2} new.")
                )
            )
            .ToBeVisibleAsync(new() { Timeout = ReadingIn });
        // A browser tells of another file only.
        var again = whole + ".jsonl";
        File.Copy(whole, again);
        await fresh.Page.Locator("input[type=file]").SetInputFilesAsync(again);
        await Assertions
            .Expect(fresh.Page.GetByText(Invariant($"Read in: {lines.Length - 2} entries, 0 new.")))
            .ToBeVisibleAsync(new() { Timeout = ReadingIn });
        File.Delete(whole);
        File.Delete(again);
        File.Delete(torn);
    }

    [Fact]
    public async Task Erasing_is_asked_twice_and_leaves_that_it_was_erased()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await Write(opened, "note", ("Note", "a word too many"));
        await opened.GoTo("/journal");
        await Entry(opened, "a word too many").Locator("a").ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Erase" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("from every device that meets it")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Yes, erase" }).ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Erase everywhere" }).ClickAsync();

        await Assertions.Expect(opened.Page.Locator("article.story")).ToContainTextAsync("Erased: a note");
        await opened.Page.ReloadAsync();
        await opened.Page.Locator("article.story").WaitForAsync();
        await Assertions.Expect(opened.Page.Locator("article.story")).ToContainTextAsync("Erased: a note");
        await Assertions.Expect(opened.Page.GetByText("a word too many")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Every_form_opens_and_asks_for_what_it_needs_before_it_writes()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await WithTheDemo(phone, server);
        await opened.GoTo("/write");
        var forms = await opened
            .Page.Locator(".other a")
            .EvaluateAllAsync<string[]>("links => links.map(it => new URL(it.href).pathname)");
        Assert.Equal(forms.Length, forms.Distinct(StringComparer.Ordinal).Count());

        foreach (var form in forms)
        {
            await opened.GoTo(form);
            await Assertions
                .Expect(opened.Page.Locator("form.writing button[type=submit]"))
                .ToBeVisibleAsync();
            // No word of a code stands where a sentence should.
            Assert.DoesNotMatch(Code(), await opened.Page.Locator("main").InnerTextAsync());
        }

        await opened.GoTo("/write/acquired");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".wrong")).ToContainTextAsync("Name is needed.");
        Assert.Empty(opened.Complaints);
    }

    private static async Task<Opened> WithTheDemo(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/journal");
        await opened.Page.Locator("article.story").First.WaitForAsync();
        return opened;
    }

    private static async Task Write(Opened opened, string form, params (string Label, string Text)[] fields)
    {
        await opened.GoTo("/write/" + form);
        foreach (var (label, text) in fields)
        {
            await opened
                .Page.GetByLabel(label, new() { Exact = true })
                .And(opened.Page.Locator("input, textarea"))
                .FillAsync(text);
        }

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await opened.Page.Locator(".saved, .asked").WaitForAsync();
    }

    private static ILocator Value(Opened opened, string value) =>
        opened
            .Page.Locator(".scale button")
            .Filter(new() { Has = opened.Page.GetByText(value, new() { Exact = true }) });

    private static ILocator Entry(Opened opened, string text) =>
        opened.Page.Locator("article.story").Filter(new() { HasText = text }).First;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    [GeneratedRegex("""Means \d+\.\d \(\d+\.\d–\d+\.\d\) ppt""", RegexOptions.None, 1000)]
    private static partial Regex Means();

    [GeneratedRegex(
        """\b(?:form|field|is|u|scale|care|answer|said|told|choose|group|when|remark)\.[a-z]""",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex Code();
}
