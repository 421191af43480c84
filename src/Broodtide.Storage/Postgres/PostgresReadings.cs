using System.Collections.Concurrent;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>The readings of sensors in the house's database, a table a month.</summary>
public sealed class PostgresReadings : IReadingStore
{
    private readonly PostgresStore _store;
    private readonly ConcurrentDictionary<SensorId, long> _numbers = [];
    private readonly ConcurrentDictionary<YearMonth, bool> _months = [];

    private PostgresReadings(PostgresStore store) => _store = store;

    /// <summary>
    /// Opens the readings of a database; the tables of the months to come are made. It stays open when they are
    /// disposed of.
    /// </summary>
    /// <param name="store">The database.</param>
    /// <param name="now">Whose month is the first to be made ahead.</param>
    /// <exception cref="StoreUnusableException">The database cannot be reached, or failed.</exception>
    public static PostgresReadings Open(PostgresStore store, Instant now)
    {
        ArgumentNullException.ThrowIfNull(store);
        var readings = new PostgresReadings(store);
        readings.Foresee(
            Enumerable.Range(0, PostgresMonths.Ahead).Select(now.InUtc().Date.ToYearMonth().PlusMonths)
        );
        return readings;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Sensor>> SensorsAsync(CancellationToken cancellation = default) =>
        Asked(tables => tables.Sensors.All(), cancellation);

    /// <inheritdoc/>
    public async ValueTask DescribeAsync(
        SensorId sensor,
        SensorAbout about,
        Instant heard,
        CancellationToken cancellation = default
    ) => await Changed(tables => tables.Sensors.Describe(sensor, about, heard), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> PlaceAsync(
        SensorId sensor,
        Placement placement,
        CancellationToken cancellation = default
    ) => Changed(tables => tables.Sensors.Place(sensor, placement), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> LimitAsync(
        SensorId sensor,
        SensorLimits? limits,
        CancellationToken cancellation = default
    ) => Changed(tables => tables.Sensors.Limit(sensor, limits), cancellation);

    /// <inheritdoc/>
    public ValueTask<Taken> TakeAsync(
        IReadOnlyList<SensorReading> readings,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(readings);
        Foresee(
            readings
                .Select(one => PostgresMonths.MonthOf(RawReading.Cut(one.Reading.At).Milliseconds()))
                .SelectMany(month => (YearMonth[])[month, month.PlusMonths(1)])
        );
        return Changed(tables => tables.Readings.Take(readings), cancellation);
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<RawReading>> OpenAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Readings.Open(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<SensorDay>> OpenDaysAsync(
        LocalDate before,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Readings.OpenDays(before), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> CloseAsync(
        DayBlock block,
        IReadOnlyList<HourSummary>? hours,
        string? replaces,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(block);
        Foresee(
            (hours ?? [])
                .Select(hour => PostgresMonths.MonthOf(hour.From.Milliseconds()))
                .Append(block.Day.Day.ToYearMonth())
        );
        return Changed(tables => tables.Blocks.Close(block, hours, replaces), cancellation);
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<BlockSeen>> BlocksAsync(
        SensorId sensor,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Blocks.Between(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public ValueTask<Parsed<DayBlock>?> BlockAsync(string sha256, CancellationToken cancellation = default) =>
        Asked(tables => tables.Blocks.Read(sha256), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<HourSummary>> HoursAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Blocks.Hours(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public async ValueTask PutAsync(AlarmSpan alarm, CancellationToken cancellation = default) =>
        await Changed(tables => tables.Alarms.Put(alarm), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<AlarmSpan>> AlarmsAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Alarms.Since(since), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> ClaimAsync(
        string work,
        Guid holder,
        Instant now,
        Instant until,
        CancellationToken cancellation = default
    ) => Changed(tables => tables.Alarms.Claim(work, holder, now, until), cancellation);

    /// <inheritdoc/>
    public async ValueTask AddAsync(AlarmDelivery delivery, CancellationToken cancellation = default) =>
        await Changed(tables => tables.Alarms.Add(delivery), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<AlarmDelivery>> DeliveriesAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => Asked(tables => tables.Alarms.Deliveries(since), cancellation);

    private void Foresee(IEnumerable<YearMonth> months)
    {
        var missing = months.Distinct().Where(month => !_months.ContainsKey(month)).ToList();
        if (missing.Count == 0)
        {
            return;
        }

        _store.Change(connection =>
        {
            var there = PostgresMonths.There(connection);
            foreach (var month in missing.Where(month => !there.Contains(month)))
            {
                PostgresMonths.Make(connection, month, 1);
            }

            return true;
        });
        foreach (var month in missing)
        {
            _months[month] = true;
        }
    }

    private ValueTask<T> Asked<T>(Func<Tables, T> question, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        return ValueTask.FromResult(_store.Ask(connection => question(new Tables(connection, _numbers))));
    }

    // Readings of one sensor wait for each other by its row, not for the journal.
    private ValueTask<T> Changed<T>(Func<Tables, T> change, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        return ValueTask.FromResult(_store.Change(connection => change(new Tables(connection, _numbers))));
    }

    private sealed class Tables
    {
        public Tables(NpgsqlConnection connection, ConcurrentDictionary<SensorId, long> numbers)
        {
            var tables = new SharedTables(connection, PostgresHouse.Dialect);
            var many = new PostgresManyReadings(connection);
            Sensors = new(tables, numbers);
            Readings = new(tables, Sensors, many);
            Blocks = new(tables, Sensors, many);
            Alarms = new(tables);
        }

        public SensorTable Sensors { get; }

        public ReadingTable Readings { get; }

        public BlockTable Blocks { get; }

        public AlarmTable Alarms { get; }
    }
}
