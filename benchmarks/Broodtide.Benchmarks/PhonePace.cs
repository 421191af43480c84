using System.Diagnostics;
using System.Globalization;
using Broodtide.Domain.Journal;
using Microsoft.Playwright;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// The published app in a real browser, with a journal of ten years in its store and no network: how long it takes to
/// open, and from a tap to the painted answer. Times are taken in the page: a tap from the browser's own stamp of the
/// finger, an answer when the frame that shows it has been handed over.
/// </summary>
internal static class PhonePace
{
    private static readonly string[] Switches =
    [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ];

    private const int RowsAtOnce = 2000;
    private const int Patience = 600_000;

    // What is in the page, and when: an entry for each first sight of a selector, then one for each tap.
    private const string Watcher = """
        (() => {
          const seen = {};
          const wanted = {
            app: 'main.page h1, main.counting', due: '.act.first, .empty .key', scale: '.scale button',
            kept: '[data-kept]', settled: 'main[data-settled=true]' };
          const look = () => {
            for (const [name, selector] of Object.entries(wanted))
              if (seen[name] === undefined && document.querySelector(selector)) {
                seen[name] = -1;
                requestAnimationFrame(() => {
                  const line = new MessageChannel();
                  line.port1.onmessage = () => { seen[name] = performance.now(); };
                  line.port2.postMessage(0);
                });
              }
          };
          let tapped, answer, until;
          const check = () => {
            look();
            if (until && tapped !== undefined && until()) {
              until = undefined;
              requestAnimationFrame(() => {
                const line = new MessageChannel();
                line.port1.onmessage = () => { answer(performance.now() - tapped); };
                line.port2.postMessage(0);
              });
            }
          };
          new MutationObserver(check).observe(document, { childList: true, subtree: true, attributes: true, characterData: true });
          addEventListener('pointerup', event => { tapped ??= event.timeStamp; }, { capture: true });
          const slow = [];
          new PerformanceObserver(list => { for (const task of list.getEntries()) slow.push([task.startTime, task.duration]); }).observe({ type: 'longtask', buffered: true });
          globalThis.pace = {
            seen,
            expect(selector, text) {
              const before = document.querySelector(selector)?.textContent;
              tapped = undefined;
              this.answered = new Promise(done => { answer = done; });
              until = () => { const now = document.querySelector(selector)?.textContent; return now !== undefined && now !== before; };
            },
            long(since) { return slow.filter(([start]) => start >= since).length; },
            longest(since) { return Math.max(0, ...slow.filter(([start]) => start >= since).map(([, took]) => took)); },
          };
        })();
        """;

