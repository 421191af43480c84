using Microsoft.Playwright;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Broodtide.Browser.Tests;

/// <summary>The bench sheet as Chromium prints it, read back by PdfPig, and typed in.</summary>
[Collection(WritingBrowser.Name)]
public sealed class SheetTests(Browsing browsing)
{
    // ISO 216 and ANSI Y14.1, in points of 1/72 inch.
    [Theory]
    [InlineData("A4", 595.3, 841.9)]
    [InlineData("Letter", 612.0, 792.0)]
    public async Task A_sheet_is_a_front_and_its_back_with_every_step_whole_on_the_paper(
        string paper,
        double widthPoints,
        double heightPoints
    )
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone(ColorScheme.Dark);
        var opened = await Opened.At(phone, server.Address + "/sheet");
        await opened.Rest();
        await opened.Page.GetByRole(AriaRole.Radio, new() { Name = paper }).CheckAsync();
        var steps = await opened.Page.Locator("[data-step] .what > b").AllInnerTextsAsync();
        var expected = await opened.Page.Locator(".row.expected b").AllInnerTextsAsync();
        using var pdf = PdfDocument.Open(await opened.Page.PdfAsync(new() { PreferCSSPageSize = true }));

        // A very full day runs over to a second front page; the back is always a page of its own.
        Assert.InRange(pdf.NumberOfPages, 2, steps.Count > 14 ? 3 : 2);
        Assert.NotEmpty(steps);
        Assert.NotEmpty(expected);
        foreach (var page in pdf.GetPages())
        {
            Assert.Equal(widthPoints, page.Width, 1.0);
            Assert.Equal(heightPoints, page.Height, 1.0);
            // Nothing is cut off: every letter lies within the margins, and there is no colour but black and grey.
            Assert.All(
                page.Letters,
                letter =>
                {
                    Assert.InRange(letter.BoundingBox.Left, 30, widthPoints - 30);
                    Assert.InRange(letter.BoundingBox.Right, 30, widthPoints - 30);
                    Assert.InRange(letter.BoundingBox.Bottom, 25, heightPoints - 25);
                }
            );
            Assert.All(
                page.Letters,
                letter =>
                {
                    var (r, g, b) = letter.Color.ToRGBValues();
                    Assert.True(r < 0.5 && r == g && g == b, $"{letter.Value}: {r} {g} {b}");
                }
            );
        }

        var front = string.Concat(pdf.GetPages().SkipLast(1).Select(Squeezed));
        var back = Squeezed(pdf.GetPages().Last());
        Assert.All(steps, step => Assert.Contains(Squeezed(step), front, StringComparison.Ordinal));
        Assert.All(
            expected,
            value =>
            {
                Assert.Contains(Squeezed(value), back, StringComparison.Ordinal);
                // What was last known may stand in a reason; what is foretold of a reading may not.
                if (value.Contains('(', StringComparison.Ordinal))
                {
                    Assert.DoesNotContain(Squeezed(value), front, StringComparison.Ordinal);
                }
            }
        );
        Assert.Contains(Squeezed("Mains and salt water."), front, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sheet_is_typed_in_its_own_order_all_at_once_or_nothing()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address + "/sheet");
        await opened.Rest();
        var printed = await opened.Page.Locator("[data-step] .what > b").AllInnerTextsAsync();
        await opened.GoTo("/sheet/write");
        var lines = opened.Page.Locator(".sheet-line");
        await lines.First.WaitForAsync();
        var legends = await opened.Page.Locator(".sheet-line > legend").AllInnerTextsAsync();
        // A line of the form may begin with its time.
        Assert.Equal(printed.Count, legends.Count - 1);
        Assert.All(
            printed.Zip(legends),
            line => Assert.EndsWith(Squeezed(line.First), Squeezed(line.Second), StringComparison.Ordinal)
        );

        var before = await Entries(opened);
        var salinity = lines.Filter(new() { HasText = "Read the salinity" });
        var temperature = lines.Filter(new() { HasText = "Read the temperature" });
        await salinity.GetByRole(AriaRole.Textbox, new() { Name = "Value", Exact = true }).FillAsync("33");
        await temperature
            .GetByRole(AriaRole.Textbox, new() { Name = "Value", Exact = true })
            .FillAsync("warm");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write the sheet" }).ClickAsync();
        await Assertions.Expect(temperature.Locator(".wrong")).ToBeVisibleAsync();
        await Assertions.Expect(salinity.Locator(".wrong")).ToHaveCountAsync(0);
        Assert.Equal(before, await Entries(opened));

        await temperature
            .GetByRole(AriaRole.Textbox, new() { Name = "Value", Exact = true })
            .FillAsync("24.5");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write the sheet" }).ClickAsync();
        // Two readings, and two actions that are done; every other line is blank and skipped.
        await Assertions.Expect(opened.Page.GetByText("Written: 4 entries")).ToBeVisibleAsync();
        Assert.Equal(before + 4, await Entries(opened));
    }

    private static Task<int> Entries(Opened opened) =>
        opened.Page.EvaluateAsync<int>(
            """
            () => new Promise(done => {
              const open = indexedDB.open('broodtide');
              open.onsuccess = () => {
                const count = open.result.transaction('entries').objectStore('entries').count();
                count.onsuccess = () => { open.result.close(); done(count.result); };
              };
            })
            """
        );

    // Spaces are drawn by distance, so they are not compared.
    private static string Squeezed(Page page) =>
        Squeezed(string.Concat(page.Letters.Select(letter => letter.Value)));

    private static string Squeezed(string text) =>
        string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));
}
