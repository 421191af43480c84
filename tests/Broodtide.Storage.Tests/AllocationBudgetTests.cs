using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Water;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>
/// What the hot paths may take from memory. A count of bytes is the same on a busy machine as on a quiet one, so this is the
/// check that a change made something dearer; times are told by benchmarks. A budget is what was counted, and a fifth more:
/// a build for debugging counts a little more than one for use.
/// </summary>
public sealed class AllocationBudgetTests : IDisposable
{
    // Bytes; counted on 2026-11-27: 6,656 an entry appended; on 2026-11-26: 329 an entry folded, 193 a row, 15,207 an hour of the twin,
    // 460,096 the forecasts, 6,506,496 the estimate.
    private const long AppendBudget = 8_000;
    private const long FoldBudget = 395;
    private const long RowBudget = 232;
    private const long TwinHourBudget = 18_250;
    private const long ForecastBudget = 552_000;
    private const long EstimateBudget = 7_800_000;

    private static readonly Instant Now = Instant.FromUtc(2026, 6, 1, 12, 0);
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    private readonly string _folder = Directory.CreateTempSubdirectory("broodtide-budget-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Salinity_and_density_of_many_rows_take_nothing()
    {
        var (r, t, s) = (new double[1003], new double[1003], new double[1003]);
        Array.Fill(r, 0.9);
        // The low branch too.
        r[5] = 0.01;
        Array.Fill(t, 24);
        Assert.Equal(0, Taken(() => PracticalSalinityRows.FromConductivityRatios(r, t, t, s)));
        Assert.Equal(0, Taken(() => SeawaterDensityRows.ByEos80(s, t, t, s)));
    }

    [Fact]
    public async Task An_entry_that_is_appended_stays_within_its_budget()
    {
        await using var journal = await SqliteJournal.OpenAsync(
            Path.Combine(_folder, "append.db"),
            "test",
            TestContext.Current.CancellationToken
        );
        var at = 0;
        Draft[] drafts = [.. Enumerable.Range(0, 200).Select(Reading)];
        var perEntry = Taken(
            () => journal.AppendAsync([drafts[at++]]).AsTask().GetAwaiter().GetResult(),
            turns: 60
        );
        Assert.InRange(perEntry, 1, AppendBudget);
    }

    [Fact]
    public void An_entry_that_is_folded_stays_within_its_budget()
    {
        var entries = Sealed(2000);
        var perEntry =
            Taken(() => _ = Account.Of(entries).Subjects(SubjectKind.Vessel).Count()) / entries.Count;
        Assert.InRange(perEntry, 1, FoldBudget);
    }

    [Fact]
    public void A_row_of_a_loggers_file_stays_within_its_budget()
    {
        const int rows = 5000;
        var bytes = System.Text.Encoding.UTF8.GetBytes(
            "Zeit;Temperatur\n"
                + string.Concat(
                    Enumerable
                        .Range(0, rows)
                        .Select(row => $"01.02.2026 {row / 60 % 24:00}:{row % 60:00};24,{row % 100:00}\n")
                )
        );
        var map = new NotesMap
        {
            Delimiter = ';',
            DateColumn = 0,
            Order = DateOrder.DayMonthYear,
            Zone = "Europe/Berlin",
            Decimal = DecimalMark.Comma,
            Vessels = new Dictionary<string, string> { [""] = "Jar" },
            Columns = [new(1, ColumnMeaning.Reading, "Cel")],
            OneInMinutes = 24 * 60,
        };
        var jar = new VesselId(Guid.NewGuid());
        var perFile = Taken(() =>
        {
            using var file = new MemoryStream(bytes);
            var read = NotesReading.OfAsync(file, map, new Account(), Now, _ => jar);
            Assert.Equal(rows, read.GetAwaiter().GetResult().Value.Rows);
        });
        Assert.InRange(perFile / rows, 1, RowBudget);
    }

    [Fact]
    public void An_hour_of_a_vessels_twin_stays_within_its_budget()
    {
        var scene = SixtyDays.Scene();
        var start = SixtyDays.Start(scene);
        Assert.InRange(Taken(() => VesselTwin.Forward(start, scene, 240)) / 240, 1, TwinHourBudget);
    }

    [Fact]
    public void The_forecasts_of_a_house_stay_within_their_budget()
    {
        var account = Account.Of(SealedAll(InventedHouse.Drafts(Now, Zone)));
        Assert.NotEmpty(Outlook.Of(account, Now, Zone).Forecasts);
        Assert.InRange(Taken(() => _ = Outlook.Of(account, Now, Zone).Forecasts.Count), 1, ForecastBudget);
    }

    [Fact]
    public void The_estimate_of_larvae_stays_within_its_budget()
    {
        var account = Account.Of(SealedAll(SixCrossings.Drafts(Now, Zone)));
        var taken = Taken(
            () =>
            {
                var outlook = Outlook.Of(account, Now, Zone);
                Assert.NotEmpty(outlook.EstimateOf(outlook.Populations.Single()).Track);
            },
            turns: 2
        );
        Assert.InRange(taken, 1, EstimateBudget);
    }

    // Bytes of one turn: the least of several, after two that compile and fill what is kept.
    private static long Taken(Action work, int turns = 5)
    {
        work();
        work();
        var least = long.MaxValue;
        for (var turn = 0; turn < turns; turn++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            work();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }

    private static Draft Reading(int number) =>
        new(
            new(Guid.CreateVersion7()),
            new("Ada"),
            Now + Duration.FromMinutes(number),
            "Europe/Berlin",
            Happened.At(Now + Duration.FromMinutes(number)),
            new ReadingTaken(TypedNumber.Of(24, "Cel"), new VesselId(new Guid(7, 0, 0, new byte[8])))
        );

    private static List<Entry> Sealed(int count) =>
        SealedAll([.. Enumerable.Range(0, count).Select(Reading)]);

    private static List<Entry> SealedAll(IReadOnlyList<Draft> drafts)
    {
        var (replica, salt) = (new ReplicaId(Guid.NewGuid()), new byte[EntryBytes.SaltLength]);
        var entries = new List<Entry>();
        foreach (var draft in drafts)
        {
            var entry = draft.Seal(
                replica,
                entries.Count + 1,
                entries.Count == 0 ? null : entries[^1].Digest,
                salt
            );
            _ = entry.Fact;
            entries.Add(entry);
        }

        return entries;
    }
}