    /// <summary>Measures the app of a published server.</summary>
    public static async Task RunAsync(string site, int count, int runs)
    {
        Console.WriteLine(Machine.Describe());
        var entries = TenYears.Entries(count, SystemClock.Instance.GetCurrentInstant());
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"journal: {entries.Count} entries, {entries.Sum(entry => (long)entry.Bytes.Envelope.Length + entry.Bytes.SaltedBody.Length) / 1e6:F1} MB"
            )
        );
        var data = Directory.CreateTempSubdirectory("broodtide-pace-");
        using var server = Start(site, data.FullName, out var address);
        try
        {
            using var playwright = await Playwright.CreateAsync();
            await using var browser = await playwright.Chromium.LaunchAsync(
                new()
                {
                    ExecutablePath =
                        Environment.GetEnvironmentVariable("BROODTIDE_CHROMIUM") ?? "/usr/bin/chromium",
                    Args = Switches,
                }
            );
            await MeasureAsync(browser, address, entries, runs);
        }
        finally
        {
            if (!server.HasExited)
            {
                server.Kill();
            }

            await server.WaitForExitAsync();
            data.Delete(recursive: true);
        }
    }

    private static async Task MeasureAsync(
        IBrowser browser,
        string address,
        IReadOnlyList<Entry> entries,
        int runs
    )
    {
        await using var phone = await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = 390, Height = 844 },
                HasTouch = true,
                TimezoneId = "Europe/Berlin",
                Locale = "en-GB",
            }
        );
        phone.SetDefaultTimeout(Patience);
        await phone.AddInitScriptAsync(Watcher);
        var page = await phone.NewPageAsync();
        await page.GotoAsync(address);
        await SettledAsync(page);
        await page.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => true)");
        await page.WaitForFunctionAsync("() => navigator.serviceWorker.controller !== null");
        await page.EvaluateAsync("() => localStorage.setItem('broodtide.who', 'Ada')");
        await FillAsync(page, entries);
        await phone.SetOfflineAsync(true);
        var protocol = await phone.NewCDPSessionAsync(page);
        foreach (var slowed in new[] { 1, 4 })
        {
            await protocol.SendAsync(
                "Emulation.setCPUThrottlingRate",
                new Dictionary<string, object> { ["rate"] = slowed }
            );
            var few = slowed == 1 ? runs : Math.Max(3, runs / 2);
            await OpeningsAsync(page, slowed, few);
            await ReadingsAsync(page, slowed, few);
            await TapsAsync(page, slowed, runs);
            await DueAsync(page, slowed, few);
            await PhoneBench.RunAsync(page, slowed);
        }
    }

    private static async Task OpeningsAsync(IPage page, int slowed, int runs)
    {
        var names = new[] { "app", "kept", "due", "settled" };
        var took = names.ToDictionary(name => name, _ => new List<double>());
        for (var run = 0; run < runs; run++)
        {
            await page.ReloadAsync(new() { WaitUntil = WaitUntilState.Commit });
            await SettledAsync(page);
            foreach (var name in names)
            {
                var at = await page.EvaluateAsync<double?>(
                    "name => globalThis.pace.seen[name] ?? null",
                    name
                );
                if (at is > 0)
                {
                    took[name].Add(at.Value);
                }
            }
        }

        Print(slowed, "reload offline: the app's first page drawn", took["app"]);
        Print(slowed, "reload offline: the last state shown", took["kept"]);
        Print(slowed, "reload offline: what is due, worked out", took["due"]);
        Print(slowed, "reload offline: all worked out", took["settled"]);
    }

    private static async Task ReadingsAsync(IPage page, int slowed, int runs)
    {
        await page.Locator("nav.places a[href='write']").TapAsync();
        await page.Locator(".scale button").First.WaitForAsync();
        await SettledAsync(page);
        var (answers, wholes, longest) = (new List<double>(), new List<double>(), new List<double>());
        for (var run = 0; run < runs; run++)
        {
            var since = await page.EvaluateAsync<double>("() => performance.now()");
            await page.EvaluateAsync("() => globalThis.pace.expect('.fix .saved b')");
            await page.Locator($".scale button >> nth={4 + (run % 4)}").TapAsync();
            answers.Add(await AnswerAsync(page));
            var watch = Stopwatch.StartNew();
            await SettledAsync(page);
            wholes.Add(answers[^1] + watch.ElapsedMilliseconds);
            longest.Add(await page.EvaluateAsync<double>("since => globalThis.pace.longest(since)", since));
        }

        Print(slowed, "reading saved and shown", answers);
        Print(slowed, "reading: until all is worked out", wholes);
        Print(slowed, "reading: longest time the page was held", longest);
    }

    private static async Task TapsAsync(IPage page, int slowed, int runs)
    {
        await page.EvaluateAsync(
            "() => { history.pushState(null, '', 'count'); dispatchEvent(new PopStateEvent('popstate')); }"
        );
        await page.Locator(".hands .key").Last.WaitForAsync();
        var volume = page.Locator(".ask input");
        if (await volume.CountAsync() > 0)
        {
            await volume.First.FillAsync("250");
            await volume.First.BlurAsync();
        }

        await page.Locator(".hands .key").Last.TapAsync();
        await page.Locator("button.tap").WaitForAsync();
        var answers = new List<double>();
        for (var run = 0; run < 3 * runs; run++)
        {
            await page.EvaluateAsync("() => globalThis.pace.expect('button.tap b')");
            await page.Locator("button.tap").TapAsync();
            answers.Add(await AnswerAsync(page));
        }

        Print(slowed, "count: a larva tapped and shown", answers);
        await page.Locator("header.bench-top button").TapAsync();
        await page.Locator("main.page .hands .key").Last.WaitForAsync();
        await page.EvaluateAsync("() => globalThis.pace.expect('main.page .saved, main.page .written')");
        await page.Locator(".hands .key").Last.TapAsync();
        Print(slowed, "count: written and shown", [await AnswerAsync(page)]);
        await page.Locator("main a[href='']").First.TapAsync();
        await SettledAsync(page);
    }

    // The first thing due is said to be skipped: every row can be, and each time another stands first.
    private static async Task DueAsync(IPage page, int slowed, int runs)
    {
        var answers = new List<double>();
        for (var run = 0; run < Math.Min(runs, 5); run++)
        {
            if (await page.Locator(".act.first").CountAsync() == 0)
            {
                break;
            }

            await page.Locator(".act.first button.key-2[aria-expanded]").TapAsync();
            await page.EvaluateAsync(
                "n => { document.querySelector('.written .saved span')?.setAttribute('data-old', n); }",
                run
            );
            await page.EvaluateAsync(
                "() => { const old = document.querySelector('.act.first .do').textContent; globalThis.pace.expect('.act.first .do'); }"
            );
            await page.Locator(".act.first .ways-out button").Last.TapAsync();
            answers.Add(await AnswerAsync(page));
            await SettledAsync(page);
        }

        Print(slowed, "due: a row skipped, the next one first", answers);
    }

    private static Task<double> AnswerAsync(IPage page) =>
        page.EvaluateAsync<double>("() => globalThis.pace.answered");

    private static Task SettledAsync(IPage page) =>
        page.Locator("main[data-settled=true]")
            .First.WaitForAsync(new() { State = WaitForSelectorState.Attached });

    // By the app's own script, as if they had come from the server: no rule of the store is passed by.
    private static async Task FillAsync(IPage page, IReadOnlyList<Entry> entries)
    {
        foreach (var batch in entries.Chunk(RowsAtOnce))
        {
            var packed = Convert.ToBase64String(Packed(batch));
            await page.EvaluateAsync(
                """
                async packed => {
                  const { append } = await import('/js/broodtide.js');
                  const text = atob(packed);
                  await append(Uint8Array.from(text, letter => letter.charCodeAt(0)));
                }
                """,
                packed
            );
        }
    }

    // As the app packs its rows: digest, replica, running number, whether the server holds it, three measured parts.
    private static byte[] Packed(IEnumerable<Entry> entries)
    {
        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream);
        foreach (var entry in entries)
        {
            writer.Write(entry.Digest.ToBytes());
            writer.Write(entry.Envelope.Replica.Value.ToByteArray(bigEndian: true));
            writer.Write((double)entry.Envelope.Sequence);
            writer.Write((byte)1);
            var salted = entry.Bytes.SaltedBody.Span;
            foreach (
                var part in new[]
                {
                    entry.Bytes.Envelope.ToArray(),
                    salted[..EntryBytes.SaltLength].ToArray(),
                    salted[EntryBytes.SaltLength..].ToArray(),
                }
            )
            {
                writer.Write(part.Length);
                writer.Write(part);
            }
        }

        return stream.ToArray();
    }

    private static Process Start(string site, string data, out string address)
    {
        const string announcement = "Broodtide is at ";
        var server =
            Process.Start(
                new ProcessStartInfo(
                    "dotnet",
                    [
                        Path.Combine(Path.GetFullPath(site), "Broodtide.Server.dll"),
                        "--urls",
                        "http://127.0.0.1:0",
                        "--data",
                        data,
                    ]
                )
                {
                    WorkingDirectory = data,
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The server did not start.");
        while (server.StandardOutput.ReadLine() is { } line)
        {
            if (line.StartsWith(announcement, StringComparison.Ordinal))
            {
                address = line[announcement.Length..];
                return server;
            }
        }

        throw new InvalidOperationException("The server ended at once.");
    }

    internal static void Print(int slowed, string what, IReadOnlyList<double> took)
    {
        if (took.Count == 0)
        {
            Console.WriteLine($"| {slowed}x | {what} | never seen | | |");
            return;
        }

        var sorted = took.Order().ToList();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"| {slowed}x | {what} | {sorted[sorted.Count / 2]:F0} | {sorted[0]:F0} | {sorted[^1]:F0} | {took.Count} |"
            )
        );
    }
}
