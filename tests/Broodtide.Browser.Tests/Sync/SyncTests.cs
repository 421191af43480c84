using System.Diagnostics;
using System.Globalization;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>
/// Two phones write and meet while the server is killed and started again and the network comes and goes.
/// BROODTIDE_SYNC says how many courses, BROODTIDE_SEED where they begin; a failure names its seed.
/// </summary>
[Collection(QuietBrowser.Name)]
public sealed class SyncTests(Browsing browsing)
{
    private const int UsualSchedules = 10;

    // A loaded machine answers late; what never comes is found all the same.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly HashSet<string> _confirmed = [];

    [Fact]
    public async Task Two_phones_and_a_server_that_is_killed_end_equal_and_nothing_is_lost_or_doubled()
    {
        await using var first = await browsing.NewPhone();
        await using var second = await browsing.NewPhone();
        await using var server = new KillableServer();
        await server.WriteAsync(1);
        await server.StartAsync();
        SyncPhone[] phones = [new(first, server.Address), new(second, server.Address)];
        await Task.WhenAll(phones.Select(phone => phone.OpenAsync()));

        var (count, seed) = (Told("BROODTIDE_SYNC") ?? UsualSchedules, Told("BROODTIDE_SEED") ?? 1);
        var (steps, clock) = (new int[Steps], Stopwatch.StartNew());
        for (var schedule = 0; schedule < count; schedule++)
        {
            var dice = new Random(seed + schedule);
            for (var step = dice.Next(3, 8); step > 0; step--)
            {
                await StepAsync(dice, phones, server, steps);
            }

            await ComeToRestAsync(phones, server);
            await EqualAsync(phones, server, seed + schedule);
            if (schedule % 10 == 9)
            {
                TestContext.Current.SendDiagnosticMessage(
                    "{0} courses, {1} entries, {2:F0} s; kills {3}, offline {4}, reloads {5}",
                    schedule + 1,
                    _confirmed.Count,
                    clock.Elapsed.TotalSeconds,
                    steps[KillStep] + steps[KillWhileMeeting],
                    steps[OfflineStep],
                    steps[ReloadStep]
                );
            }
        }
    }

    private const int Steps = 10;
    private const int OfflineStep = 4;
    private const int KillStep = 5;
    private const int KillWhileMeeting = 6;
    private const int StartStep = 7;
    private const int ReloadStep = 8;

    private async Task StepAsync(Random dice, SyncPhone[] phones, KillableServer server, int[] steps)
    {
        var phone = phones[dice.Next(phones.Length)];
        var step = dice.Next(Steps);
        steps[step]++;
        switch (step)
        {
            case OfflineStep:
                await phone.OfflineAsync(!phone.IsOffline);
                break;
            case KillStep:
                await server.KillAsync();
                break;
            case KillWhileMeeting:
                await WriteAsync(phone);
                // Some time into the meeting that the entry has begun.
                await Task.Delay(dice.Next(0, 60), TestContext.Current.CancellationToken);
                await server.KillAsync();
                break;
            case StartStep:
                await server.StartAsync();
                break;
            case ReloadStep:
                await phone.ReloadAsync();
                break;
            default:
                await WriteAsync(phone);
                break;
        }
    }

    private async Task WriteAsync(SyncPhone phone)
    {
        await phone.WriteAsync();
        await NoteAsync(phone);
    }

    private async Task NoteAsync(SyncPhone phone) =>
        _confirmed.UnionWith((await phone.RowsAsync()).Select(row => row.Digest));

    // Each has written and met with the way open; the first then learns of the second's.
    private async Task ComeToRestAsync(SyncPhone[] phones, KillableServer server)
    {
        await server.StartAsync();
        foreach (var phone in phones)
        {
            await phone.OfflineAsync(false);
            await WriteAsync(phone);
            await UntilAsync(
                async () => (await phone.RowsAsync()).All(row => row.IsAcknowledged),
                "nothing waits on a phone"
            );
        }

        await phones[0].ReloadAsync();
    }

    private async Task EqualAsync(SyncPhone[] phones, KillableServer server, int seed)
    {
        var held = server.Digests();
        await UntilAsync(
            async () =>
            {
                held = server.Digests();
                var counts = new List<int>();
                foreach (var phone in phones)
                {
                    counts.Add((await phone.RowsAsync()).Count);
                }

                return counts.TrueForAll(count => count == held.Count);
            },
            $"seed {seed}: all hold as many"
        );
        Assert.Equal(held.Count, held.Distinct(StringComparer.Ordinal).Count());
        foreach (var phone in phones)
        {
            var rows = await phone.RowsAsync();
            Assert.True(held.ToHashSet().SetEquals(rows.Select(row => row.Digest)), $"seed {seed}");
            Assert.Equal(rows.Count, rows.Select(row => row.Place).Distinct(StringComparer.Ordinal).Count());
            Assert.All(rows, row => Assert.True(row.IsAcknowledged, $"seed {seed}"));
        }

        Assert.Empty(_confirmed.Except(held));
    }

    private static async Task UntilAsync(Func<Task<bool>> holds, string what)
    {
        for (var clock = Stopwatch.StartNew(); clock.Elapsed < Patience; )
        {
            if (await holds())
            {
                return;
            }

            await Task.Delay(50, TestContext.Current.CancellationToken);
        }

        Assert.Fail($"Never came: {what}.");
    }

    private static int? Told(string name) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
