using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(WritingBrowser.Name)]
public sealed partial class DossierTests(Browsing browsing)
{
    [Fact]
    public async Task A_page_from_a_file_without_a_network_computes_the_numbers_of_the_command_line_again()
    {
        var folder = Directory.CreateTempSubdirectory("broodtide-dossier-").FullName;
        try
        {
            var page = await MadeAsync(folder);
            Assert.Equal("same", await ReplayedAsync(page));

            // A number that somebody made better than it was.
            var text = await File.ReadAllTextAsync(page, TestContext.Current.CancellationToken);
            var changed = Path.Combine(folder, "changed.html");
            await File.WriteAllTextAsync(
                changed,
                Numbers()
                    .Replace(
                        text,
                        found =>
                        {
                            var table = System.Text.Encoding.UTF8.GetString(
                                Convert.FromBase64String(found.Groups[2].Value)
                            );
                            var row = table.IndexOf(",alive,", StringComparison.Ordinal);
                            var at = table.IndexOf(",1,false", row, StringComparison.Ordinal);
                            var better = table.Insert(at, "9");
                            return found.Groups[1].Value
                                + Convert.ToBase64String(System.Text.Encoding.UTF8.GetBytes(better))
                                + found.Groups[3].Value;
                        }
                    ),
                TestContext.Current.CancellationToken
            );
            Assert.Equal("other", await ReplayedAsync(changed));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task A_run_goes_out_on_one_phone_and_comes_in_on_another_apart_from_its_journal()
    {
        await using var server = await RunningServer.Start("--demo");
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.GoTo("/run");
        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "Dossier" }).ClickAsync();
        await opened.Page.GetByLabel("ORCID of the author").FillAsync("0000-0002-1825-0097");
        var save = opened.Page.GetByRole(AriaRole.Button, new() { Name = "Save the data package" });
        await save.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("An ORCID names its author")).ToBeVisibleAsync();
        await opened.Page.GetByLabel("Author", new() { Exact = true }).FillAsync("Josiah Carberry");
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await phone.SetOfflineAsync(true);
        var download = await opened.Page.RunAndWaitForDownloadAsync(
            () => save.ClickAsync(),
            new() { Timeout = 120_000 }
        );
        Assert.EndsWith(".zip", download.SuggestedFilename, StringComparison.Ordinal);
        var file = await download.PathAsync();
        await Assertions.Expect(opened.Page.GetByText("No licence was chosen")).ToBeVisibleAsync();

        await opened.GoTo("/dossiers");
        var chosen = opened.Page.Locator("input[type=file]");
        await chosen.SetInputFilesAsync(
            new FilePayload
            {
                Name = "d.zip",
                MimeType = "application/zip",
                Buffer = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken),
            }
        );
        await Assertions.Expect(opened.Page.GetByText("Taken in: A run of")).ToBeVisibleAsync();
        await Assertions.Expect(opened.Page.GetByText("by Josiah Carberry")).ToBeVisibleAsync();
        await Assertions.Expect(opened.Page.GetByText(ImportedToday())).ToBeVisibleAsync();
        var bad = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
        await chosen.SetInputFilesAsync(
            new FilePayload
            {
                Name = "half.zip",
                MimeType = "application/zip",
                Buffer = bad[..(bad.Length / 2)],
            }
        );
        await Assertions.Expect(opened.Page.GetByText("Refused: it is no zip")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Remove" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("None was taken in.")).ToBeVisibleAsync();
        // On a slow machine the phone looks for the server meanwhile, which is not there.
        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    private static async Task<string> MadeAsync(string folder)
    {
        var journal = Path.Combine(folder, "demo.broodtide");
        var page = Path.Combine(folder, "run.html");
        await CommandLine.Run("demo", journal);
        await CommandLine.Run(
            "dossier",
            "Brood 2",
            "--to",
            page,
            "--with-engine",
            await PublishedSite.GetFolder(),
            "--journal",
            journal
        );
        return page;
    }

    // A profile of its own, which has never seen the app, and no network.
    private async Task<string> ReplayedAsync(string file)
    {
        await using var fresh = await browsing.NewPhone();
        await fresh.SetOfflineAsync(true);
        var page = await fresh.NewPageAsync();
        var asked = new List<string>();
        page.Request += (_, request) =>
        {
            if (
                !request.Url.StartsWith("blob:", StringComparison.Ordinal)
                && !request.Url.StartsWith("data:", StringComparison.Ordinal)
            )
            {
                asked.Add(request.Url);
            }
        };
        await page.GotoAsync(new Uri(file).AbsoluteUri);
        // The page's policy allows no script but its own, so it is asked for what stands in it.
        var root = page.Locator("html[data-replay]");
        await root.WaitForAsync(new() { State = WaitForSelectorState.Attached, Timeout = 120_000 });
        var said = await root.GetAttributeAsync("data-replay");
        if (said == "same")
        {
            Assert.True(Number(await root.GetAttributeAsync("data-numbers")) > 1000);
            Assert.True(Number(await root.GetAttributeAsync("data-worst")) <= 1e-9);
        }

        // The page itself and nothing else.
        Assert.All(asked, address => Assert.StartsWith("file:", address, StringComparison.Ordinal));
        Assert.Single(asked);
        return said!;
    }

    private static double Number(string? text) => double.Parse(text!, CultureInfo.InvariantCulture);

    [GeneratedRegex("""(data-name="estimates.csv">)([^<]*)(<)""")]
    private static partial Regex Numbers();

    [GeneratedRegex("^imported ")]
    private static partial Regex ImportedToday();
}
