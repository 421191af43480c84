using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>
/// What sensors read, in one SQLite file beside the journal and as durable as it. Blocks are rows named by their
/// content.
/// </summary>
public sealed class ReadingsFile : IReadingStore
{
    // "BrTs": a journal put in its place by mistake is not touched.
    private static readonly TableSteps Tables = new(
        0x42725473,
        "the readings of a Broodtide house",
        ReadingsSchema.Steps
    );

    private readonly Lock _gate = new();
    private readonly SqliteConnection _connection;
    private readonly SensorTable _sensors;
    private readonly ReadingTable _readings;
    private readonly BlockTable _blocks;
    private readonly AlarmTable _alarms;

    private ReadingsFile(SqliteConnection connection, string path)
    {
        _connection = connection;
        Path = path;
        var tables = new SharedTables(connection, text => text);
        var many = new SqliteReadings(connection);
        _sensors = new(tables, []);
        _readings = new(tables, _sensors, many);
        _blocks = new(tables, _sensors, many);
        _alarms = new(tables);
    }

    /// <summary>Where the file lies.</summary>
    public string Path { get; }

    /// <summary>Where the readings of a journal lie: journal.db has journal.sensors.db.</summary>
    /// <param name="journalPath">The journal's file.</param>
    public static string BesidePath(string journalPath)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(journalPath);
        return System.IO.Path.ChangeExtension(System.IO.Path.GetFullPath(journalPath), ".sensors.db");
    }

    /// <summary>Opens the file, making it where there is none.</summary>
    /// <param name="path">Place of the file; its folder must exist.</param>
    /// <exception cref="StoreUnusableException">
    /// The file is foreign, newer or damaged, or the disk does not keep what it promises. It was not changed.
    /// </exception>
    public static ReadingsFile Open(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        var connection = StoreSettings.ConnectionTo(path);
        try
        {
            connection.Open();
            Tables.RequireOurs(connection, path);
            StoreSettings.Apply(connection, path);
            Tables.Prepare(connection, path);
            return new ReadingsFile(connection, path);
        }
        catch (SqliteException failure)
        {
            connection.Dispose();
            throw StoreFailure.Of(path, failure);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        lock (_gate)
        {
            _connection.Dispose();
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Sensor>> SensorsAsync(CancellationToken cancellation = default) =>
        Asked(_sensors.All, cancellation);

    /// <inheritdoc/>
    public async ValueTask DescribeAsync(
        SensorId sensor,
        SensorAbout about,
        Instant heard,
        CancellationToken cancellation = default
    ) => await Changed(() => _sensors.Describe(sensor, about, heard), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> PlaceAsync(
        SensorId sensor,
        Placement placement,
        CancellationToken cancellation = default
    ) => Changed(() => _sensors.Place(sensor, placement), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> LimitAsync(
        SensorId sensor,
        SensorLimits? limits,
        CancellationToken cancellation = default
    ) => Changed(() => _sensors.Limit(sensor, limits), cancellation);

    /// <inheritdoc/>
    public ValueTask<Taken> TakeAsync(
        IReadOnlyList<SensorReading> readings,
        CancellationToken cancellation = default
    ) => Changed(() => _readings.Take(readings), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<RawReading>> OpenAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => Asked(() => _readings.Open(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<SensorDay>> OpenDaysAsync(
        LocalDate before,
        CancellationToken cancellation = default
    ) => Asked(() => _readings.OpenDays(before), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> CloseAsync(
        DayBlock block,
        IReadOnlyList<HourSummary>? hours,
        string? replaces,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(block);
        return Changed(() => _blocks.Close(block, hours, replaces), cancellation);
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<BlockSeen>> BlocksAsync(
        SensorId sensor,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation = default
    ) => Asked(() => _blocks.Between(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public ValueTask<Parsed<DayBlock>?> BlockAsync(string sha256, CancellationToken cancellation = default) =>
        Asked(() => _blocks.Read(sha256), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<HourSummary>> HoursAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => Asked(() => _blocks.Hours(sensor, from, to), cancellation);

    /// <inheritdoc/>
    public async ValueTask PutAsync(AlarmSpan alarm, CancellationToken cancellation = default) =>
        await Changed(() => _alarms.Put(alarm), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<AlarmSpan>> AlarmsAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => Asked(() => _alarms.Since(since), cancellation);

    /// <inheritdoc/>
    public ValueTask<bool> ClaimAsync(
        string work,
        Guid holder,
        Instant now,
        Instant until,
        CancellationToken cancellation = default
    ) => Changed(() => _alarms.Claim(work, holder, now, until), cancellation);

    /// <inheritdoc/>
    public async ValueTask AddAsync(AlarmDelivery delivery, CancellationToken cancellation = default) =>
        await Changed(() => _alarms.Add(delivery), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<AlarmDelivery>> DeliveriesAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => Asked(() => _alarms.Deliveries(since), cancellation);

    private ValueTask<T> Asked<T>(Func<T> question, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        lock (_gate)
        {
            return ValueTask.FromResult(Guarded(question));
        }
    }

    private ValueTask<T> Changed<T>(Func<T> change, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        lock (_gate)
        {
            return ValueTask.FromResult(Guarded(() => _connection.Within(change)));
        }
    }

    private T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(Path, failure);
        }
    }
}
