namespace Broodtide.Browser.Tests;

/// <summary>The store through its script module, on rows packed here by the same hand-written layout.</summary>
[Collection(LookingBrowser.Name)]
public sealed class StoreTests(Browsing browsing)
{
    // Rows of three entries: digest, replica, seq, acknowledged, and three parts with their lengths.
    private const string PackRows = """
        (numbers, mark) => {
          const parts = [];
          const int = n => { const b = new Uint8Array(4); new DataView(b.buffer).setUint32(0, n, true); return b; };
          for (const n of numbers) {
            const seq = new Uint8Array(8); new DataView(seq.buffer).setFloat64(0, n, true);
            const body = new TextEncoder().encode(mark + n);
            parts.push(new Uint8Array(32).fill(n), new Uint8Array(16).fill(9), seq, new Uint8Array([0]),
              int(3), new Uint8Array([1, 2, n]), int(16), new Uint8Array(16).fill(7), int(body.length), body);
          }
          const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
          let at = 0;
          for (const part of parts) { all.set(part, at); at += part.length; }
          return all;
        }
        """;

    [Fact]
    public async Task An_acknowledged_append_is_there_after_a_reload_byte_for_byte()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Module<object?>("it.openStore()");

        var added = await opened.Module<int>($"it.append(({PackRows})([1, 2, 3], 'body '))");
        await opened.Page.ReloadAsync();
        await opened.Page.Locator("nav.places").WaitForAsync();
        await opened.Module<object?>("it.openStore()");
        var read = await opened.Module<int[]>("Array.from(await it.readAll())");

        Assert.Equal(3, added);
        var written = await opened.Module<int[]>($"Array.from(({PackRows})([1, 2, 3], 'body '))");
        // What the app has fetched or foretold by itself since may follow them.
        Assert.Equal(written, read.Take(written.Length));
    }

    [Fact]
    public async Task A_row_that_is_there_already_stays_as_it_is_and_the_others_are_added()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Module<object?>("it.openStore()");

        await opened.Module<int>($"it.append(({PackRows})([1], 'first '))");
        var added = await opened.Module<int>($"it.append(({PackRows})([1, 2], 'second '))");

        Assert.Equal(1, added);
        Assert.Contains("first 1", await Text(opened), StringComparison.Ordinal);
        Assert.DoesNotContain("second 1", await Text(opened), StringComparison.Ordinal);
        Assert.Contains("second 2", await Text(opened), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_wait_until_they_are_acknowledged_and_an_erased_one_keeps_its_envelope_alone()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Module<object?>("it.openStore()");
        await opened.Module<int>($"it.append(({PackRows})([1, 2, 3], 'body '))");

        await opened.Module<object?>(
            "it.acknowledge(new Uint8Array([...Array(32).fill(1), ...Array(32).fill(2)]))"
        );
        await opened.Module<object?>("it.erase(new Uint8Array(32).fill(3))");

        Assert.Equal(1, await opened.Module<int>("it.countWaiting()"));
        var text = await Text(opened);
        Assert.Contains("body 2", text, StringComparison.Ordinal);
        Assert.DoesNotContain("body 3", text, StringComparison.Ordinal);
        // Digest, replica, seq, mark, three lengths and the envelope of three bytes.
        Assert.Equal(32 + 16 + 8 + 1 + 12 + 3, await opened.Module<int>("(await it.readWaiting()).length"));
        Assert.Equal(
            2,
            await opened.Module<int>(
                "(await it.readAfter(new Uint8Array(16).fill(9), 1)).filter((b, i, all) => b === 9 && all[i + 1] === 9 && all[i - 1] !== 9).length"
            )
        );
    }

    [Fact]
    public async Task Reading_in_batches_loses_no_row()
    {
        await using var phone = await browsing.NewPhone();
        // A server of its own: what others wrote would come in between the rows.
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address);
        await opened.Module<object?>("it.openStore()");

        var length = await opened.Page.EvaluateAsync<int>(
            """
            async () => {
              const it = await import('/js/broodtide.js');
              const row = 32 + 16 + 8 + 1 + 12, count = 4321;
              const all = new Uint8Array(row * count), view = new DataView(all.buffer);
              for (let n = 0; n < count; n++) { view.setUint32(n * row, n * 7919); view.setFloat64(n * row + 48, n + 1, true); }
              await it.append(all);
              const seen = new Set(), read = await it.readAll(), back = new DataView(read.buffer);
              for (let at = 0; at < read.length; at += row) seen.add(back.getFloat64(at + 48, true));
              return seen.size;
            }
            """
        );

        Assert.Equal(4321, length);
    }

    [Fact]
    public async Task Checkpoints_and_facts_come_back_and_checkpoints_can_be_thrown_away()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Module<object?>("it.openStore()");
        await opened.Module<object?>("it.putCheckpoint('ledger', new Uint8Array([1, 2]))");
        await opened.Module<object?>("it.putFact('of a test', new Uint8Array([3]))");

        int[] kept = [1, 2];
        Assert.Equal(kept, await opened.Module<int[]>("Array.from(await it.getCheckpoint('ledger'))"));
        await opened.Module<object?>("(await it.clearCheckpoints(), null)");
        Assert.True(await opened.Module<bool>("(await it.getCheckpoint('ledger')) === null"));
        int[] fact = [3];
        Assert.Equal(fact, await opened.Module<int[]>("Array.from(await it.getFact('of a test'))"));
    }

    [Fact]
    public async Task Of_two_tabs_only_one_holds_the_pen_and_the_other_hears_of_what_was_written()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var first = await Opened.At(phone, server.Address);
        var second = await Opened.At(phone, server.Address);
        await second.Module<object?>("it.openStore()");
        await first.Module<object?>("it.openStore()");
        await second.Module<object?>("(window.heard = 0, it.whenOthersWrite(() => window.heard++), null)");

        await first.Module<object?>("it.takePen()");
        await second.Module<object?>("(it.takePen().then(() => { window.held = true; }), null)");
        await first.Module<int>($"it.append(({PackRows})([1], 'body '))");
        await second.Page.WaitForFunctionAsync("() => window.heard === 1");
        Assert.False(await second.Page.EvaluateAsync<bool>("() => !!window.held"));

        await first.Module<object?>("(it.putPenDown(), null)");
        await second.Page.WaitForFunctionAsync("() => window.held === true");
    }

    private static Task<string> Text(Opened opened) =>
        opened.Module<string>("new TextDecoder('latin1').decode(await it.readAll())");
}
