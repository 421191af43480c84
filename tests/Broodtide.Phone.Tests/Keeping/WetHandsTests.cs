using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Workbench.Demo;
using NodaTime;

namespace Broodtide.Phone.Tests.Keeping;

public sealed class WetHandsTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 3, 10, 19, 0);

    [Fact]
    public void Hands_are_free_when_the_last_screen_at_the_bench_was_left()
    {
        var hands = new WetHands();
        Assert.True(hands.FreeAsync(TestContext.Current.CancellationToken).IsCompleted);
        hands.GoIn();
        hands.GoIn();
        var free = hands.FreeAsync(TestContext.Current.CancellationToken);
        hands.ComeOut();
        Assert.False(free.IsCompleted);
        Assert.False(hands.FreeAsync(TestContext.Current.CancellationToken).IsCompleted);
        hands.ComeOut();
        Assert.True(hands.FreeAsync(TestContext.Current.CancellationToken).IsCompleted);
    }

    [Fact]
    public async Task What_is_due_is_not_worked_out_while_hands_are_in_the_water()
    {
        var hands = new WetHands();
        var work = Work(hands.FreeAsync);
        hands.GoIn();
        var running = work.RenewAsync(Invented(), Now, DateTimeZone.Utc);
        Assert.False(running.IsCompleted);
        Assert.Null(work.Due);

        hands.ComeOut();
        Assert.True(await running);
        Assert.True(work.IsWhole);
    }

    [Fact]
    public async Task Work_that_waits_for_free_hands_gives_way_to_newer_work()
    {
        var hands = new WetHands();
        var work = Work(hands.FreeAsync);
        hands.GoIn();
        var house = Invented();
        var (first, second) = (
            work.RenewAsync(house, Now, DateTimeZone.Utc),
            work.RenewAsync(house, Now, DateTimeZone.Utc)
        );
        Assert.False(await first);
        hands.ComeOut();
        Assert.True(await second);
    }

    [Fact]
    public async Task A_house_that_is_opened_has_its_standing_water_told_and_is_gone_on_with()
    {
        var work = Work(null);
        var house = Invented();
        var prepared = await work.PrepareAsync(house, Now, DateTimeZone.Utc);
        var told = prepared.LedgerEntriesTaken;
        Assert.NotEmpty(prepared.StandingLedgers);
        Assert.Equal(told, prepared.LedgerEntriesTaken);
        Assert.Null(work.Begun);

        work.GoOnFrom(prepared);
        Assert.True(await work.RenewAsync(prepared.House, Now, DateTimeZone.Utc));
        Assert.Same(prepared.House, work.Shown!.House);
        Assert.Equal(
            prepared.StandingLedgers.Select(ledger => ledger.SalinityPpt),
            work.Shown.StandingLedgers.Select(ledger => ledger.SalinityPpt)
        );
    }

    private static OutlookWork Work(Func<CancellationToken, Task>? handsFree) =>
        new(
            () => new Slicer(TimeSpan.FromDays(1), () => Task.CompletedTask, TimeProvider.System),
            () => Task.CompletedTask,
            handsFree
        );

    private static House Invented()
    {
        var account = new Account();
        var replica = new ReplicaId(Guid.CreateVersion7());
        Entry? last = null;
        foreach (
            var draft in InventedHouse.Drafts(Now, DateTimeZone.Utc).Where(draft => draft.Written <= Now)
        )
        {
            last = draft.Seal(replica, account.EntryCount + 1, last?.Digest, new byte[EntryBytes.SaltLength]);
            account.Add(last);
        }

        return new(account);
    }
}
