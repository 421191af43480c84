using System.Net;
using Broodtide.Server.Backups;
using Broodtide.Server.Tests.Kit;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Server.Tests.Backups;

public sealed class BackupClockTests : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 11, 26, 12, 0);

    private readonly TemporaryFolder _data = new();
    private readonly TemporaryFolder _backups = new();
    private readonly FakeClock _clock = new(Noon);

    public void Dispose()
    {
        _data.Dispose();
        _backups.Dispose();
    }

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_backup_is_made_at_once_then_by_the_clock_and_so_many_stay()
    {
        await JournalAsync();
        var clock = Clock();
        Assert.True(clock.Look(Cancellation));
        Assert.False(clock.Look(Cancellation));
        _clock.AdvanceHours(23);
        Assert.False(clock.Look(Cancellation));
        _clock.AdvanceHours(1);
        // A restart in between neither forgets nor doubles.
        Assert.True(Clock().Look(Cancellation));
        Assert.False(Clock().Look(Cancellation));
        _clock.AdvanceHours(24);
        Assert.True(Clock().Look(Cancellation));
        Assert.Equal(
            [Noon + Duration.FromHours(48), Noon + Duration.FromHours(24)],
            clock.Kept.Select(one => one.Made)
        );
        Assert.All(clock.Kept, one => Assert.Empty(Restoring.Check(one.Path, null, Cancellation).Faults));
    }

    [Fact]
    public async Task What_went_wrong_is_kept_for_the_owner_and_tried_again_sooner()
    {
        var clock = Clock();
        Assert.False(clock.Look(Cancellation));
        Assert.Contains("file-not-there", clock.Trouble?.Why.ToString(), StringComparison.Ordinal);
        await JournalAsync();
        _clock.AdvanceMinutes(59);
        Assert.False(clock.Look(Cancellation));
        _clock.AdvanceMinutes(1);
        Assert.True(clock.Look(Cancellation));
        Assert.Null(clock.Trouble);
    }

    [Fact]
    public async Task A_clock_that_jumps_back_or_far_ahead_stops_no_backup()
    {
        await JournalAsync();
        var clock = Clock();
        _clock.AdvanceDays(4000);
        Assert.True(clock.Look(Cancellation));
        _clock.Reset(Noon);
        Assert.True(clock.Look(Cancellation));
        Assert.False(clock.Look(Cancellation));
        _clock.AdvanceHours(24);
        Assert.True(clock.Look(Cancellation));
        Assert.Contains(clock.Kept, one => one.Made == Noon + Duration.FromHours(24));
    }

    [Fact]
    public async Task A_server_that_was_asked_to_backs_itself_up_and_shows_it_to_its_owner_alone()
    {
        var to = Path.Combine(_backups.Folder.FullName, "kept");
        await using (
            var server = await StartedServer.Open(_data, "--urls", "http://127.0.0.1:0", "--backup-to", to)
        )
        {
            using var client = new HttpClient();
            while (BackupFolder.All(to).Count == 0)
            {
                await Task.Delay(50, Cancellation);
            }

            var answer = await client.GetAsync(new Uri($"{server.Address}/api/backups"), Cancellation);
            Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        }

        var made = Assert.Single(BackupFolder.All(to));
        var names = Restoring
            .Check(made.Path, null, Cancellation)
            .List.Files.Select(file => file.Name)
            .ToList();
        Assert.Contains("house.db", names);
        Assert.Contains("journal.db", names);
        Assert.DoesNotContain(names, name => name.StartsWith("keys", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("--backup-every 5", "--backup-to")]
    [InlineData("--backup-to x --backup-every 0", "hours between backups")]
    [InlineData("--backup-to x --backup-keep 0", "how many backups stay")]
    [InlineData("--backup-to x --demo", "do not go together")]
    public async Task What_does_not_go_together_is_said(string words, string said)
    {
        var (code, _, complained) = await Typed.Run(_data, words.Split(' '));
        Assert.Equal(2, code);
        Assert.Contains(said, complained, StringComparison.Ordinal);
    }

    private BackupClock Clock()
    {
        var plan = new BackupPlan(_backups.Folder, Duration.FromHours(24), Keep: 2, Passphrase: null);
        return new(
            new ServerOptions([], _data.Folder, Demo: false) { Backups = plan },
            plan,
            _clock,
            NullLogger<BackupClock>.Instance
        );
    }

    private async Task JournalAsync() =>
        await (
            await SqliteJournal.OpenAsync(_data.File("journal.db"), "server", Cancellation)
        ).DisposeAsync();
}
