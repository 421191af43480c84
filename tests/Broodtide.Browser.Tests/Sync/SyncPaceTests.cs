using System.Diagnostics;
using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>How long many entries take to come and to go; the figures are told, their completeness is asserted.</summary>
[Collection(QuietBrowser.Name)]
public sealed class SyncPaceTests(Browsing browsing)
{
    private const int Many = 10_000;

    [Fact]
    public async Task Ten_thousand_entries_come_to_a_phone_and_a_meeting_after_that_asks_once()
    {
        await using var context = await browsing.NewPhone();
        await using var server = new KillableServer();
        await server.WriteAsync(1);
        await server.StartAsync();
        var phone = new SyncPhone(context, server.Address);
        await phone.OpenAsync();
        await phone.Opened.Rest();
        await server.KillAsync();
        await server.WriteAsync(Many);
        await server.StartAsync();
        var requests = new Requests(context);
        await phone.ReloadAsync();
        await UntilAsync(async () => await phone.CountAsync() > Many);
        requests.Tell("fetched", "lacking");
        await phone.Opened.Rest();
        requests.Tell("fetched and told", "lacking");

        requests.Clear();
        await phone.ReloadAsync();
        await phone.Opened.Rest();
        requests.Tell("nothing new", "");
        Assert.Equal(1, requests.Count);
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
        // The first meeting is over, so its store has its name and its person.
        await phone.Opened.Rest();
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
        var requests = new Requests(context);
        await phone.ReloadAsync();
        await UntilAsync(async () => await phone.CountAsync(isAcknowledged: true) > Many);
        requests.Tell("given", "give");
        Assert.Equal(Many + 1, server.Digests().Count);
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
