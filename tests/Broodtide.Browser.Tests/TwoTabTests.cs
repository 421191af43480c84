using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Two tabs of one phone, each writing as fast as it can.</summary>
[Collection(QuietBrowser.Name)]
public sealed class TwoTabTests(Browsing browsing)
{
    private const int Each = 50;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Two_tabs_that_write_at_once_share_one_numbering_without_a_gap_and_with_a_whole_chain(
        bool hasLocks
    )
    {
        await using var phone = await browsing.NewPhone();
        if (!hasLocks)
        {
            await phone.AddInitScriptAsync(
                "Object.defineProperty(navigator, 'locks', { value: undefined });"
            );
        }

        await using var server = await RunningServer.Start();
        var first = await Opened.At(phone, server.Address + "/write/set-up");
        await Jar(first);
        await first.GoTo("/write?measure=temperature");
        await first.Page.Locator(".scale button").First.WaitForAsync();
        var second = await Opened.At(phone, server.Address + "/write?measure=temperature");
        await second.Page.Locator(".scale button").First.WaitForAsync();
        Assert.Equal(hasLocks, await second.Page.EvaluateAsync<bool>("() => !!navigator.locks"));

        await Task.WhenAll(Write(first), Write(second));

        var rows = RowPacking.Unpack([
            .. (await first.Module<int[]>("Array.from(await it.readAll())")).Select(number => (byte)number),
        ]);
        var entries = rows.Select(row =>
                Entry.Read(new EntryBytes(row.Envelope, (byte[])[.. row.Salt, .. row.Body])).Value
            )
            .OrderBy(entry => entry.Envelope.Sequence)
            .ToList();
        Assert.Single(entries.Select(entry => entry.Envelope.Replica).Distinct());
        Assert.True(entries.Count >= (2 * Each) + 1, $"{entries.Count} entries");
        Assert.Equal(
            Enumerable.Range(1, entries.Count).Select(number => (long)number),
            entries.Select(entry => entry.Envelope.Sequence)
        );
        Assert.Equal(
            entries.SkipLast(1).Select(entry => (Digest?)entry.Digest),
            entries.Skip(1).Select(entry => entry.Envelope.Previous)
        );
    }

    // A tap writes; the answer tells of another value than the one before. Only one of the two tabs is in front: the
    // other paints once a second or not at all, so neither the tap nor the look may wait for a frame.
    private static async Task Write(Opened opened)
    {
        for (var entry = 0; entry < Each; entry++)
        {
            var before = await Written(opened);
            await opened.Page.Locator(".scale button").Nth(entry % 3).DispatchEventAsync("click");
            await opened.Page.WaitForFunctionAsync(
                "before => (document.querySelector('.fix .saved')?.textContent ?? '') !== before",
                before,
                new() { PollingInterval = 20 }
            );
        }
    }

    private static Task<string> Written(Opened opened) =>
        opened.Page.EvaluateAsync<string>("() => document.querySelector('.fix .saved')?.textContent ?? ''");

    private static async Task Jar(Opened opened)
    {
        await opened
            .Page.GetByLabel("Name", new() { Exact = true })
            .And(opened.Page.Locator("input"))
            .FillAsync("Jar T");
        await opened.Page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
    }
}
