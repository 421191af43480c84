using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>A block that a store holds, without its readings.</summary>
/// <param name="Sha256">Its name: 64 lower-case hex figures.</param>
/// <param name="Day">Its day.</param>
/// <param name="Count">How many readings it holds.</param>
/// <param name="IsThinned">Whether it holds a selection.</param>
public sealed record BlockSeen(string Sha256, LocalDate Day, int Count, bool IsThinned);

/// <summary>
/// Keeps what sensors read: readings as they arrive, closed days as blocks named by their content, hours, and alarms.
/// What a call has answered for is on the disk. Several programs may use one store at once.
/// </summary>
public interface IReadingStore : IAsyncDisposable
{
    /// <summary>Every sensor, in the order of the letters of its identity.</summary>
    ValueTask<IReadOnlyList<Sensor>> SensorsAsync(CancellationToken cancellation = default);

    /// <summary>Keeps what a sensor says of itself. The first unit and the first time of hearing stay.</summary>
    ValueTask DescribeAsync(
        SensorId sensor,
        SensorAbout about,
        Instant heard,
        CancellationToken cancellation = default
    );

    /// <summary>Keeps from when a described sensor stands where. One from the same time takes the other's place.</summary>
    /// <returns>Whether there is such a sensor.</returns>
    ValueTask<bool> PlaceAsync(
        SensorId sensor,
        Placement placement,
        CancellationToken cancellation = default
    );

    /// <summary>Keeps a keeper's limits of a described sensor, or that there are none of his own.</summary>
    /// <returns>Whether there is such a sensor.</returns>
    ValueTask<bool> LimitAsync(
        SensorId sensor,
        SensorLimits? limits,
        CancellationToken cancellation = default
    );

    /// <summary>
    /// Keeps readings of described sensors until their day is closed, all of them or none. Of one sensor at one time the
    /// first stays. Readings of a day that is closed already are kept too: its block is made anew when it is closed again.
    /// </summary>
    /// <exception cref="KeyNotFoundException">A sensor was never described. Nothing was kept.</exception>
    ValueTask<Taken> TakeAsync(
        IReadOnlyList<SensorReading> readings,
        CancellationToken cancellation = default
    );

    /// <summary>The readings of a sensor that are in no block yet, from an instant until before another, by time.</summary>
    ValueTask<IReadOnlyList<RawReading>> OpenAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    );

    /// <summary>The days before one that have readings in no block, by day and sensor.</summary>
    ValueTask<IReadOnlyList<SensorDay>> OpenDaysAsync(
        LocalDate before,
        CancellationToken cancellation = default
    );

    /// <summary>
    /// Makes a block the one of its sensor and day, all or nothing: the block it takes the place of goes, and so do the
    /// open readings at the times that it holds. An open reading at another time stays.
    /// </summary>
    /// <param name="block">The block.</param>
    /// <param name="hours">The hours of its day, which take the place of those before; none leaves them as they are.</param>
    /// <param name="replaces">The name of the block that stands there; none if there is none.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>False, and nothing was changed, where another block stands there by now.</returns>
    ValueTask<bool> CloseAsync(
        DayBlock block,
        IReadOnlyList<HourSummary>? hours,
        string? replaces,
        CancellationToken cancellation = default
    );

    /// <summary>The blocks of a sensor, from a day to another, both in, by day.</summary>
    ValueTask<IReadOnlyList<BlockSeen>> BlocksAsync(
        SensorId sensor,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation = default
    );

    /// <summary>The block of a name; none where it is not here, a reason where its bytes are not those of its name.</summary>
    ValueTask<Parsed<DayBlock>?> BlockAsync(string sha256, CancellationToken cancellation = default);

    /// <summary>The hours of closed days of a sensor, from an instant until before another, by time.</summary>
    ValueTask<IReadOnlyList<HourSummary>> HoursAsync(
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    );

    /// <summary>
    /// Keeps an alarm by its identity. An end and an acknowledgement that are there already stay, whatever a later call
    /// says of them; the value furthest outside is the one of the later call.
    /// </summary>
    ValueTask PutAsync(AlarmSpan alarm, CancellationToken cancellation = default);

    /// <summary>The alarms that lasted at an instant or after it, by their beginning.</summary>
    ValueTask<IReadOnlyList<AlarmSpan>> AlarmsAsync(Instant since, CancellationToken cancellation = default);

    /// <summary>
    /// Claims a work that only one program may do at a time, until an instant. Who claims it again before then keeps it; who
    /// does not loses it to whoever claims it after that instant.
    /// </summary>
    /// <param name="work">Which work.</param>
    /// <param name="holder">Who claims it.</param>
    /// <param name="now">The time.</param>
    /// <param name="until">Until when.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>Whether it is the holder's; false where another one has it.</returns>
    ValueTask<bool> ClaimAsync(
        string work,
        Guid holder,
        Instant now,
        Instant until,
        CancellationToken cancellation = default
    );

    /// <summary>Keeps that somebody was told of an alarm, or could not be.</summary>
    ValueTask AddAsync(AlarmDelivery delivery, CancellationToken cancellation = default);

    /// <summary>The tries since an instant, by time.</summary>
    ValueTask<IReadOnlyList<AlarmDelivery>> DeliveriesAsync(
        Instant since,
        CancellationToken cancellation = default
    );
}
