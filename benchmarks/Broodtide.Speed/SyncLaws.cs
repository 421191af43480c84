using Broodtide.Benchmarks;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Sharing;
using Broodtide.Workbench.Tests.Sharing;
using NodaTime;

namespace Broodtide.Speed;

/// <summary>
/// The laws of a meeting between a phone and the house: the real journal of the phone over rows in memory, the real gate over
/// a SQLite file, and between them the bytes as they go over the way, without a network. Both sides are in the time.
/// </summary>
internal static class SyncLaws
{
    private static readonly Visitor Ada = new(new(Guid.CreateVersion7()), "Ada", Role.Owner);

    /// <param name="most">Entries at 100x.</param>
    public static void Run(int most)
    {
        int[] entries = [most / 100, most / 10, most];
        using var folder = new TakenFolder();
        CostLaw.Afresh(
            "N entries given by a phone to an empty house",
            entries,
            count =>
            {
                var written = Written(count);
                var turn = 0;
                return () =>
                {
                    var house = new House(Path.Combine(folder.Path, $"given-{count}-{turn++}.db"));
                    return Meeting(house, written.Copy(), came: 0);
                };
            }
        );
        CostLaw.Afresh(
            "N entries fetched by an empty phone",
            entries,
            count =>
            {
                var house = Filled(Path.Combine(folder.Path, $"fetched-{count}.db"), count);
                return () => Meeting(house, new MemoryRows(), came: count);
            }
        );
        CostLaw.Afresh(
            "a meeting of two that hold the same N entries",
            entries,
            count =>
            {
                var house = Filled(Path.Combine(folder.Path, $"same-{count}.db"), count);
                var rows = new MemoryRows();
                Meeting(house, rows, came: count)();
                return () => Meeting(house, rows, came: 0);
            }
        );
    }

    private static House Filled(string path, int count)
    {
        var house = new House(path);
        house.Take(TenYears.Entries(count, Instant.FromUtc(2026, 11, 26, 0, 0)));
        return house;
    }

    // What a phone has written and not given yet; signed by whom it belongs to, or the house would not take it.
    private static MemoryRows Written(int count)
    {
        var rows = new MemoryRows();
        var journal = Opened(rows);
        Done(
            journal.AppendAsync([
                .. Invented
                    .Drafts(2 * count)
                    .Select(written => written.Draft)
                    .Where(draft => draft.Correction is null)
                    .Take(count)
                    .Select(draft => draft with { Author = new(Ada.Name) }),
            ])
        );
        return rows;
    }

    private static Action Meeting(House house, MemoryRows rows, int came)
    {
        var journal = Opened(rows);
        var held = Done(journal.ReadAllAsync());
        return () =>
        {
            var met = new PhoneMeeting(house, journal, SystemClock.Instance)
                .RunAsync(held)
                .GetAwaiter()
                .GetResult();
            if (
                met.Meeting is not Workbench.Sharing.Meeting.Agreed
                || met.Came.Count != came
                || journal.CountWaitingAsync().GetAwaiter().GetResult() != 0
            )
            {
                throw new InvalidOperationException(
                    $"The meeting ended as {met.Meeting}, {met.Came.Count} came: {met.Refusal}"
                );
            }
        };
    }

    private static PhoneJournal Opened(MemoryRows rows)
    {
        var journal = new PhoneJournal(rows, new OnePen());
        journal.OpenAsync().GetAwaiter().GetResult();
        journal.BelongsTo(Ada.Person).GetAwaiter().GetResult();
        return journal;
    }

    private static T Done<T>(ValueTask<T> task) => task.AsTask().GetAwaiter().GetResult();

    private sealed class House : IServerLink
    {
        private readonly SqliteJournal _journal;
        private readonly GateDoor _door;

        public House(string path)
        {
            _journal = SqliteJournal.OpenAsync(path, "speed").GetAwaiter().GetResult();
            _door = new(new Gate(_journal, new MemoryHouse(), new NobodyElse(), SystemClock.Instance));
        }

        public void Take(IReadOnlyList<Entry> entries) => Done(_journal.TakeAsync(entries));

        public async Task<byte[]> AskAsync(
            string request,
            byte[] body,
            CancellationToken cancellation = default
        )
        {
            var answer = await _door.AskAsync(request, Ada, body, cancellation);
            return answer.Succeeded
                ? answer.Value
                : throw HouseRefusedException.Of(GateDoor.TextOf(answer.Reason));
        }
    }
}
