using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>One reading of a sensor. Two of one sensor at one time are one.</summary>
/// <param name="At">When it was read, by the device's clock, in whole milliseconds.</param>
/// <param name="Value">What it showed, in the sensor's unit: a finite number.</param>
public readonly record struct RawReading(Instant At, double Value)
{
    /// <summary>A time as readings carry it: cut to whole milliseconds.</summary>
    /// <param name="instant">Any time.</param>
    public static Instant Cut(Instant instant) =>
        Instant.FromUnixTimeMilliseconds(instant.ToUnixTimeMilliseconds());
}

/// <summary>A reading and the sensor that took it.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="Reading">What it read.</param>
public readonly record struct SensorReading(SensorId Sensor, RawReading Reading);

/// <summary>What became of readings that were handed to a store.</summary>
/// <param name="New">How many were not there yet.</param>
/// <param name="Known">How many were there already, by sensor and time; the first one stays.</param>
public readonly record struct Taken(int New, int Known);

/// <summary>A sensor and a day of UTC.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="Day">The day.</param>
public readonly record struct SensorDay(SensorId Sensor, LocalDate Day)
{
    /// <summary>The beginning of the day.</summary>
    public Instant From => Day.AtStartOfDayInZone(DateTimeZone.Utc).ToInstant();

    /// <summary>The end of the day, which is no longer in it.</summary>
    public Instant To => From + Duration.FromDays(1);
}
