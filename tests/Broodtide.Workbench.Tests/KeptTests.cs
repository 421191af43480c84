using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Tests;

/// <summary>What is kept from one state of the journal to the next is the same as what is computed from nothing.</summary>
public class KeptTests
{
    private static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
    private static readonly Instant Now = Instant.FromUtc(2026, 5, 20, 18, 0);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_house_that_goes_on_is_the_house_made_anew(int seed)
    {
        var random = new Random(seed);
        var account = new Account();
        var house = new House(account);
        foreach (var some in Arriving(random))
        {
            account.AddAll(some);
            house = house.Renewed();
            if (random.Next(3) == 0)
            {
                Assert.Equal(Told(new House(account)), Told(house));
            }
        }

        Assert.Equal(Told(new House(account)), Told(house));
        Assert.Same(house, house.Renewed());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void An_outlook_that_goes_on_is_the_outlook_made_anew(int seed)
    {
        var random = new Random(seed);
        var entries = Entries();
        // All but the latest are there; those come one after another, some late, and time goes on.
        var late = entries.Where(_ => random.Next(40) == 0).ToHashSet();
        var early = entries.Except(late).Take(entries.Count - 30).ToList();
        var account = Account.Of(early);
        var outlook = Outlook.Of(account, Now, Berlin);
        var coming = entries
            .Except(early)
            .OrderBy(entry => late.Contains(entry) ? random.Next(30) : 15)
            .ToList();
        for (var next = 0; next < coming.Count; next++)
        {
            if (random.Next(4) == 0)
            {
                Begin(outlook, random.Next(40));
            }

            account.Add(coming[next]);
            var now = Now + Duration.FromMinutes(7 * next);
            outlook = outlook.Renewed(now);
            if (random.Next(3) == 0 || next == coming.Count - 1)
            {
                var fresh = Outlook.Of(account, now, Berlin);
                Assert.Equal(Told(fresh.Ledgers), Told(outlook.Ledgers));
                Assert.Equal(Told(fresh), Told(outlook));
            }
        }
    }

    [Fact]
    public void A_reading_that_comes_last_takes_in_nothing_a_second_time()
    {
        var entries = Entries();
        var account = Account.Of(entries.Take(entries.Count - 1));
        var outlook = Outlook.Of(account, Now, Berlin);
        var first = outlook.Ledgers.Count > 0 ? outlook.LedgerEntriesTaken : 0;
        account.Add(entries[^1]);
        var after = outlook.Renewed(Now + Duration.FromMinutes(1));
        Assert.NotEmpty(after.Ledgers);
        Assert.True(first > 50);
        Assert.InRange(after.LedgerEntriesTaken - first, 0, 2);
    }

    // Somebody works an outlook out and is broken off.
    private static void Begin(Outlook outlook, int steps)
    {
        foreach (var step in outlook.Steps().Take(steps))
        {
            step();
        }
    }

    private static IEnumerable<Entry[]> Arriving(Random random)
    {
        var entries = Entries();
        var pen = new Writing(new ReplicaId(Guid.CreateVersion7()));
        // Some are taken back or told better, some of that before they come.
        entries.AddRange(
            entries
                .Where(_ => random.Next(6) == 0)
                .ToList()
                .Select(entry => pen.Write(entry, random.Next(2) == 0))
        );
        var shuffled = entries.ToArray();
        random.Shuffle(shuffled);
        for (var at = 0; at < shuffled.Length; )
        {
            var count = random.Next(8) == 0 ? 70 : random.Next(1, 6);
            yield return shuffled[at..Math.Min(shuffled.Length, at + count)];
            at += count;
        }
    }

    private static List<Entry> Entries()
    {
        var replica = new ReplicaId(new Guid("01900000-0000-7000-8000-000000000001"));
        var entries = new List<Entry>();
        foreach (var draft in InventedHouse.Drafts(Now, Berlin))
        {
            entries.Add(
                draft.Seal(
                    replica,
                    entries.Count + 1,
                    entries.Count > 0 ? entries[^1].Digest : null,
                    new byte[EntryBytes.SaltLength]
                )
            );
        }

        return entries;
    }

    private static string Told(House house) =>
        string.Join(
            '\n',
            ((IEnumerable<object>)house.Animals)
                .Concat(house.Broods)
                .Concat(house.Vessels)
                .Concat(house.Cohorts)
                .Concat(house.Runs)
                .Concat(house.Instruments)
                .Select(Everything.Of)
                .Concat(house.Broods.Select(brood => Everything.Of(house.RunOf(brood.Id)?.Id)))
        );

    private static string Told(Outlook outlook) =>
        string.Join('\n', outlook.Due.Items.Select(Everything.Of))
        + string.Join('\n', outlook.BroodsUnderWay.Select(brood => brood.Id))
        + string.Join('\n', outlook.Forecasts.Select(forecast => Everything.Of(forecast.Moved)));

    private static string Told(IEnumerable<VesselLedger> ledgers) =>
        string.Join('\n', ledgers.Select(Everything.Of));

    /// <summary>A second phone that corrects.</summary>
    private sealed class Writing(ReplicaId replica)
    {
        private Entry? _last;

        public Entry Write(Entry of, bool back) =>
            _last = new Draft(
                new(Guid.CreateVersion7()),
                new("Ben"),
                of.Envelope.Written + Duration.FromHours(1),
                of.Envelope.Zone,
                of.Envelope.Happened,
                back ? new Domain.Keeping.EntryTakenBack() : of.Fact,
                new(back ? CorrectionKind.Retracts : CorrectionKind.Replaces, of.Id)
            ).Seal(
                replica,
                (_last?.Envelope.Sequence ?? 0) + 1,
                _last?.Digest,
                new byte[EntryBytes.SaltLength]
            );
    }
}
