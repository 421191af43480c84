using System.Diagnostics;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Sharing;
using Broodtide.Workbench.Tests.Sharing;
using NodaTime;

namespace Broodtide.Load;

/// <summary>Phones with the real journal and the real meeting, each on its own pace.</summary>
internal sealed class Phones(IReadOnlyList<(Way Way, PersonId Person)> people, int count, TimeSpan pace)
{
    // A phone writes at every third meeting, as one at a bench does at most.
    private const int MeetingsAWrite = 3;

    private readonly List<double> _milliseconds = [];
    private readonly List<MemoryRows> _rows = [];
    private int _away;
    private int _written;

    /// <summary>How long each meeting took, in milliseconds.</summary>
    public IReadOnlyList<double> Milliseconds => _milliseconds;

    /// <summary>Meetings that no answer came to.</summary>
    public int Away => _away;

    /// <summary>Entries written on phones.</summary>
    public int Written => _written;

    /// <summary>Entries that phones were told to be safe.</summary>
    public HashSet<Digest> Confirmed() =>
        [.. _rows.SelectMany(rows => rows.Rows).Where(row => row.Acknowledged).Select(row => row.Digest)];

    public async Task RunAsync(CancellationToken over) =>
        await Task.WhenAll(
            Enumerable.Range(0, count).Select(number => Task.Run(() => LiveAsync(number, over), over))
        );

    private async Task LiveAsync(int number, CancellationToken over)
    {
        var (way, person) = people[number % people.Count];
        var rows = new MemoryRows();
        lock (_rows)
        {
            _rows.Add(rows);
        }

        var journal = new PhoneJournal(rows, new OnlyPen());
        await journal.OpenAsync();
        await journal.BelongsTo(person);
        var meeting = new PhoneMeeting(way, journal, SystemClock.Instance);
        var random = new Random(number);
        try
        {
            await Task.Delay(random.NextDouble() * pace, over);
            for (var round = 0; !over.IsCancellationRequested; round++)
            {
                if (round % MeetingsAWrite == 0)
                {
                    await journal.AppendAsync(
                        [Note($"phone {number}, round {round}")],
                        CancellationToken.None
                    );
                    Interlocked.Increment(ref _written);
                }

                var clock = Stopwatch.StartNew();
                var met = await meeting.RunAsync(
                    await journal.ReadAllAsync(CancellationToken.None),
                    CancellationToken.None
                );
                if (met.Meeting is Meeting.Agreed)
                {
                    lock (_milliseconds)
                    {
                        _milliseconds.Add(clock.Elapsed.TotalMilliseconds);
                    }
                }
                else
                {
                    Interlocked.Increment(ref _away);
                }

                await Task.Delay(pace, over);
            }
        }
        catch (OperationCanceledException) when (over.IsCancellationRequested)
        {
            // The time is over.
        }
    }

    private static Draft Note(string text)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        return new(
            new EntryId(Guid.CreateVersion7()),
            new Author("Keeper"),
            now,
            "Europe/Zurich",
            Happened.At(now),
            new NoteWritten(text)
        );
    }

    private sealed class OnlyPen : IPen, IDisposable
    {
        public Task<IDisposable> Take(CancellationToken cancel = default) =>
            Task.FromResult<IDisposable>(this);

        public void Dispose() { }
    }
}
