using Broodtide.Storage;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Sensors.Tests;

/// <summary>A store on a disk that is full, until it is not.</summary>
internal sealed class FullAtFirst(IReadingStore inner) : IReadingStore
{
    public bool IsFull { get; set; } = true;

    public int Refusals { get; private set; }

    public ValueTask<Taken> TakeAsync(
        IReadOnlyList<SensorReading> readings,
        CancellationToken cancellation = default
    )
    {
        if (!IsFull)
        {
            return inner.TakeAsync(readings, cancellation);
        }

        Refusals++;
        throw new StoreUnusableException(new Remark("store-full"));
    }

    public ValueTask<IReadOnlyList<Sensor>> SensorsAsync(CancellationToken cancellation = default) =>
        inner.SensorsAsync(cancellation);

    public ValueTask DescribeAsync(
        SensorId sensor,
        SensorAbout about,
        Instant heard,
        CancellationToken cancellation = default
    ) => inner.DescribeAsync(sensor, about, heard, cancellation);

    public ValueTask<bool> PlaceAsync(
        SensorId sensor,
        Placement placement,
        CancellationToken cancellation = default
    ) => inner.PlaceAsync(sensor, placement, cancellation);

    public ValueTask<bool> LimitAsync(
        SensorId sensor,
        SensorLimits? limits,
        CancellationToken cancellation = default
    ) => inner.LimitAsync(sensor, limits, cancellation);

    public ValueTask<IReadOnlyList<RawReading>> OpenAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => inner.OpenAsync(sensor, from, to, cancellation);

    public ValueTask<IReadOnlyList<SensorDay>> OpenDaysAsync(
        LocalDate before,
        CancellationToken cancellation = default
    ) => inner.OpenDaysAsync(before, cancellation);

    public ValueTask<bool> CloseAsync(
        DayBlock block,
        IReadOnlyList<HourSummary>? hours,
        string? replaces,
        CancellationToken cancellation = default
    ) => inner.CloseAsync(block, hours, replaces, cancellation);

    public ValueTask<IReadOnlyList<BlockSeen>> BlocksAsync(
        SensorId sensor,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation = default
    ) => inner.BlocksAsync(sensor, from, to, cancellation);

    public ValueTask<Parsed<DayBlock>?> BlockAsync(string sha256, CancellationToken cancellation = default) =>
        inner.BlockAsync(sha256, cancellation);

    public ValueTask<IReadOnlyList<HourSummary>> HoursAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    ) => inner.HoursAsync(sensor, from, to, cancellation);

    public ValueTask PutAsync(AlarmSpan alarm, CancellationToken cancellation = default) =>
        inner.PutAsync(alarm, cancellation);

    public ValueTask<IReadOnlyList<AlarmSpan>> AlarmsAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => inner.AlarmsAsync(since, cancellation);

    public ValueTask<bool> ClaimAsync(
        string work,
        Guid holder,
        Instant now,
        Instant until,
        CancellationToken cancellation = default
    ) => inner.ClaimAsync(work, holder, now, until, cancellation);

    public ValueTask AddAsync(AlarmDelivery delivery, CancellationToken cancellation = default) =>
        inner.AddAsync(delivery, cancellation);

    public ValueTask<IReadOnlyList<AlarmDelivery>> DeliveriesAsync(
        Instant since,
        CancellationToken cancellation = default
    ) => inner.DeliveriesAsync(since, cancellation);

    public ValueTask DisposeAsync() => inner.DisposeAsync();
}
