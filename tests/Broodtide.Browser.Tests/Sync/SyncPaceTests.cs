using System.Diagnostics;
using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>How long many entries take to come and to go; the figures are told, their completeness is asserted.</summary>
[Collection(OneBrowser.Name)]
public sealed class SyncPaceTests(Browsing browsing)
{
    private const int Many = 10_000;

    [Fact]
    public async Task Ten_thousand_entries_come_to_an_empty_phone_and_a_meeting_after_that_asks_once()
    {
        await using var context = await browsing.NewPhone();
        await using var server = new KillableServer();
        await server.WriteAsync(Many);
        await server.StartAsync();
        var phone = new SyncPhone(context, server.Address);
        var requests = new List<(string Path, double Start, double End)>();
        Listen(context, requests);
        await phone.OpenAsync();
        await UntilAsync(async () => (await phone.RowsAsync()).Count >= Many);
        Tell("fetched", requests, "lacking");

        await UntilAsync(async () =>
            await phone.Opened.Page.Locator("main[data-settled=true]").CountAsync() > 0
        );
        requests.Clear();
        await phone.ReloadAsync();
        await phone.Opened.Rest();
        Tell("nothing new", requests, "");
        Assert.Single(requests);
    }

    [Fact]
    public async Task Ten_thousand_entries_go_to_a_server_that_has_none()
    {
        await using var context = await browsing.NewPhone();
        await using var server = new KillableServer();
        await server.WriteAsync(1);
        await server.StartAsync();
        var phone = new SyncPhone(context, server.Address);
        await phone.OpenAsync();
        await server.KillAsync();
        var replica = new ReplicaId(
            new Guid(
                (await phone.Opened.Module<int[]>("Array.from(await it.getFact('replica'))"))
                    .Select(one => (byte)one)
                    .ToArray(),
                bigEndian: true
            )
        );
        var rows = new List<StoredRow>();
        Entry? last = null;
        for (var number = 1; number <= Many; number++)
        {
            last = KillableServer
                .Note($"note {number}")
                .Seal(replica, number, last?.Digest, RandomNumberGenerator.GetBytes(EntryBytes.SaltLength));
            rows.Add(StoredRow.Of(last, false));
        }

        foreach (var part in rows.Chunk(2000))
        {
            var text = Convert.ToBase64String(RowPacking.Pack(part));
            await phone.Opened.Module<int>(
                $"it.append(Uint8Array.from(atob('{text}'), one => one.charCodeAt(0)))"
            );
        }

        await server.StartAsync();
        var requests = new List<(string Path, double Start, double End)>();
        Listen(context, requests);
        await phone.ReloadAsync();
        await UntilAsync(() => Task.FromResult(server.Digests().Count >= Many));
        await UntilAsync(async () => (await phone.RowsAsync()).All(row => row.IsAcknowledged));
        Tell("given", requests, "give");
        Assert.Equal(Many + 1, server.Digests().Count);
    }

    private static void Listen(
        Microsoft.Playwright.IBrowserContext context,
        List<(string Path, double Start, double End)> requests
    )
    {
        var clock = Stopwatch.StartNew();
        var begun = new Dictionary<Microsoft.Playwright.IRequest, double>();
        context.Request += (_, request) =>
        {
            lock (requests)
            {
                begun[request] = clock.Elapsed.TotalMilliseconds;
            }
        };
        context.RequestFinished += (_, request) =>
        {
            lock (requests)
            {
                if (request.Url.Contains("/api/journal/", StringComparison.Ordinal))
                {
                    requests.Add((request.Url, begun[request], clock.Elapsed.TotalMilliseconds));
                }
            }
        };
    }

    private static void Tell(string what, List<(string Path, double Start, double End)> requests, string kind)
    {
        lock (requests)
        {
            var some = requests
                .Where(one => one.Path.EndsWith(kind, StringComparison.Ordinal) || kind.Length == 0)
                .ToList();
            TestContext.Current.SendDiagnosticMessage(
                "{0}: {1} requests in {2:F0} ms",
                what,
                some.Count,
                some.Max(one => one.End) - some.Min(one => one.Start)
            );
        }
    }

    private static async Task UntilAsync(Func<Task<bool>> holds)
    {
        for (var clock = Stopwatch.StartNew(); !await holds(); )
        {
            Assert.True(clock.Elapsed < TimeSpan.FromMinutes(5));
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }
}
