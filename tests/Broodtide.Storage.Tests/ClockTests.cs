using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Recording;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Storage.Tests;

/// <summary>
/// Clocks that jump, and the nights in which civil time does. Days of the changes: the tz database, which NodaTime carries.
/// </summary>
public sealed class ClockTests : IDisposable
{
    private readonly Folder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    // Each begins three hours before the change of its zone, in UTC.
    [Theory]
    [InlineData("Europe/Berlin", 2026, 3, 28, 22, 60)]
    [InlineData("Europe/Berlin", 2026, 10, 24, 22, -60)]
    [InlineData("America/New_York", 2026, 3, 8, 4, 60)]
    [InlineData("America/New_York", 2026, 11, 1, 3, -60)]
    [InlineData("Australia/Lord_Howe", 2026, 10, 3, 12, 30)]
    [InlineData("Australia/Lord_Howe", 2026, 4, 4, 12, -30)]
    [InlineData("Pacific/Apia", 2011, 12, 30, 7, 1440)]
    public async Task Entries_written_across_a_change_of_civil_time_keep_their_order_and_their_civil_time(
        string zoneId,
        int year,
        int month,
        int day,
        int hour,
        int jumpMinutes
    )
    {
        var zone = DateTimeZoneProviders.Tzdb[zoneId];
        var clock = new FakeClock(Instant.FromUtc(year, month, day, hour, 0), Duration.FromMinutes(10));
        var before = clock.GetCurrentInstant();
        var shown = new List<(string Text, LocalDateTime Civil, Offset Offset)>();
        await using (var journal = await SqliteJournal.OpenAsync(_folder["journal.db"], "cli", Stop))
        {
            for (var i = 0; i < 40; i++)
            {
                var now = clock.GetCurrentInstant();
                var keeper = new Keeper(new Author("Ada"), new FakeClock(now), zone, Guid.CreateVersion7);
                await journal.AppendAsync([keeper.Write(new Domain.Keeping.NoteWritten($"{i}"))], Stop);
                shown.Add(($"{i}", now.InZone(zone).LocalDateTime, now.InZone(zone).Offset));
            }
        }

        await using var again = await SqliteJournal.OpenAsync(_folder["journal.db"], "cli", Stop);
        Assert.Empty(await again.VerifyAsync(Stop));
        var entries = await again.ReadAllAsync(Stop);
        var told = Account.Of(entries.Reverse()).Occurrences;
        Assert.Equal(shown.Select(one => one.Text), told.Select(one => Samples.TextOf(one.Told)));
        foreach (var (one, wanted) in told.Zip(shown))
        {
            var envelope = one.Told.Envelope;
            var civil = envelope.Written.InZone(DateTimeZoneProviders.Tzdb[envelope.Zone]);
            Assert.Equal((wanted.Civil, wanted.Offset), (civil.LocalDateTime, civil.Offset));
        }

        // The change did happen in between: ten minutes by the clock are another step in civil time, once.
        var steps = shown
            .Zip(shown.Skip(1), (a, b) => Period.Between(a.Civil, b.Civil, PeriodUnits.Minutes).Minutes)
            .ToList();
        Assert.Equal(10 + jumpMinutes, Assert.Single(steps, step => step != 10));
        Assert.True(clock.GetCurrentInstant() > before);
    }

    [Fact]
    public async Task A_clock_that_jumps_back_or_far_ahead_refuses_nothing_loses_nothing_and_keeps_the_order_of_writing()
    {
        var start = Instant.FromUtc(2026, 3, 1, 21, 5);
        Duration[] jumps =
        [
            Duration.Zero,
            Duration.FromMinutes(1),
            -Duration.FromDays(3 * 365),
            -Duration.FromDays(56 * 365),
            Duration.FromDays(500 * 365),
            Duration.FromMinutes(2),
        ];
        for (var i = 0; i < jumps.Length; i++)
        {
            // Opened anew each time, as after a battery that was empty.
            await using var journal = await SqliteJournal.OpenAsync(_folder["journal.db"], "cli", Stop);
            var keeper = new Keeper(
                new Author("Ada"),
                new FakeClock(start + jumps[i]),
                DateTimeZone.Utc,
                Guid.CreateVersion7
            );
            await journal.AppendAsync([keeper.Write(new Domain.Keeping.NoteWritten($"{i}"))], Stop);
        }

        await using var again = await SqliteJournal.OpenAsync(_folder["journal.db"], "cli", Stop);
        Assert.Empty(await again.VerifyAsync(Stop));
        var entries = await again.ReadAllAsync(Stop);
        Assert.Single(entries.Select(entry => entry.Envelope.Replica).Distinct());
        Assert.Equal(
            ["0", "1", "2", "3", "4", "5"],
            entries.OrderBy(entry => entry.Envelope.Sequence).Select(Samples.TextOf)
        );
        // It is told by the times it was given, and the same whatever the order of arrival.
        Assert.Equal(
            ["3", "2", "0", "1", "5", "4"],
            Account.Of(entries).Occurrences.Select(one => Samples.TextOf(one.Told))
        );
        Assert.Equal(
            Account.Of(entries).Occurrences.Select(one => one.Id),
            Account.Of(entries.Reverse()).Occurrences.Select(one => one.Id)
        );
    }
}
