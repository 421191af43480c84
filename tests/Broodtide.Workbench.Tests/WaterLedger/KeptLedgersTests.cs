using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Tests.WaterLedger;

/// <summary>
/// What is kept of the ledgers from one opening to the next changes nothing but the time: whatever came since, whatever became of
/// what was kept.
/// </summary>
public sealed class KeptLedgersTests
{
    private static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_journal_opened_again_answers_the_same_and_takes_in_only_the_last_days(int seed)
    {
        var house = new LongHouse(seed);
        var kept = Kept(house.Entries, LongHouse.Now);
        var fresh = Outlook.Of(Account.Of(house.Entries), LongHouse.Now, Berlin);
        var resting = Outlook.Of(Account.Of(house.Entries), LongHouse.Now, Berlin, kept: kept);

        Same(fresh, resting);
        Assert.True(fresh.LedgerEntriesTaken > 600, $"{fresh.LedgerEntriesTaken}");
        resting = Outlook.Of(Account.Of(house.Entries), LongHouse.Now, Berlin, kept: kept);
        _ = resting.Due;
        Assert.InRange(resting.LedgerEntriesTaken, 1, 200);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 3)]
    [InlineData(3, 20)]
    [InlineData(4, 60)]
    public void Days_that_follow_are_told_as_if_nothing_had_been_kept(int seed, int days)
    {
        var house = new LongHouse(seed);
        var kept = Kept(house.Entries, LongHouse.Now);
        for (var day = 0; day < days; day++)
        {
            house.Day(LongHouse.Days + day);
        }

        var now = LongHouse.Now + Duration.FromDays(days);
        var account = Account.Of(house.Entries);
        var resting = Outlook.Of(account, now, Berlin, kept: kept);
        _ = resting.Due;
        Assert.InRange(resting.LedgerEntriesTaken, 1, 200 + (5 * days));
        Same(Outlook.Of(account, now, Berlin), resting);
        // And on the same day, more is written.
        house.Day(LongHouse.Days + days);
        account.Add(house.Entries[^1]);
        Same(
            Outlook.Of(account, now + Duration.FromDays(1), Berlin),
            resting.Renewed(now + Duration.FromDays(1))
        );
    }

    /// <summary>What comes too late for what was kept: the name of the change.</summary>
    public static TheoryData<string> Changes =>
        [
            "late",
            "late-move",
            "corrected",
            "taken-back",
            "erased",
            "checked",
            "described",
            "set-up",
            "emptied",
        ];

    [Theory]
    [MemberData(nameof(Changes))]
    public void What_changes_the_past_throws_away_what_was_kept(string change)
    {
        var house = new LongHouse(5);
        var kept = Kept(house.Entries, LongHouse.Now);
        Change(house, change);
        var account = Account.Of(house.Entries);
        var (fresh, resting) = (
            Outlook.Of(account, LongHouse.Now, Berlin),
            Outlook.Of(account, LongHouse.Now, Berlin, kept: kept)
        );
        _ = resting.Due;
        _ = fresh.Due;

        // The tank stands alone, so at least the others are told anew.
        Assert.True(resting.LedgerEntriesTaken > 500, $"{resting.LedgerEntriesTaken}");
        Same(fresh, resting);
        // What is kept then holds again.
        var again = resting.TakeCheckpoint();
        Assert.NotNull(again);
        var third = Outlook.Of(account, LongHouse.Now, Berlin, kept: [again]);
        _ = third.Due;
        Assert.InRange(third.LedgerEntriesTaken, 1, 200);
        Same(fresh, third);
    }

    [Fact]
    public void Sensors_that_go_on_are_gone_on_with_and_others_throw_away_what_was_kept()
    {
        var house = new LongHouse(6);
        var account = Account.Of(house.Entries);
        var first = Outlook.Of(account, LongHouse.Now, Berlin, sensors: house.Sensors(LongHouse.Now));
        _ = first.Due;
        IReadOnlyList<Checkpoint> kept = [first.TakeCheckpoint()!];
        var later = LongHouse.Now + Duration.FromDays(2);
        var goesOn = Outlook.Of(account, later, Berlin, sensors: house.Sensors(later), kept: kept);
        _ = goesOn.Due;
        Assert.InRange(goesOn.LedgerEntriesTaken, 1, 200);
        Same(Outlook.Of(account, later, Berlin, sensors: house.Sensors(later)), goesOn);

        var none = Outlook.Of(account, later, Berlin, kept: kept);
        _ = none.Due;
        Assert.True(none.LedgerEntriesTaken > 500);
        Same(Outlook.Of(account, later, Berlin), none);
    }

    [Fact]
    public void What_was_kept_is_not_believed_once_a_byte_of_it_is_another_or_it_is_cut_short()
    {
        var house = new LongHouse(7);
        var account = Account.Of(house.Entries);
        var whole = Assert.Single(Kept(house.Entries, LongHouse.Now));
        var fresh = Outlook.Of(account, LongHouse.Now, Berlin);
        var told = Everything.Of(fresh.Due.Items);
        var random = new Random(8);
        for (var round = 0; round < 24; round++)
        {
            var bytes = whole.State.ToArray();
            bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
            var damaged = round switch
            {
                0 => whole with { State = whole.State[..^1] },
                1 => whole with { State = Array.Empty<byte>() },
                2 => whole with { Version = whole.Version + 1 },
                3 => whole with { Fold = "subject index" },
                // Another build would have begun with other bytes.
                4 => Sealed(whole, [(byte)(whole.State.Span[0] ^ 1), .. whole.State.Span[1..]]),
                // Sealed by whoever cut it: its parts no longer fit together.
                5 => Sealed(whole, whole.State.Span[..^1]),
                6 => Sealed(whole, whole.State.Span[..(whole.State.Length / 2)]),
                _ => whole with { State = bytes },
            };
            var resting = Outlook.Of(account, LongHouse.Now, Berlin, kept: [damaged]);
            Assert.Equal(told, Everything.Of(resting.Due.Items));
            Assert.True(resting.LedgerEntriesTaken > 500, $"round {round}");
        }
    }

    [Fact]
    public void An_older_instant_is_told_from_nothing()
    {
        var house = new LongHouse(9);
        var kept = Kept(house.Entries, LongHouse.Now);
        var account = Account.Of(house.Entries);
        var then = LongHouse.Now - Duration.FromDays(30);
        Same(Outlook.Of(account, then, Berlin), Outlook.Of(account, then, Berlin, kept: kept));
    }

    [Fact]
    public void What_was_kept_is_offered_again_only_when_enough_came_since()
    {
        var house = new LongHouse(10);
        var kept = Kept(house.Entries, LongHouse.Now);
        var resting = Outlook.Of(Account.Of(house.Entries), LongHouse.Now, Berlin, kept: kept);
        Assert.NotEmpty(resting.Ledgers);
        _ = resting.Due;
        Assert.Null(resting.TakeCheckpoint());
        for (var day = 0; day < 200; day++)
        {
            house.Day(LongHouse.Days + day);
        }

        var now = LongHouse.Now + Duration.FromDays(200);
        resting = Outlook.Of(Account.Of(house.Entries), now, Berlin, kept: kept);
        _ = resting.Due;
        Assert.NotNull(resting.TakeCheckpoint());
        Assert.Null(resting.TakeCheckpoint());
    }

    private static void Change(LongHouse house, string change)
    {
        var old = house
            .Entries.Skip(200)
            .First(entry => entry.Fact is ReadingTaken { Vessel: { } vessel } && vessel == house.Jar);
        switch (change)
        {
            case "late":
                house.Say(120.4, new ReadingTaken(TypedNumber.Of(33, "sal:brine-g/kg"), house.Jar));
                break;
            case "late-move":
                house.Say(120.4, new WaterMoved(To: house.Jar, Volume: TypedNumber.Of(0.2, "L")));
                break;
            case "corrected":
                house.Say(
                    300,
                    new ReadingTaken(TypedNumber.Of(36, "sal:brine-g/kg"), house.Jar, house.Refractometer),
                    new(CorrectionKind.Replaces, old.Id)
                );
                break;
            case "taken-back":
                house.Say(300, new EntryTakenBack(), new(CorrectionKind.Retracts, old.Id));
                break;
            case "erased":
                house.Say(300, new EntryTakenBack(), new(CorrectionKind.Erases, old.Id));
                break;
            case "checked":
                house.Say(
                    LongHouse.Days - 0.5,
                    new InstrumentCalibrated(
                        house.Refractometer,
                        TypedNumber.Of(34, "sal:brine-g/kg"),
                        TypedNumber.Of(35, "sal:brine-g/kg"),
                        HoldsFrom: LongHouse.Start
                    )
                );
                break;
            case "described":
                house.Say(
                    LongHouse.Days - 0.5,
                    new InstrumentDescribed(
                        house.Refractometer,
                        "Another",
                        InstrumentKind.Refractometer,
                        "sal:brine-g/kg",
                        Error: 2
                    )
                );
                break;
            case "set-up":
                house.Say(
                    LongHouse.Days - 0.5,
                    new VesselSetUp(house.Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(12, "L"))
                );
                break;
            default:
                house.Say(150.03, new VesselEmptied(house.Jar));
                break;
        }
    }

    private static Checkpoint Sealed(Checkpoint like, ReadOnlySpan<byte> state) =>
        like with
        {
            State = state.ToArray(),
            Mark = PrefixMark.Of(state),
        };

    private static IReadOnlyList<Checkpoint> Kept(IReadOnlyList<Entry> entries, Instant now)
    {
        var first = Outlook.Of(Account.Of(entries), now, Berlin);
        Assert.Null(first.TakeCheckpoint());
        _ = first.Due;
        return [first.TakeCheckpoint()!];
    }

    // First of what stands, as it is due; then of all.
    private static void Same(Outlook fresh, Outlook resting)
    {
        Assert.Equal(Everything.Of(fresh.Due.Items), Everything.Of(resting.Due.Items));
        Assert.Equal(Everything.Of(fresh.StandingLedgers), Everything.Of(resting.StandingLedgers));
        Assert.Equal(
            Everything.Of(fresh.Ledgers.Where(ledger => !ledger.Ended)),
            Everything.Of(resting.StandingLedgers)
        );
        Assert.Equal(Everything.Of(fresh.Ledgers), Everything.Of(resting.Ledgers));
    }
}
