using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sharing;
using Broodtide.Workbench.Tests.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>The server's disk is lost, its backup is restored elsewhere, and the phones come.</summary>
public sealed class RestoredHouseTests
{
    private static readonly Visitor Ana = new(new PersonId(Guid.CreateVersion7()), "Ana", Role.Owner);
    private static readonly Visitor Ben = new(new PersonId(Guid.CreateVersion7()), "Ben", Role.Keeper);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Phones_bring_back_what_came_after_the_backup_their_own_at_once_the_rest_in_the_refill()
    {
        using var folder = new Folder();
        var clock = new ModelClock();
        Running? house = await Running.OpenAsync(folder["data"], clock);
        // Whichever house answers just now.
        Task<byte[]> Ask(Visitor visitor, string request, byte[] body) =>
            house.AskAsync(visitor, request, body);
        using var phone = await ModelPhone.MakeAsync(Ask, Ana, clock);
        using var other = await ModelPhone.MakeAsync(Ask, Ben, clock);
        await phone.NoteAsync("before");
        await phone.MeetAsync();
        await other.MeetAsync();
        BackupMaking.OfHouse(
            folder["data"],
            withKeys: false,
            folder["a.backup"],
            null,
            clock.GetCurrentInstant(),
            cancellation: Stop
        );

        await phone.NoteAsync("since, of Ana", "since, of Ana too");
        await phone.MeetAsync();
        await other.NoteAsync("since, of Ben");
        await other.MeetAsync();
        await house.WriteAsync("since, of the house", clock);
        await phone.MeetAsync();
        await other.MeetAsync();
        var lost = await TextsAsync(house.Journal);
        Assert.Equal(5, lost.Count);
        await house.DisposeAsync();
        Directory.Delete(folder["data"], recursive: true);

        Restoring.Into(folder["a.backup"], folder["back"], null, cancellation: Stop);
        house = await Running.OpenAsync(folder["back"], clock);
        await using (house)
        {
            Assert.Equal(["before"], await TextsAsync(house.Journal));
            await phone.MeetAsync();
            await other.MeetAsync();
            Assert.Equal(lost.Where(text => text != "since, of the house"), await TextsAsync(house.Journal));

            var owner = new OwnersGate(house.Gate);
            Assert.True((await owner.OpenRefillAsync(Ana, Duration.FromHours(24), Stop)).Succeeded);
            await phone.MeetAsync();
            Assert.Equal(lost, await TextsAsync(house.Journal));
            Assert.Empty(await ((SqliteJournal)house.Journal).VerifyAsync(Stop));
            // It goes on under a new name, and no number is given twice.
            await house.WriteAsync("after", clock);
            await phone.MeetAsync();
            await other.MeetAsync();
            var entries = await house.Journal.ReadAllAsync(Stop);
            Assert.Equal(
                entries.Count,
                entries.DistinctBy(entry => (entry.Envelope.Replica, entry.Envelope.Sequence)).Count()
            );
            Assert.Equal(
                await TextsAsync(house.Journal),
                (await phone.Journal.ReadAllAsync(Stop)).Select(Samples.TextOf).Order(StringComparer.Ordinal)
            );
        }
    }

    private static async Task<IReadOnlyList<string>> TextsAsync(ISharedJournal journal) =>
        [.. (await journal.ReadAllAsync(Stop)).Select(Samples.TextOf).Order(StringComparer.Ordinal)];

    /// <summary>A house on a disk, with the real door.</summary>
    private sealed class Running : IPeopleOfTheHouse, IAsyncDisposable
    {
        private readonly HouseFile _file;

        private Running(ISharedJournal journal, HouseFile file, IClock clock)
        {
            (Journal, _file) = (journal, file);
            Gate = new Gate(journal, new HouseSharing(file), this, clock);
        }

        public ISharedJournal Journal { get; }

        public Gate Gate { get; }

        public static async Task<Running> OpenAsync(string folder, IClock clock)
        {
            Directory.CreateDirectory(folder);
            return new(
                await SqliteJournal.OpenAsync(Path.Combine(folder, "journal.db"), "server", Stop),
                HouseFile.Open(Path.Combine(folder, "house.db")),
                clock
            );
        }

        public IReadOnlyList<SigningName> Names() =>
            [.. new[] { Ana, Ben }.Select(person => new SigningName(person.Person, person.Name))];

        public async Task<byte[]> AskAsync(Visitor visitor, string request, byte[] body)
        {
            var answer = await new GateDoor(Gate).AskAsync(request, visitor, body);
            return answer.Succeeded
                ? answer.Value
                : throw HouseRefusedException.Of(GateDoor.TextOf(answer.Reason));
        }

        public async Task WriteAsync(string text, IClock clock)
        {
            var keeper = new Keeper(
                new Author("Broodtide", "1.0"),
                clock,
                DateTimeZone.Utc,
                Guid.CreateVersion7
            );
            await Journal.AppendAsync([keeper.Write(new NoteWritten(text))], Stop);
        }

        public async ValueTask DisposeAsync()
        {
            Gate.Dispose();
            _file.Dispose();
            await Journal.DisposeAsync();
        }
    }
}
