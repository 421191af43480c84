using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Doors.Tests.Kit;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Doors.Tests;

/// <summary>What one call keeps for the next: it spares time, and it may be thrown away.</summary>
public sealed class KeptBetweenCallsTests
{
    private static readonly VesselId Jar = new(new Guid("0195557c-0000-7000-8000-000000000001"));
    private static readonly Duration Long = Duration.FromDays(300);

    [Fact]
    public async Task What_is_due_is_the_same_with_what_a_call_before_kept_and_without()
    {
        using var kitchen = new Kitchen();
        await WriteAsync(kitchen, LongStory());
        Assert.Empty(await KeptAsync(kitchen));
        var first = await kitchen.DoAsync("due", "--json");
        Assert.Contains("top-up", first.Out, StringComparison.Ordinal);
        var kept = Assert.Single(await KeptAsync(kitchen));

        Assert.Equal(first, await kitchen.DoAsync("due", "--json"));
        Assert.Equal(kept.Mark, Assert.Single(await KeptAsync(kitchen)).Mark);
        await OnJournalAsync(kitchen, journal => journal.ForgetCheckpointsAsync());
        Assert.Equal(first, await kitchen.DoAsync("due", "--json"));
        Assert.Equal(kept.Mark, Assert.Single(await KeptAsync(kitchen)).Mark);
    }

    [Fact]
    public async Task Another_instant_or_what_was_known_then_leaves_nothing_behind()
    {
        using var kitchen = new Kitchen();
        await WriteAsync(kitchen, LongStory());
        var then = (Kitchen.Now - Duration.FromDays(40)).ToString();
        await kitchen.DoAsync("due", "--at", then);
        await kitchen.DoAsync("due", "--as-known-at", then);
        Assert.Empty(await KeptAsync(kitchen));
    }

    [Fact]
    public async Task Verifying_finds_what_is_kept_and_does_not_come_of_the_entries()
    {
        using var kitchen = new Kitchen();
        await WriteAsync(kitchen, LongStory());
        await kitchen.DoAsync("due");
        await kitchen.DoAsync("verify");
        var kept = Assert.Single(await KeptAsync(kitchen));
        await OnJournalAsync(
            kitchen,
            async journal => await journal.KeepAsync([Forged(Account.Of(await journal.ReadAllAsync()), kept)])
        );
        var verified = await kitchen.RunAsync("verify");
        Assert.Contains("ledgers", verified.Out, StringComparison.Ordinal);
        Assert.NotEqual(0, verified.Code);
    }

    // Of all that fits the journal and says another number of the water, the first that one bit makes.
    private static Checkpoint Forged(Account account, Checkpoint kept)
    {
        var told = Litres(account, []);
        for (var at = 0; at < kept.State.Length; at++)
        {
            var changed = kept.State.ToArray();
            changed[at] ^= 8;
            var forged = kept with { State = changed, Mark = PrefixMark.Of(changed) };
            if (Litres(account, [forged]) is var other && Math.Abs(other - told) > 0.01)
            {
                return forged;
            }
        }

        throw new InvalidOperationException("No bit makes another number.");
    }

    private static double Litres(Account account, IReadOnlyList<Checkpoint> kept) =>
        Outlook.Of(account, Kitchen.Now, DateTimeZone.Utc, kept: kept).LedgerOf(Jar)!.Litres.Middle;

    private static IEnumerable<(Instant When, Fact Fact)> LongStory()
    {
        var start = Kitchen.Now - Long;
        yield return (start, new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")));
        yield return (
            start,
            new VesselFilled(
                Jar,
                new(new Guid("0195557c-0000-7000-8000-000000000002")),
                TypedNumber.Of(7.5, "L"),
                TypedNumber.Of(33, UnitCode.PracticalSalinity)
            )
        );
        for (var day = 1; day < Long.Days; day++)
        {
            yield return (
                start + Duration.FromDays(day),
                new ReadingTaken(TypedNumber.Of(33 + (day % 3 / 2.0), UnitCode.PracticalSalinity), Jar)
            );
        }
    }

    private static Task WriteAsync(Kitchen kitchen, IEnumerable<(Instant When, Fact Fact)> story) =>
        OnJournalAsync(
            kitchen,
            async journal =>
                await journal.AppendAsync([
                    .. story.Select(
                        (told, number) =>
                            new Draft(
                                new EntryId(
                                    Guid.Parse(
                                        string.Create(
                                            CultureInfo.InvariantCulture,
                                            $"0195557c-0000-7000-8001-{number:x12}"
                                        )
                                    )
                                ),
                                new("ada"),
                                told.When,
                                "Europe/Berlin",
                                Happened.At(told.When),
                                told.Fact
                            )
                    ),
                ])
        );

    private static async Task<IReadOnlyList<Checkpoint>> KeptAsync(Kitchen kitchen)
    {
        IReadOnlyList<Checkpoint> kept = [];
        await OnJournalAsync(kitchen, async journal => kept = await journal.CheckpointsAsync());
        return kept;
    }

    private static async Task OnJournalAsync(Kitchen kitchen, Func<SqliteJournal, ValueTask> work)
    {
        await using var journal = await SqliteJournal.OpenAsync(kitchen.Journal, "cli");
        await work(journal);
    }
}
