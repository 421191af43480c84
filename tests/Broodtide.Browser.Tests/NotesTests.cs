using System.Text;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(WritingBrowser.Name)]
public sealed class NotesTests(Browsing browsing)
{
    [Fact]
    public async Task A_table_is_asked_about_shown_as_what_it_becomes_and_written_whole_without_a_network()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/notes/take");
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await phone.SetOfflineAsync(true);
        await opened
            .Page.Locator("input[type=file]")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "old.csv",
                    MimeType = "text/csv",
                    Buffer = Encoding.UTF8.GetBytes(
                        "Datum;Temp\n24.5.25 18:00;24,5\n25.5.25 18:00;76 F\n26.5.25 18:00;24,7 °C\n"
                    ),
                }
            );
        var show = opened.Page.GetByRole(AriaRole.Button, new() { Name = "Show what it becomes" });
        await show.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("It is not guessed.")).ToBeVisibleAsync();
        await Choose(opened, "Datum", "date, perhaps with time");
        await Choose(opened, "Temp", "a reading");
        await Choose(opened, "Unit of Temp", "Cel");
        await Choose(opened, "Order of the date", "day, month, year");
        await Choose(opened, "Years of two figures", "2000 to 2099");
        await Choose(opened, "Before the fraction", "a comma");
        await Choose(opened, "Vessel of all rows", "River tank");
        await show.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("76 F names another unit than °C")).ToBeVisibleAsync();
        await Assertions
            .Expect(opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write 2 entries" }))
            .ToHaveCountAsync(0);
        await opened.Page.GetByLabel("Leave out rows that cannot be read").CheckAsync();
        await show.ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write 2 entries" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("2 entries written.")).ToBeVisibleAsync();
        // What is written looks for the server, which is not there.
        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    private static Task Choose(Opened opened, string field, string option) =>
        opened
            .Page.Locator($".field:has(span.name:text-is(\"{field}\")) select")
            .SelectOptionAsync(new SelectOptionValue { Label = option });
}
